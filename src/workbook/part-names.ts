import type { XmlElement } from "./xml";
import { WorkbookError } from "./model";

/** The part that stands for the package itself as a relationship's source. */
export const PACKAGE_ROOT = "";

/** The part that tells the content types of all others. */
export const TYPES_PART = "[Content_Types].xml";

/** The part that holds another part's links. */
export function relationshipsPart(source: string): string {
  const cut = source.lastIndexOf("/") + 1;
  return `${source.slice(0, cut)}_rels/${source.slice(cut)}.rels`;
}

/** The part of the package that a link of another part leads to; undefined where it leads out of the file. */
export function resolveTarget(source: string, element: XmlElement): string | undefined {
  if (element.get("TargetMode")?.toLowerCase() === "external") return undefined;
  const [target = ""] = (element.get("Target") ?? "").split("#");
  const segments = target.startsWith("/") ? [] : source.split("/").slice(0, -1);
  for (const segment of target.split("/")) {
    if (segment === "" || segment === ".") continue;
    // One more .. than there are folders stays at the root (RFC 3986, 5.2.4); LibreOffice writes it.
    if (segment === "..") segments.pop();
    else segments.push(segment);
  }
  return segments.join("/");
}

/** The key under which a part is kept: names differ only by more than case. Throws for names that leave the package. */
export function partKey(name: string): string {
  const folder = name.endsWith("/") ? name.slice(0, -1) : name;
  const isSafe = folder.split("/").every((segment) => !["", ".", ".."].includes(segment));
  if (!isSafe || /[\\:]|\p{Cc}/u.test(name)) {
    throw new WorkbookError(`the file is refused: its part ${JSON.stringify(name)} has an unsafe name`);
  }
  return name.toLowerCase();
}
