import { offered } from "../functions/catalogue";
import type { CatalogueFunction, ExampleArgument } from "../functions/definition";
import { formulaText, signature } from "../functions/reference";
import type { WorkbookDescription } from "../workbook/create";
import { SheetDraft } from "./look";
import { SAMPLE_PROPERTIES } from "./price-list";

const LONGEST_FORMULA = 8000;

/** A call as the file stores it, without equals sign. */
function stored(fn: CatalogueFunction, args: readonly ExampleArgument[]): string {
  return formulaText(fn, args).slice(1).replace("BLN.", "_xldudf_BLN_");
}

/** The call of an example so that one cell shows it: of a table, the first cell below its header. */
function oneCell(fn: CatalogueFunction, args: readonly ExampleArgument[]): string {
  const call = stored(fn, args);
  if (fn.result.kind === "value") return call;
  return fn.result.kind === "list" ? `INDEX(${call},1,1)` : `INDEX(${call},2,1)`;
}

function shows(fn: CatalogueFunction): string {
  if (fn.result.kind === "value") return fn.result.text;
  return fn.result.kind === "list"
    ? `First of a list: ${fn.result.text}`
    : `First cell below the header: ${fn.result.text}`;
}

/** A range as the worksheet sends it: a list lies across. */
function sent(args: readonly ExampleArgument[]): readonly unknown[] {
  return args.map((argument) =>
    Array.isArray(argument) && !Array.isArray(argument[0]) ? [argument as readonly unknown[]] : argument,
  );
}

/** One live line for every function: what it answers, a call, its result, a wrong call and the sentence that it gives. */
export function tourWorkbook(): WorkbookDescription {
  const sheet = new SheetDraft();
  sheet
    .put(1, 1, "Function tour", "title")
    .put(
      2,
      1,
      "One line for each function: a call with its live result, and what it says about a wrong argument.",
      "quiet",
    );
  const heads = [
    "Group",
    "Function",
    "Answers",
    "Result",
    "What the result is",
    "Formula as typed",
    "Wrong call",
    "What it says",
  ];
  heads.forEach((head, index) => sheet.put(4, 1 + index, head, "head"));
  offered.forEach((fn, index) => {
    const row = 5 + index;
    const args = fn.examples[0]?.args ?? [];
    const [failure] = fn.failures;
    sheet
      .put(row, 1, fn.category, "wrapped")
      .put(row, 2, signature(fn), "wrapped")
      .put(row, 3, fn.text, "wrapped")
      .put(row, 5, shows(fn), "quietWrapped")
      .put(row, 6, formulaText(fn, args), "wrapped");
    if (stored(fn, args).length < LONGEST_FORMULA) sheet.formula(row, 4, oneCell(fn, args), "wrapped");
    if (failure === undefined) return;
    const outcome = fn.call(sent(failure.args));
    sheet
      .put(row, 7, `${formulaText(fn, failure.args)} (${failure.when})`, "quietWrapped")
      .put(row, 8, outcome.kind === "error" ? `${outcome.code} ${outcome.sentence}` : "", "wrapped");
  });
  return {
    ...SAMPLE_PROPERTIES,
    title: "Function tour",
    sheets: [
      {
        name: "Tour",
        cells: sheet.cells,
        columnWidths: { A: 16, B: 42, C: 40, D: 16, E: 34, F: 50, G: 44, H: 50 },
        rowHeights: { 1: 28, ...Object.fromEntries(offered.map((_, index) => [5 + index, 62])) },
        frozen: { rows: 4, columns: 0 },
        tabColor: "#2f5d62",
        page: { orientation: "landscape", fit: { wide: 1, tall: 0 }, repeatedRows: "4:4", paper: 9 },
      },
    ],
  };
}
