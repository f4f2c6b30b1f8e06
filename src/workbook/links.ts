import { type CellRange, parseRange } from "../formula/address";
import { NAMESPACES } from "./namespaces";
import type { WorkbookPackage } from "./package";
import type { XmlElement } from "./xml";
import { decodeXstring } from "./xstring";

/**
 * A link of some cells (ECMA-376 part 1, 18.3.1.47): to an address outside the file, to a place in it, or to something that a
 * page must not open.
 */
export type CellLink = { readonly range: CellRange } & (
  { readonly address: string } | { readonly reference: string } | { readonly unopened: string }
);

/** Addresses that a page may open; others, such as scripts and files of this computer, stay in the file only. */
const OPENED = /^(?:https?:|mailto:|tel:)/i;

/** The links of a sheet's cells, and whether there are others that a page must not follow. */
export function readLinks(
  root: XmlElement,
  parts: WorkbookPackage,
  sheetPart: string,
): { readonly links: readonly CellLink[]; readonly hasOthers: boolean } {
  const targets = new Map(
    parts
      .relationships(sheetPart)
      .filter(({ kind, isExternal }) => kind === "hyperlink" && isExternal)
      .map(({ id, target }) => [id, target]),
  );
  const found = (root.child("hyperlinks")?.all("hyperlink") ?? []).map((element): CellLink | undefined => {
    const range = parseRange(element.get("ref") ?? "");
    const address = targets.get(element.getQualified(NAMESPACES.relationships, "id") ?? "");
    const location = decodeXstring(element.get("location") ?? "");
    if (range === undefined) return undefined;
    if (address === undefined) return location === "" ? undefined : { range, reference: location };
    if (!OPENED.test(address)) return { range, unopened: address };
    return { range, address: location === "" ? address : `${address}#${location}` };
  });
  const links = found.filter((link) => link !== undefined);
  return { links, hasOthers: links.length < found.length || links.some((link) => "unopened" in link) };
}
