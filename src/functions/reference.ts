import type { CatalogueFunction, ExampleArgument, PlainCell } from "./definition";
import { EXCEL_STYLE, numberText, type FormulaStyle } from "./formula-style";
import type { Param } from "./param";
import { parameterSlot, parameterText } from "./parameter-help";

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

function enumSource(id: string, options: readonly string[]): string {
  const members = options.map((option) => `  ${JSON.stringify(option)} = ${JSON.stringify(option)},`);
  return ["/**", " * @customenum {string}", " */", `enum ${id} {`, ...members, "}"].join("\n");
}

/**
 * The catalogue as JSDoc-annotated TypeScript, so that the official generator can judge our own metadata.
 *
 * @param page address of the reference page
 */
export function jsdocSource(
  catalogue: readonly CatalogueFunction[],
  describe: (fn: CatalogueFunction) => string,
  page: string,
): string {
  const enums = new Map<string, string>();
  const enumOf = (fn: CatalogueFunction, param: Param): string | undefined => {
    if (param.kind !== "choice") return undefined;
    const key = JSON.stringify(param.options);
    const id = enums.get(key) ?? `${fn.name}_${param.name.toUpperCase()}`;
    enums.set(key, id);
    return id;
  };
  const blocks = catalogue.map((fn, index) => {
    const params = fn.params.map((param) => {
      const slot = parameterSlot(param).startsWith("[") ? `[${param.name}]` : param.name;
      return ` * @param ${slot} ${parameterText(param)}`;
    });
    const typed = fn.params.map((param) => {
      const mark = parameterSlot(param).startsWith("[") ? "?" : "";
      return `${param.name}${mark}: ${param.kind === "list" || param.kind === "table" ? "any[][]" : (enumOf(fn, param) ?? "any")}`;
    });
    const result = fn.result.kind === "value" ? "any" : "any[][]";
    return [
      "/**",
      ` * ${describe(fn)}`,
      ` * @customfunction ${fn.name} ${fn.name}`,
      ` * @helpurl ${page}#${fn.name}`,
      ...(fn.replacedBy === undefined ? [] : [" * @excludeFromAutoComplete"]),
      ...params,
      ` * @returns {${result}} ${fn.result.text}`,
      " */",
      `function f${index}(${typed.join(", ")}): ${result} { return 0 as any; }`,
    ].join("\n");
  });
  const lists = [...enums].map(([key, id]) => enumSource(id, JSON.parse(key) as readonly string[]));
  return `${[...lists, ...blocks].join("\n")}\n`;
}
