import type { Cell, Measure, Outcome, ResultSpec } from "../functions/definition";
import { element, freshId } from "./element";
import { cellText, isNumberColumn, valueText } from "./format";

const MOST_ROWS_SHOWN = 200;

/** A table that scrolls sideways by itself, so that a narrow page does not. */
export function scrollingTable(
  label: string,
  header: readonly string[],
  rows: readonly (readonly (Node | string)[])[],
  isNumber: (column: number) => boolean = () => false,
): HTMLElement {
  const side = (column: number): string | undefined => (isNumber(column) ? "bln-number" : undefined);
  const body = rows.map((row) =>
    element("tr", {}, ...row.map((cell, column) => element("td", { class: side(column) }, cell))),
  );
  const head = header.map((text, column) => element("th", { scope: "col", class: side(column) }, text));
  return element(
    "div",
    { class: "bln-scroll", role: "region", tabindex: 0, "aria-label": label },
    element(
      "table",
      { class: "bln-table" },
      ...(head.length > 0 ? [element("thead", {}, element("tr", {}, ...head))] : []),
      element("tbody", {}, ...body),
    ),
  );
}

function tableView(
  name: string,
  spec: ResultSpec,
  rows: readonly (readonly Cell[])[],
): readonly HTMLElement[] {
  const measure = (column: number): Measure => {
    if (spec.kind !== "table") return spec.measure;
    return spec.columns[column]?.measure ?? "text";
  };
  const [header, body] = spec.kind === "table" ? [rows[0] ?? [], rows.slice(1)] : [[], rows];
  const shown = body.slice(0, MOST_ROWS_SHOWN).map((row) =>
    row.map((cell, column) => {
      const text = cellText(measure(column), cell);
      return typeof cell === "object"
        ? element("span", { class: "bln-withheld", title: cell.sentence }, text)
        : text;
    }),
  );
  const table = scrollingTable(`Result of ${name}`, header.map(String), shown, (column) =>
    isNumberColumn(measure(column)),
  );
  const rest = body.length - shown.length;
  const sentences = new Set(body.flat().flatMap((cell) => (typeof cell === "object" ? cell.sentence : [])));
  return [
    table,
    ...(rest === 0 ? [] : [element("p", { class: "bln-quiet" }, `and ${rest} more rows`)]),
    ...[...sentences].map((sentence) => element("p", { class: "bln-error" }, sentence)),
  ];
}

/** The result of a call: a number with its unit, a table, or the error as a cell shows it with its sentence. */
export function resultView(name: string, spec: ResultSpec, outcome: Outcome): readonly HTMLElement[] {
  if (outcome.kind === "error") {
    return [
      element("p", { class: "bln-error" }, element("strong", {}, outcome.code), ` ${outcome.sentence}`),
    ];
  }
  const meaning = element("p", { class: "bln-quiet" }, spec.text);
  if (outcome.kind === "table") return [...tableView(name, spec, outcome.rows), meaning];
  const { text, other } = valueText(spec.kind === "value" ? spec.measure : "text", outcome.value);
  const value = element("p", { class: "bln-value", id: freshId() }, text);
  if (other !== undefined) value.append(element("span", { class: "bln-other" }, ` = ${other}`));
  return [value, meaning];
}
