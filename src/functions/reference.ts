import type { CatalogueFunction, ExampleArgument, PlainCell } from "./definition";
import { EXCEL_STYLE, numberText, type FormulaStyle } from "./formula-style";
import { parameterSlot } from "./parameter-help";

/** A function with its parameters: `BLN.COUNT_COLUMN(height, balloon, [per_cluster=4], [spacing=0.8])`. */
export function signature(fn: CatalogueFunction, style: FormulaStyle = EXCEL_STYLE): string {
  return `${style.prefix}${fn.name}(${fn.params.map(parameterSlot).join(style.separator)})`;
}

function cellText(cell: PlainCell | null, style: FormulaStyle): string {
  if (cell === null) return '""';
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return typeof cell === "number" ? numberText(cell, style) : `"${cell.replaceAll('"', '""')}"`;
}

function isRows(argument: readonly unknown[]): argument is readonly (readonly (PlainCell | null)[])[] {
  return Array.isArray(argument[0]);
}

/** An argument as a formula writes it; a list lies across, one number needs no braces. */
export function argumentText(argument: ExampleArgument, style: FormulaStyle = EXCEL_STYLE): string {
  if (argument === null) return "";
  if (typeof argument !== "object") return cellText(argument, style);
  const rows = isRows(argument) ? argument : [argument as readonly (PlainCell | null)[]];
  const [[first] = []] = rows;
  if (typeof first === "number" && rows.length === 1 && rows[0]?.length === 1) return cellText(first, style);
  const lines = rows.map((row) => row.map((cell) => cellText(cell, style)).join(style.across));
  return `{${lines.join(style.down)}}`;
}

/** What is said of a function that another one has replaced. */
export function replacedText(by: string): string {
  return `${by} answers better; this one keeps computing in old workbooks.`;
}

/** A call as a person types it into a cell. */
export function formulaText(
  fn: CatalogueFunction,
  args: readonly ExampleArgument[],
  style: FormulaStyle = EXCEL_STYLE,
): string {
  const given = args.map((argument) => argumentText(argument, style));
  while (given.at(-1) === "") given.pop();
  return `=${style.prefix}${fn.name}(${given.join(style.separator)})`;
}

function tableCell(text: string): string {
  return text.replaceAll("|", "\\|").replaceAll("\n", " ");
}

/** The function table of the README, grouped by category in catalogue order; replaced functions are left out. */
export function readmeTable(all: readonly CatalogueFunction[]): string {
  const catalogue = all.filter((fn) => fn.replacedBy === undefined);
  const categories = [...new Set(catalogue.map((fn) => fn.category))];
  const sections = categories.map((category) => {
    const rows = catalogue
      .filter((fn) => fn.category === category)
      .map((fn) => {
        const [example] = fn.examples;
        const sample = example === undefined ? "" : `\`${formulaText(fn, example.args)}\``;
        return `| \`${tableCell(signature(fn))}\` | ${tableCell(fn.text)} | ${tableCell(sample)} |`;
      });
    return [`### ${category}`, "", "| function | answers | example |", "|---|---|---|", ...rows].join("\n");
  });
  return sections.join("\n\n");
}

const TABLE_START = "<!-- functions: made by npm run docs -->";
const TABLE_END = "<!-- end of functions -->";

/** A README with its function table made anew. Throws where the two marks that enclose it are missing. */
export function readmeWithTable(readme: string, catalogue: readonly CatalogueFunction[]): string {
  const start = readme.indexOf(TABLE_START);
  const end = readme.indexOf(TABLE_END);
  if (start < 0 || end < start) throw new Error(`README.md must hold "${TABLE_START}" before "${TABLE_END}"`);
  return `${readme.slice(0, start)}${TABLE_START}\n\n${readmeTable(catalogue)}\n\n${readme.slice(end)}`;
}
