import { strToU8, zipSync } from "fflate";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/** What a hand-written workbook differs in from the smallest one. */
export interface TinyWorkbook {
  /** Content of `sheetData`. */
  readonly rows?: string;
  /** Markup before and behind `sheetData`. */
  readonly before?: string;
  readonly behind?: string;
  /** Content of `sst`. */
  readonly strings?: string;
  /** Content of `styleSheet`. */
  readonly styles?: string;
  /** Content of `workbook` beside the sheets. */
  readonly workbookBefore?: string;
  readonly workbookBehind?: string;
  /** Parts by name, added or replaced; null removes one. */
  readonly parts?: Readonly<Record<string, string | Uint8Array | null>>;
  /** More `Override` elements and more relationships of the workbook. */
  readonly overrides?: string;
  readonly links?: string;
}

/** The parts of a small workbook written by hand, with one sheet named `Sheet one`. */
export function tinyParts(tiny: TinyWorkbook = {}): Record<string, string | Uint8Array> {
  const { rows = "", before = "", behind = "", strings, styles } = tiny;
  const override = (part: string, kind: string): string => {
    return `<Override PartName="/${part}" ContentType="${SPREADSHEET}.${kind}+xml"/>`;
  };
  const link = (id: string, kind: string, target: string): string => {
    return `<Relationship Id="${id}" Type="${OFFICE}/${kind}" Target="${target}"/>`;
  };
  const parts: Record<string, string | Uint8Array> = {
    "[Content_Types].xml":
      `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
      override("xl/workbook.xml", "sheet.main") +
      override("xl/worksheets/sheet1.xml", "worksheet") +
      override("xl/sharedStrings.xml", "sharedStrings") +
      override("xl/styles.xml", "styles") +
      `${tiny.overrides ?? ""}</Types>`,
    "_rels/.rels": `<Relationships xmlns="${PACKAGE}/relationships">${link("rId1", "officeDocument", "xl/workbook.xml")}</Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}">${tiny.workbookBefore ?? ""}<sheets><sheet name="Sheet one" sheetId="1" r:id="rId1"/></sheets>${tiny.workbookBehind ?? ""}</workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${PACKAGE}/relationships">${link("rId1", "worksheet", "worksheets/sheet1.xml")}${link("rId2", "sharedStrings", "sharedStrings.xml")}${link("rId3", "styles", "styles.xml")}${tiny.links ?? ""}</Relationships>`,
    "xl/worksheets/sheet1.xml": `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}">${before}<sheetData>${rows}</sheetData>${behind}</worksheet>`,
    ...(strings === undefined ? {} : { "xl/sharedStrings.xml": `<sst xmlns="${MAIN}">${strings}</sst>` }),
    ...(styles === undefined
      ? {}
      : { "xl/styles.xml": `<styleSheet xmlns="${MAIN}">${styles}</styleSheet>` }),
  };
  for (const [name, content] of Object.entries(tiny.parts ?? {})) {
    if (content === null) Reflect.deleteProperty(parts, name);
    else parts[name] = content;
  }
  return parts;
}

/** Packs parts with a ZIP writer other than the one under test. */
export function zipParts(parts: Readonly<Record<string, string | Uint8Array>>): Uint8Array {
  const entries = Object.entries(parts).map(([name, content]) => {
    return [name, typeof content === "string" ? strToU8(content) : content] as const;
  });
  return zipSync(Object.fromEntries(entries), { mtime: "2020-01-01" });
}

/** A small workbook written by hand. */
export function tinyWorkbook(tiny: TinyWorkbook = {}): Uint8Array {
  return zipParts(tinyParts(tiny));
}
