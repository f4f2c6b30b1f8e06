import { FilledRanges } from "../workbook/filled-ranges";
import type { BorderEdge, CellStyle, SheetModel, WorkbookCell } from "../workbook/model";
import type { OpenWorkbook } from "../workbook/read";
import { type PrintSetup, printSetup } from "../workbook/print-setup";
import { HEADING_FILL, HEADING_INK, headingCells } from "../workbook/table-headings";
import { escapeText } from "../workbook/xml";
import { fontFamily, standInSize } from "./font-family";
import { readableInk } from "./ink";
import { fittedNumber } from "./number-fit";
import { type PrintedBlock, type SheetPages, sheetPages } from "./pages";
import { type Running, runningSides } from "./running-text";
import { shownCell } from "./shown-cell";

/** A sheet on paper: style rules that hold below an element of class `paper`, and what stands in that element. */
export interface Paper {
  readonly css: string;
  readonly markup: string;
}

/** Padding of a cell at each side in pixels, and the size of a font that no file names in points. */
const PADDING = 3;
const FONT_SIZE = 11;
/** Width of signs as shares of the font's size: digits, and signs that are narrow in every usual face. */
const DIGIT = 0.5;
const NARROW = 0.25;

const LINES: Readonly<Record<string, string>> = {
  hair: "1px dotted",
  dotted: "1px dotted",
  dashed: "1px dashed",
  dashDot: "1px dashed",
  dashDotDot: "1px dashed",
  double: "3px double",
  medium: "2px solid",
  mediumDashed: "2px dashed",
  mediumDashDot: "2px dashed",
  mediumDashDotDot: "2px dashed",
  slantDashDot: "2px dashed",
  thick: "3px solid",
};

/** Collects style rules; what looks alike shares a class. */
class Classes {
  private readonly names = new Map<string, string>();

  /** The class with some declarations. */
  of(declarations: string): string {
    const name = this.names.get(declarations) ?? `p${this.names.size.toString(36)}`;
    this.names.set(declarations, name);
    return name;
  }

  get rules(): readonly string[] {
    return [...this.names].map(([declarations, name]) => `.paper .${name}{${declarations}}`);
  }
}

function widthOf(fontPixels: number): (text: string) => number {
  return (text) =>
    [...text].reduce((sum, sign) => sum + (/[.,:;' |]/.test(sign) ? NARROW : DIGIT) * fontPixels, 0);
}

/** Makes the cells of one sheet. */
class SheetMarkup {
  private readonly headings: ReadonlySet<string>;
  private readonly merges: FilledRanges;

  constructor(
    private readonly model: OpenWorkbook["model"],
    position: number,
    private readonly sheet: SheetModel,
    private readonly setup: PrintSetup,
    private readonly pages: SheetPages,
    private readonly classes: Classes,
  ) {
    this.headings = headingCells(model.tables.filter((table) => table.sheet === position));
    this.merges = new FilledRanges(sheet.merges);
  }

  block({ headRows, rows, columns, beginsPage }: PrintedBlock, isFirst: boolean): string {
    const { classes, pages, setup } = this;
    const total = columns.reduce((sum, column) => sum + pages.width(column), 0);
    const look = classes.of(
      `width:${this.px(total)}${setup.isCentred ? ";margin:0 auto" : ""}${beginsPage && !isFirst ? ";break-before:page" : ""}`,
    );
    const widths = columns.map(
      (column) => `<col class="${classes.of(`width:${this.px(pages.width(column))}`)}">`,
    );
    const lines = (list: readonly number[]): string =>
      list.map((row) => this.row(row, list, columns)).join("");
    const head = headRows.length === 0 ? "" : `<thead>${lines(headRows)}</thead>`;
    return `<table class="${look}"><colgroup>${widths.join("")}</colgroup>${head}<tbody>${lines(rows)}</tbody></table>`;
  }

  private row(row: number, rows: readonly number[], columns: readonly number[]): string {
    const cells = columns.map((column, at) => this.cell(row, rows, column, columns, at));
    const look = this.classes.of(`height:${this.px(this.pages.height(row))}`);
    return `<tr class="${look}">${cells.join("")}</tr>`;
  }

  private cell(
    row: number,
    rows: readonly number[],
    column: number,
    columns: readonly number[],
    at: number,
  ): string {
    const [merge] = this.merges.over(row, column);
    const cell = this.pages.cell(row, column);
    if (!merge) return `<td class="${this.look(cell, row, column)}">${this.content(cell, columns, at)}</td>`;
    // What of a merged cell lies on these pages is one cell.
    const inRows = rows.filter((other) => other >= merge.firstRow && other <= merge.lastRow);
    const inColumns = columns.filter((other) => other >= merge.firstColumn && other <= merge.lastColumn);
    if (row !== inRows[0] || column !== inColumns[0]) return "";
    const held = this.pages.cell(merge.firstRow, merge.firstColumn);
    const span = `${inColumns.length > 1 ? ` colspan="${String(inColumns.length)}"` : ""}${inRows.length > 1 ? ` rowspan="${String(inRows.length)}"` : ""}`;
    return `<td class="${this.look(held, row, column)}"${span}>${this.content(held, inColumns, 0, true)}</td>`;
  }

  private style(cell: WorkbookCell | undefined): CellStyle {
    return this.model.styles[cell?.style ?? 0] ?? { numberFormat: "General" };
  }

  private look(cell: WorkbookCell | undefined, row: number, column: number): string {
    const style = this.style(cell);
    const isHeading = style.fill === undefined && this.headings.has(`${row},${column}`);
    const { isBlackAndWhite, showGridLines } = this.setup;
    const fill = isBlackAndWhite ? undefined : isHeading ? HEADING_FILL : style.fill;
    const own = isHeading ? HEADING_INK : (style.fontColor ?? "#000000");
    const ink = isBlackAndWhite ? "#000000" : readableInk(own, fill ?? "#ffffff");
    const edge = (side: string, line: BorderEdge | undefined): string => {
      if (!line) return showGridLines ? `border-${side}:1px solid #c0c0c0` : "";
      return `border-${side}:${LINES[line.style] ?? "1px solid"} ${isBlackAndWhite ? "#000000" : (line.color ?? "#000000")}`;
    };
    const decoration = `${style.underline === true ? " underline" : ""}${style.strike === true ? " line-through" : ""}`;
    const declarations = [
      `font-size:${this.px(this.fontPixels(style))}`,
      style.fontName === undefined
        ? ""
        : `font-family:${fontFamily(style.fontName)};font-size-adjust:${standInSize(style.fontName)}`,
      style.bold === true || isHeading ? "font-weight:bold" : "",
      style.italic === true ? "font-style:italic" : "",
      decoration === "" ? "" : `text-decoration:${decoration.trim()}`,
      ink === "#000000" ? "" : `color:${ink}`,
      fill === undefined ? "" : `background:${fill}`,
      style.vertical === "top"
        ? "vertical-align:top"
        : style.vertical === "center"
          ? "vertical-align:middle"
          : "",
      edge("top", style.borders?.top),
      edge("right", style.borders?.right),
      edge("bottom", style.borders?.bottom),
      edge("left", style.borders?.left),
    ];
    return this.classes.of(declarations.filter((part) => part !== "").join(";"));
  }

  private content(
    cell: WorkbookCell | undefined,
    columns: readonly number[],
    at: number,
    isMerged = false,
  ): string {
    const value = cell?.value ?? null;
    if (cell === undefined || value === null || value === "") return "";
    const style = this.style(cell);
    const { width } = this.pages;
    const own = (isMerged ? columns : columns.slice(at, at + 1)).reduce(
      (sum, column) => sum + width(column),
      0,
    );
    if (typeof value !== "string") {
      const side = style.horizontal ?? (typeof value === "number" ? "right" : "center");
      return this.inner(this.number(cell, style, own - 2 * PADDING), side, "white-space:pre");
    }
    const side = style.horizontal ?? "left";
    if (style.wrap === true || side === "justify")
      return this.inner(value, side, "white-space:pre-wrap;overflow-wrap:anywhere");
    // A long text goes on over empty cells, and ends where a cell holds something.
    let room = own;
    for (let next = at + 1; !isMerged && side === "left" && next < columns.length; next++) {
      const column = columns[next] ?? 0;
      const beside = this.pages.cell(cell.row, column)?.value ?? null;
      if ((beside !== null && beside !== "") || this.merges.has(cell.row, column)) break;
      room += width(column);
    }
    const text = shownCell(value, style.numberFormat).replace(/\n/g, " ");
    return this.inner(text, side, `width:${this.px(room - 2 * PADDING)};white-space:pre;overflow:hidden`);
  }

  private inner(text: string, side: string, declarations: string): string {
    // Numbers that another face makes wider grow to the left and are never cut.
    const place = { left: "", right: "text-align:right;display:flex;justify-content:flex-end;" }[side];
    const aligned = place ?? `text-align:${side};`;
    return `<div class="${this.classes.of(aligned + declarations)}">${escapeText(text)}</div>`;
  }

  private number({ value }: WorkbookCell, style: CellStyle, room: number): string {
    const isGeneral = style.numberFormat === "General" && typeof value === "number";
    const text = shownCell(value, style.numberFormat, this.model.date1904);
    return fittedNumber(
      { text, ...(isGeneral && { general: value }) },
      room,
      widthOf(this.fontPixels(style)),
    );
  }

  private fontPixels({ fontSize = FONT_SIZE }: CellStyle): number {
    return (fontSize * 4) / 3;
  }

  /** Pixels of the full size as they are on paper. */
  private px(pixels: number): string {
    return `${String(Math.round(pixels * this.pages.scale * 100) / 100)}px`;
  }
}

function pageRules(setup: PrintSetup, running: Running): string {
  const { paper, margins, header, footer } = setup;
  const sides = { top: runningSides(header, running), bottom: runningSides(footer, running) };
  const boxes = (["top", "bottom"] as const).flatMap((edge) =>
    (["left", "center", "right"] as const).map((side) => {
      const content = sides[edge][side];
      if (content === "") return "";
      const distance = edge === "top" ? margins.header : margins.footer;
      return `@${edge}-${side}{content:${content};font:10pt Arial,sans-serif;white-space:pre;vertical-align:${edge};padding-${edge}:${String(distance)}in}`;
    }),
  );
  const edges = (["top", "right", "bottom", "left"] as const).map((side) => `${String(margins[side])}in`);
  return `@page{size:${String(paper[0])}mm ${String(paper[1])}mm;margin:${edges.join(" ")};${boxes.join("")}}`;
}

const COMMON_RULES = [
  `.paper{color:#000;background:#fff;font:11pt Calibri,Carlito,Arial,sans-serif;font-size-adjust:${standInSize()};line-height:1.2;-webkit-print-color-adjust:exact;print-color-adjust:exact}`,
  ".paper table{border-collapse:collapse;border-spacing:0;table-layout:fixed}",
  ".paper thead{display:table-header-group;break-inside:avoid}",
  ".paper tr{break-inside:avoid}",
  ".paper td{overflow:visible;vertical-align:bottom;text-align:left}",
];

/** A sheet of a workbook on paper. Throws WorkbookError for a sheet with nothing or too much to print. */
export function sheetPaper(
  opened: Pick<OpenWorkbook, "model" | "parts">,
  position: number,
  running: Omit<Running, "sheet">,
): Paper {
  const { model } = opened;
  const setup = printSetup(opened, position);
  const pages = sheetPages(model, position, setup);
  const sheet = model.sheets[position];
  if (!sheet) throw new Error("the workbook has no such sheet");
  const classes = new Classes();
  const maker = new SheetMarkup(model, position, sheet, setup, pages, classes);
  const tables = pages.blocks.map((block, at) => maker.block(block, at === 0));
  const padding = `.paper td{padding:0 ${String(PADDING * pages.scale)}px}`;
  return {
    css: [
      pageRules(setup, { ...running, sheet: sheet.name }),
      ...COMMON_RULES,
      padding,
      ...classes.rules,
    ].join("\n"),
    markup: tables.join("\n"),
  };
}

/** A paper as a page of its own. */
export function paperDocument({ css, markup }: Paper, title: string): string {
  const head = `<meta charset="utf-8"><title>${escapeText(title)}</title><style>html,body{margin:0}${css}</style>`;
  return `<!doctype html><html lang="en"><head>${head}</head><body><div class="paper">${markup}</div></body></html>`;
}
