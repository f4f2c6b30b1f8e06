import { type CellRange, parseRange, splitSheet } from "../formula/address";
import type { WorkbookModel } from "./model";
import { readOutsideRows } from "./outside-rows";
import type { OpenWorkbook } from "./read";

/** How a sheet is to be printed. */
export interface PrintSetup {
  /** Ranges to print, each from a page of its own; none where all that is filled is printed. */
  readonly areas: readonly CellRange[];
  /** Rows and columns that every page repeats. */
  readonly repeatedRows?: CellRange;
  readonly repeatedColumns?: CellRange;
  /** Width and height of the paper as it lies, in millimetres. */
  readonly paper: readonly [width: number, height: number];
  /** Share of the full size. */
  readonly scale: number;
  /** Pages across and down that all of it has to fit on; 0 leaves that direction free. It goes before the scale. */
  readonly fit?: { readonly wide: number; readonly tall: number };
  /** Share of the full size below which nothing is shrunk to fit. */
  readonly leastScale: number;
  /** Margins in inches; `header` and `footer` are the distances of their lines from the edge of the paper. */
  readonly margins: Readonly<Record<Margin, number>>;
  readonly isCentred: boolean;
  readonly showGridLines: boolean;
  readonly isBlackAndWhite: boolean;
  /** Rows and columns that begin a page. */
  readonly rowBreaks: readonly number[];
  readonly columnBreaks: readonly number[];
  /** Text with Excel's codes, such as `&LOffer&RPage &P of &N`. */
  readonly header: string;
  readonly footer: string;
}

type Margin = "left" | "right" | "top" | "bottom" | "header" | "footer";

/** Millimetres of the papers that files number (ECMA-376 part 1, 18.3.1.63). */
const PAPERS: ReadonlyMap<number, readonly [number, number]> = new Map([
  [1, [215.9, 279.4]],
  [3, [279.4, 431.8]],
  [5, [215.9, 355.6]],
  [7, [184.2, 266.7]],
  [8, [297, 420]],
  [9, [210, 297]],
  [11, [148, 210]],
  [12, [250, 353]],
  [13, [176, 250]],
]);
const A4 = [210, 297] as const;
/** Excel's normal margins, in inches. */
const MARGINS = { left: 0.7, right: 0.7, top: 0.75, bottom: 0.75, header: 0.3, footer: 0.3 };
/** Where nobody has set up the page, the columns stay together on one page. */
const UNSET_FIT = { wide: 1, tall: 0 };
/** Excel's least scale, and what can still be read. */
const LEAST_SCALE = 0.1;
const LEAST_UNSET_SCALE = 0.4;

/** The print settings of a sheet. */
export function printSetup(
  { model, parts }: Pick<OpenWorkbook, "model" | "parts">,
  sheet: number,
): PrintSetup {
  const { part } = model.sheets[sheet] ?? { part: "" };
  const around = readOutsideRows(parts, part).children;
  const found = new Map(around.flatMap((element) => [element, ...element.children]).map((e) => [e.local, e]));
  const breaks = (list: string): readonly number[] =>
    (found.get(list)?.all("brk") ?? []).flatMap((element) => element.number("id") ?? []);
  const page = found.get("pageSetup");
  const [short, long] = PAPERS.get(page?.number("paperSize") ?? 9) ?? A4;
  const margins = found.get("pageMargins");
  const options = found.get("printOptions");
  const isFitted = found.get("pageSetUpPr")?.flag("fitToPage") === true;
  const fit = isFitted
    ? { wide: page?.number("fitToWidth") ?? 1, tall: page?.number("fitToHeight") ?? 1 }
    : page === undefined
      ? UNSET_FIT
      : undefined;
  return {
    ...printNames(model, sheet),
    paper: page?.get("orientation") === "landscape" ? [long, short] : [short, long],
    scale: Math.min(4, Math.max(LEAST_SCALE, (page?.number("scale") ?? 100) / 100)),
    ...(fit && { fit }),
    leastScale: page === undefined && !isFitted ? LEAST_UNSET_SCALE : LEAST_SCALE,
    margins: Object.fromEntries(
      Object.entries(MARGINS).map(([side, usual]) => [side, margins?.number(side) ?? usual]),
    ) as typeof MARGINS,
    isCentred: options?.flag("horizontalCentered") === true,
    showGridLines: options?.flag("gridLines") === true,
    isBlackAndWhite: page?.flag("blackAndWhite") === true,
    rowBreaks: breaks("rowBreaks"),
    columnBreaks: breaks("colBreaks"),
    header: found.get("oddHeader")?.text ?? "",
    footer: found.get("oddFooter")?.text ?? "",
  };
}

/** The ranges of a name such as `'My sheet'!$A$1:$F$40,'My sheet'!$H$1:$J$4`. */
function rangesOf(text: string): readonly CellRange[] {
  const pieces = text.match(/(?:'(?:[^']|'')*'|[^',])+/g) ?? [];
  return pieces.flatMap((piece) => parseRange(splitSheet(piece.trim()).rest) ?? []);
}

function printNames(
  model: WorkbookModel,
  sheet: number,
): Pick<PrintSetup, "areas" | "repeatedRows" | "repeatedColumns"> {
  const named = (name: string): string =>
    model.names.find((one) => one.sheet === sheet && one.name.toLowerCase() === name)?.text ?? "";
  const titles = named("_xlnm.print_titles").split(/,(?=(?:[^']*'[^']*')*[^']*$)/);
  const whole = (pattern: RegExp): CellRange | undefined => {
    const text = titles.find((title) => pattern.test(splitSheet(title.trim()).rest));
    return text === undefined ? undefined : rangesOf(text)[0];
  };
  const repeatedRows = whole(/^\$?\d+:\$?\d+$/);
  const repeatedColumns = whole(/^\$?[A-Z]+:\$?[A-Z]+$/i);
  return {
    areas: rangesOf(named("_xlnm.print_area")),
    ...(repeatedRows && { repeatedRows }),
    ...(repeatedColumns && { repeatedColumns }),
  };
}
