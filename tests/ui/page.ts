// What the tests of the views load into a browser: `window.views` shows a view and keeps what its host was told.
import { catalogue } from "../../src/functions/catalogue";
import { define } from "../../src/functions/define";
import type { CatalogueFunction, ExampleArgument } from "../../src/functions/definition";
import type { FoundTable } from "../../src/functions/event/find-tables";
import type { ReferenceValues } from "../../src/ui/form-reading";
import { functionForm, type FunctionForm } from "../../src/ui/function-form";
import { functionList } from "../../src/ui/function-list";
import { svgToPng } from "../../src/ui/picture";
import { changesPreview, failingRows, uncomputedCells } from "../../src/ui/workbook-views";

/** Two stacked balls, to be drawn; the checks of a text, a flag and a table stand beside them. */
const stack = define({
  name: "TEST_STACK",
  category: "Counting",
  text: "Balloons stacked one on the other.",
  asks: ["how many in a stack"],
  params: [
    { name: "height", kind: "length", text: "Finished height.", above: 0 },
    { name: "balloon", kind: "balloon", text: "Inflated size." },
    {
      name: "form",
      kind: "choice",
      options: ["straight", "leaning"],
      text: "How it stands.",
      default: "straight",
    },
    { name: "tied", kind: "flag", text: "Whether they are tied.", default: false },
    { name: "label", kind: "text", text: "A word on it.", default: "none" },
  ],
  result: { kind: "value", measure: "count", text: "Balloons." },
  source: "height over size",
  caution: "A tall stack falls over.",
  limits: "Straight stacks only.",
  examples: [{ args: ["6 ft", 12, "leaning"], gives: 6, working: "72 in / 12 in", source: "arithmetic" }],
  failures: [{ args: [0, 12], gives: "#VALUE!", when: "the height is 0" }],
  compute: (height, balloon) => Math.max(1, Math.floor(height / balloon + 1e-9)),
  draw: (height, balloon) =>
    Array.from({ length: Math.max(1, Math.floor(height / balloon + 1e-9)) }, (_, row) => ({
      x: 0,
      y: (row + 0.5) * balloon,
      z: 0,
      radius: balloon / 2,
      row,
    })),
});

/** A table in, a table out. */
const totals = define({
  name: "TEST_TOTALS",
  category: "Price",
  text: "Line totals.",
  asks: ["what does each line cost"],
  params: [
    {
      name: "lines",
      kind: "table",
      text: "One line for each item.",
      columns: [
        { name: "item", kind: "text", text: "What it is." },
        { name: "count", kind: "count", text: "How many." },
        { name: "price", kind: "money", text: "Price of one." },
      ],
    },
    {
      name: "rates",
      kind: "list",
      of: { kind: "share" },
      blanks: "skip",
      text: "Shares taken off.",
      optional: true,
    },
  ],
  result: {
    kind: "table",
    text: "One row for each line.",
    columns: [
      { name: "item", measure: "text", text: "What it is." },
      { name: "total", measure: "money", text: "Count times price." },
    ],
  },
  source: "count x price",
  examples: [],
  failures: [],
  compute: (lines) => lines.map((line) => ({ item: line.item, total: line.count * line.price })),
});

const tests = [stack, totals];
const told: unknown[] = [];

function named(name: string): CatalogueFunction {
  const fn = [...tests, ...catalogue].find((candidate) => candidate.name === name);
  if (fn === undefined) throw new Error(`no function ${name}`);
  return fn;
}

function show(element: HTMLElement): void {
  document.getElementById("place")?.replaceChildren(element);
}

let form: FunctionForm | undefined;

const views = {
  told,
  names: (): readonly string[] => catalogue.map((fn) => fn.name),
  showList(): void {
    const list = functionList([...tests, ...catalogue], { onOpen: (fn) => told.push(fn.name) });
    show(list.element);
    list.focus();
  },
  showForm(
    name: string,
    cells?: Readonly<Record<string, ReferenceValues>>,
    picked?: string,
    tables?: readonly FoundTable[],
  ): void {
    form = functionForm(named(name), {
      ...(tables && { findTables: () => Promise.resolve(tables) }),
      onInsert: (formula) => {
        told.push(formula);
        return "put in B4";
      },
      ...(cells && { resolve: (reference: string) => Promise.resolve(cells[reference]) }),
      ...(picked !== undefined && { pickReference: () => Promise.resolve(picked) }),
      onBack: () => told.push("back"),
      picture: { actions: [{ label: "Save", run: (svg) => `${svg.length > 0 ? "saved" : "nothing"}` }] },
    });
    show(form.element);
  },
  fill(args: readonly ExampleArgument[]): string {
    form?.fill(args);
    return form?.formula() ?? "";
  },
  async fillExample(name: string, index: number): Promise<string> {
    form?.fill(named(name).examples[index]?.args ?? []);
    await form?.refresh();
    return form?.formula() ?? "";
  },
  showWorkbook(): void {
    const jump = (place: unknown): void => void told.push(place);
    const place = document.createElement("div");
    place.append(
      failingRows(
        [{ place: 7, label: "Pieces!C4", code: "#VALUE!", sentence: "height must be given, found nothing" }],
        jump,
      ).element,
      uncomputedCells(
        [{ place: 8, label: "Quote!B2", formula: "=LAMBDA(x,x)(1)", why: "LAMBDA is not known here" }],
        jump,
      ).element,
      uncomputedCells([], jump).element,
      changesPreview(
        "Partner copy",
        [{ place: 9, label: "Needs!A2", before: "=BLN.AIR_LITRES(11)", after: "13.7" }],
        {
          applyLabel: "Make the copy",
          onApply: () => told.push("apply"),
          onJump: jump,
        },
      ).element,
    );
    show(place);
  },
  async png(svg: string, width: number): Promise<readonly number[]> {
    const blob = await svgToPng(svg, width);
    return [...new Uint8Array(await blob.arrayBuffer())].slice(0, 24);
  },
};

export type Views = typeof views;

declare global {
  interface Window {
    views: Views;
  }
}

window.views = views;
