import type { WrittenCell } from "./grid-cells";
import { type ReaderLocale, readTyped } from "./typed-value";

/** Cells from another program's clipboard. */
export interface ClipboardCells {
  readonly rows: readonly (readonly WrittenCell[])[];
}

/** Cells that a clipboard holds as HTML of a spreadsheet or as tabbed text; undefined where it holds neither. */
export function readClipboard(html: string, text: string, locale: ReaderLocale): ClipboardCells | undefined {
  const rows = /<table\b/i.test(html) ? readTable(html, locale) : readTabs(text, locale);
  return rows.length === 0 ? undefined : { rows };
}

function readTabs(text: string, locale: ReaderLocale): readonly (readonly WrittenCell[])[] {
  if (text === "") return [];
  const rows: string[][] = [[]];
  let at = 0;
  while (at < text.length) {
    const row = rows.at(-1) ?? [];
    // A cell with line breaks stands in quotes.
    const quoted = /^"((?:[^"]|"")*)"(?=[\t\r\n]|$)/.exec(text.slice(at));
    const plain = /^[^\t\r\n]*/.exec(text.slice(at))?.[0] ?? "";
    row.push(quoted?.[1]?.replaceAll('""', '"') ?? plain);
    at += quoted?.[0].length ?? plain.length;
    if (text.startsWith("\t", at)) {
      at++;
      if (at === text.length) row.push("");
      continue;
    }
    at += text.startsWith("\r\n", at) ? 2 : 1;
    if (at < text.length) rows.push([]);
  }
  return rows.map((cells) => cells.map((cell) => cellOf(cell, locale)));
}

function cellOf(text: string, locale: ReaderLocale): WrittenCell {
  if (text.trim() === "") return { content: null };
  const read = readTyped(text, locale);
  if (read && typeof read.value === "number")
    return { content: read.value, ...("numberFormat" in read && { numberFormat: read.numberFormat }) };
  if (/^(?:TRUE|FALSE)$/i.test(text)) return { content: text.toUpperCase() === "TRUE" };
  return { content: text };
}

const ENTITIES: Readonly<Record<string, string>> = {
  amp: "&",
  lt: "<",
  gt: ">",
  quot: '"',
  apos: "'",
  nbsp: " ",
  euro: "€",
  pound: "£",
};

function decode(text: string): string {
  return text.replace(
    /&(?:#(\d+)|#x([0-9a-f]+)|(\w+));/gi,
    (whole, decimal?: string, hex?: string, name?: string) => {
      const code =
        decimal !== undefined ? Number(decimal) : hex !== undefined ? parseInt(hex, 16) : undefined;
      if (code !== undefined) return code <= 0x10ffff ? String.fromCodePoint(code) : "";
      return ENTITIES[(name ?? "").toLowerCase()] ?? whole;
    },
  );
}

function attributesOf(tag: string): ReadonlyMap<string, string> {
  const found = tag.matchAll(/([\w:-]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s>]+)))?/g);
  return new Map(
    [...found].slice(1).map(([, name = "", a, b, c]) => [name.toLowerCase(), decode(a ?? b ?? c ?? "")]),
  );
}

interface OpenCell {
  readonly attributes: ReadonlyMap<string, string>;
  text: string;
}

/** Reads the first table without building a document: its styles would break the page's policy. */
function readTable(html: string, locale: ReaderLocale): readonly (readonly WrittenCell[])[] {
  const classes = classFormats(html);
  const rows: WrittenCell[][] = [];
  const taken: boolean[][] = [];
  let cell: OpenCell | undefined;
  const close = (): void => {
    if (!cell) return;
    const row = Math.max(0, rows.length - 1);
    const cells = (rows[row] ??= []);
    let column = 0;
    while (taken[row]?.[column]) column++;
    const span = (name: string): number =>
      Math.min(1000, Math.max(1, Number(cell?.attributes.get(name)) || 1));
    for (let down = 0; down < span("rowspan"); down++) {
      for (let across = 0; across < span("colspan"); across++)
        (taken[row + down] ??= [])[column + across] = true;
    }
    while (cells.length < column) cells.push({ content: null });
    cells.push(tableCell(cell, classes, locale));
    for (let more = span("colspan"); more > 1; more--) cells.push({ content: null });
    cell = undefined;
  };
  const start = html.search(/<table\b/i);
  const pieces = html
    .slice(start)
    .matchAll(/<!--[\s\S]*?-->|<style[\s\S]*?<\/style>|<(\/?)([a-z]\w*)([^>]*)>|([^<]+)/gi);
  for (const [piece, slash, name, , text] of pieces) {
    if (text !== undefined) {
      if (cell) cell.text += text.replace(/\s+/g, " ");
      continue;
    }
    const tag = name?.toLowerCase();
    if (tag === "table" && slash === "/") break;
    if (tag === "tr" && slash === "") {
      close();
      rows.push([]);
    } else if (tag === "td" || tag === "th") {
      close();
      if (slash === "") cell = { attributes: attributesOf(piece), text: "" };
    } else if (tag === "tr") close();
    else if (tag === "br" && cell) cell.text += "\n";
  }
  close();
  return rows;
}

function tableCell(
  { attributes, text }: OpenCell,
  classes: ReadonlyMap<string, string>,
  locale: ReaderLocale,
): WrittenCell {
  const shown = decode(text)
    .replace(/\u00a0/g, " ")
    .replace(/ ?\n ?/g, "\n")
    .trim();
  const format =
    officeFormat(/mso-number-format:\s*("[^"]*"|'[^']*'|[^;]+)/i.exec(attributes.get("style") ?? "")?.[1]) ??
    classes.get(attributes.get("class") ?? "") ??
    attributes.get("sdnum")?.split(";").slice(2).join(";") ??
    sheetsFormat(attributes.get("data-sheets-numberformat"));
  const number =
    attributes.get("x:num") ?? attributes.get("sdval") ?? sheetsNumber(attributes.get("data-sheets-value"));
  const isText = format === "@" || attributes.has("x:str");
  const exact =
    number === "" ? Number(shown.replaceAll(",", "")) : number === undefined ? NaN : Number(number);
  const hasFormat = format !== undefined && format !== "" && format !== "General";
  if (!isText && shown !== "" && Number.isFinite(exact))
    return { content: exact, ...(hasFormat && { numberFormat: format }) };
  if (isText) return { content: shown === "" ? null : shown };
  const read = cellOf(shown, locale);
  return typeof read.content === "number" && hasFormat ? { ...read, numberFormat: format } : read;
}

/** Number formats of the classes in the style sheet that comes with the table. */
function classFormats(html: string): ReadonlyMap<string, string> {
  const formats = new Map<string, string>();
  for (const [, name = "", body = ""] of html.matchAll(/\.([\w-]+)\s*\{([^}]*)\}/g)) {
    const format = officeFormat(/mso-number-format:\s*("(?:[^"\\]|\\.)*"|[^;\s]+)/i.exec(body)?.[1]);
    if (format !== undefined) formats.set(name, format);
  }
  return formats;
}

const NAMED_FORMATS: Readonly<Record<string, string>> = {
  general: "General",
  fixed: "0.00",
  standard: "#,##0.00",
  percent: "0.00%",
  "short date": "yyyy-mm-dd",
  "medium date": "dd-mmm-yy",
  "long date": "dd mmmm yyyy",
  "short time": "h:mm",
  "medium time": "h:mm AM/PM",
  "long time": "h:mm:ss",
  scientific: "0.00E+00",
};

/** A number format out of a style rule: signs are escaped one by one. */
function officeFormat(written: string | undefined): string | undefined {
  if (written === undefined) return undefined;
  const plain = written
    .trim()
    .replace(/^["']|["']$/g, "")
    .replace(/\\([0-9a-f]{4})/gi, (_, code: string) => String.fromCharCode(parseInt(code, 16)))
    .replace(/\\(.)/g, "$1");
  return NAMED_FORMATS[plain.toLowerCase()] ?? plain;
}

function jsonOf(text: string | undefined): Readonly<Record<string, unknown>> | undefined {
  try {
    const value: unknown = JSON.parse(text ?? "");
    return typeof value === "object" && value !== null
      ? (value as Readonly<Record<string, unknown>>)
      : undefined;
  } catch {
    return undefined;
  }
}

/** Web sheets say the kind of a value under 1 and a number under 3. */
function sheetsNumber(text: string | undefined): string | undefined {
  const value = jsonOf(text)?.["3"];
  return typeof value === "number" ? String(value) : undefined;
}

function sheetsFormat(text: string | undefined): string | undefined {
  const value = jsonOf(text)?.["2"];
  return typeof value === "string" ? value : undefined;
}
