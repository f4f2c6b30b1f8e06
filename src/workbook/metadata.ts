import type { WorkbookPackage } from "./package";
import { appendTo, applyEdits, readXml, XML_DECLARATION, type XmlEdit, type XmlElement } from "./xml";

// A formula that spills is marked by the attribute cm of its cell: a one-based index into cellMetadata of
// xl/metadata.xml, whose record leads to a property fDynamic (MS-XLSX, dynamicArrayProperties).

const CONTENT_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml";
const TYPE_NAME = "XLDAPR";
const TYPE_ATTRIBUTES = `name="${TYPE_NAME}" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"`;
const EXTENSION = "{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}";
const PROPERTIES = `<xda:dynamicArrayProperties xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="1" fCollapsed="0"/>`;
/** What stands before cellMetadata in the schema's order. */
const BEFORE_CELLS = ["metadataTypes", "metadataStrings", "mdxMetadata", "futureMetadata"];

/** Values of the attribute cm that mark a spilling formula. */
export function dynamicMarks(parts: WorkbookPackage, workbookPart: string): ReadonlySet<number> {
  const [part] = parts.linked(workbookPart, "sheetMetadata");
  return new Set(part === undefined || !parts.has(part) ? [] : marksOf(readXml(parts.readText(part), part)));
}

/** A value of cm that marks a spilling formula; adds to the package what it lacks for one. */
export function ensureDynamicMark(parts: WorkbookPackage, workbookPart: string): number {
  let [part] = parts.linked(workbookPart, "sheetMetadata");
  if (part === undefined || !parts.has(part)) {
    part = parts.has("xl/metadata.xml") ? parts.freeName("xl/metadata", ".xml") : "xl/metadata.xml";
    parts.add(part, CONTENT_TYPE, `${XML_DECLARATION}<metadata xmlns="${parts.mainNamespace}"/>`);
    parts.link(workbookPart, "sheetMetadata", part);
  }
  const text = parts.readText(part);
  const root = readXml(text, part);
  if (root.isSelfClosing) {
    parts.writeText(part, applyEdits(text, [appendTo(root, "")]));
    return ensureDynamicMark(parts, workbookPart);
  }
  const [known] = marksOf(root);
  if (known !== undefined) return known;
  const types = root.child("metadataTypes");
  const future = root.all("futureMetadata").find((list) => list.get("name") === TYPE_NAME);
  const cells = root.child("cellMetadata");
  const typeNames = types?.all("metadataType").map((type) => type.get("name")) ?? [];
  const hasType = typeNames.includes(TYPE_NAME);
  const typeNumber = hasType ? typeNames.indexOf(TYPE_NAME) + 1 : typeNames.length + 1;
  const extension = root.wrap("ext", `uri="${EXTENSION}"`, PROPERTIES);
  const property = root.wrap("bk", "", root.wrap("extLst", "", extension));
  const index = String(future?.all("bk").length ?? 0);
  const record = root.wrap("bk", "", root.wrap("rc", `t="${String(typeNumber)}" v="${index}"`, ""));
  const body = [
    ...(hasType ? [] : [grow(types, "metadataTypes", "", root.wrap("metadataType", TYPE_ATTRIBUTES, ""))]),
    grow(future, "futureMetadata", `name="${TYPE_NAME}" `, property),
    grow(cells, "cellMetadata", "", record),
  ];
  parts.writeText(part, applyEdits(text, body.flat()));
  return (cells?.all("bk").length ?? 0) + 1;

  /** Adds a record to a list, or the list with the record at its place in the schema's order. */
  function grow(
    list: XmlElement | undefined,
    local: string,
    attributes: string,
    markup: string,
  ): readonly XmlEdit[] {
    if (list === undefined) {
      const before = BEFORE_CELLS.slice(0, local === "metadataTypes" ? 0 : undefined);
      const last = root.children.filter((child) => before.includes(child.local)).at(-1);
      const added = root.wrap(local, `${attributes}count="1"`, markup);
      const at = last?.end ?? root.contentStart;
      return [{ start: at, end: at, text: added }];
    }
    const content = text.slice(list.contentStart, list.contentEnd) + markup;
    const open = list.openTag({ count: String(list.children.length + 1) });
    return [{ start: list.start, end: list.end, text: `${open}${content}</${list.name}>` }];
  }
}

function marksOf(root: XmlElement): number[] {
  const types = root.child("metadataTypes")?.all("metadataType") ?? [];
  const future = root.all("futureMetadata").find((list) => list.get("name") === TYPE_NAME);
  const isDynamic = (future?.all("bk") ?? []).map((record) => {
    const extensions = record.child("extLst")?.all("ext") ?? [];
    return extensions.some((ext) => ext.children.some((property) => property.flag("fDynamic")));
  });
  const records = root.child("cellMetadata")?.all("bk") ?? [];
  return records.flatMap((record, i) => {
    const marks = record.all("rc").some((rc) => {
      const type = types[(rc.number("t") ?? 0) - 1];
      return type?.get("name") === TYPE_NAME && isDynamic[rc.number("v") ?? -1] === true;
    });
    return marks ? [i + 1] : [];
  });
}
