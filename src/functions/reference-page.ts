import { catalogue, offered } from "./catalogue";
import { shortestWay } from "./shortest-way";
import { EXCEL_COMMA_STYLE, EXCEL_STYLE, numberText, type FormulaStyle } from "./formula-style";
import { replacedText } from "./reference";
import type { CatalogueFunction, Example } from "./definition";
import { headerOf } from "./result-rows";
import { isNumeric, isOptional, type ColumnSpec, type Param } from "./param";
import { allowedText, parameterFacts } from "./parameter-help";
import { formulaText, signature } from "./reference";

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => ENTITIES[sign] ?? sign);
}

function element(name: string, content: string, attributes = ""): string {
  return `<${name}${attributes === "" ? "" : ` ${attributes}`}>${content}</${name}>`;
}

function limitsText(param: Param | ColumnSpec): string {
  if (param.kind === "list") return isNumeric(param.of) ? `each ${allowedText(param.of) ?? ""}` : "";
  return param.kind === "table" ? "" : (allowedText(param) ?? "");
}

function columnList(columns: readonly ColumnSpec[]): string {
  const items = columns.map((column) => {
    const name = element("code", escaped(isOptional(column) ? `[${column.name}]` : column.name));
    return element("li", `${name} ${escaped(column.text)} ${escaped(allowedText(column) ?? "")}`);
  });
  return element("ul", items.join(""));
}

function parameterRow(param: Param): string {
  const facts = parameterFacts(param).filter(
    (fact) => param.kind !== "table" || !fact.startsWith("a range with"),
  );
  const text = `${escaped(param.text)}${param.kind === "table" && param.raw !== true ? columnList(param.columns) : ""}`;
  const cells = [
    element("code", escaped(param.name)),
    text,
    escaped(facts.join("; ")),
    escaped(limitsText(param)),
  ];
  return element("tr", cells.map((cell) => element("td", cell)).join(""));
}

function valueText(value: unknown, style: FormulaStyle): string {
  return typeof value === "number" ? numberText(value, style) : String(value);
}

function givenText(fn: CatalogueFunction, example: Example, style: FormulaStyle): string {
  if (!Array.isArray(example.gives)) return valueText(example.gives, style);
  const rows = example.gives as readonly (readonly unknown[])[];
  return fn.result.kind === "list"
    ? rows
        .flat()
        .map((cell) => valueText(cell, style))
        .join(style.separator)
    : `${rows.length} rows below the header`;
}

function exampleText(fn: CatalogueFunction, example: Example, style: FormulaStyle): string {
  const within =
    example.within !== undefined && example.within > 1e-6
      ? ` (within ${numberText(example.within, style)})`
      : "";
  return element(
    "p",
    `${element("code", escaped(formulaText(fn, example.args, style)))} gives ${element("strong", escaped(givenText(fn, example, style) + within))}<br>` +
      `${escaped(example.working)} <small>Source: ${escaped(example.source)}</small>`,
  );
}

function resultText(fn: CatalogueFunction): string {
  const { result } = fn;
  if (result.kind !== "table") return element("p", escaped(result.text));
  const columns = result.columns.map((column) =>
    element("li", `${element("code", escaped(headerOf(column)))} ${escaped(column.text)}`),
  );
  return element("p", escaped(result.text)) + element("ul", columns.join(""));
}

function failureText(fn: CatalogueFunction, style: FormulaStyle): string {
  const items = fn.failures.map((failure) =>
    element(
      "li",
      `${element("code", escaped(formulaText(fn, failure.args, style)))} ${failure.gives}: ${escaped(failure.when)}`,
    ),
  );
  return items.length === 0 ? "" : element("h3", "What it refuses") + element("ul", items.join(""));
}

function section(fn: CatalogueFunction, style: FormulaStyle): string {
  const heads = ["argument", "what it is", "unit and default", "limits"].map((head) =>
    element("th", head, 'scope="col"'),
  );
  const parameters =
    fn.params.length === 0
      ? element("p", "It takes no arguments.")
      : element(
          "table",
          element("thead", element("tr", heads.join(""))) +
            element("tbody", fn.params.map(parameterRow).join("")),
        );
  return element(
    "section",
    [
      element("h2", escaped(fn.name)),
      element("p", element("code", escaped(signature(fn, style)))),
      element("p", escaped(fn.text)),
      fn.replacedBy === undefined ? "" : element("p", escaped(replacedText(fn.replacedBy))),
      element("p", element("small", `Answers: ${escaped(fn.asks.join("; "))}`)),
      fn.caution === undefined ? "" : element("p", `Caution: ${escaped(fn.caution)}`, 'class="caution"'),
      parameters,
      element("h3", "Result"),
      resultText(fn),
      fn.examples.length === 0
        ? ""
        : element("h3", "Worked examples") +
          fn.examples.map((example) => exampleText(fn, example, style)).join(""),
      element("h3", "Model and source"),
      element("p", escaped(fn.source)),
      fn.limits === undefined ? "" : element("p", `Limits: ${escaped(fn.limits)}`),
      failureText(fn, style),
    ].join(""),
    `id="${fn.name}"`,
  );
}

const linkTo = (fn: CatalogueFunction): string => element("a", escaped(fn.name), `href="#${fn.name}"`);

/** The way from the tables to the papers first, all others folded by their groups. */
function contents(): string {
  const first = shortestWay(offered).map((fn) => element("li", `${linkTo(fn)}: ${escaped(fn.text)}`));
  const categories = [...new Set(offered.map((fn) => fn.category))];
  const groups = categories.map((category) => {
    const functions = offered.filter((fn) => fn.category === category);
    const links = functions.map((fn) => element("li", linkTo(fn)));
    const title = `${escaped(category)} (${functions.length})`;
    return element("details", element("summary", title) + element("ul", links.join("")));
  });
  const way = element("h2", "The shortest way") + element("ol", first.join(""));
  const rest = element("h2", "All functions by group") + groups.join("");
  return element("nav", way + rest, 'aria-label="Functions"');
}

function otherForm({ decimal }: FormulaStyle): string {
  return decimal === ","
    ? `Formulas stand here with a decimal comma. ${element("a", "With a decimal point", 'href="reference.html"')}`
    : `Formulas stand here with a decimal point. ${element("a", "With a decimal comma", 'href="reference-comma.html"')}`;
}

function pageIn(style: FormulaStyle): string {
  const policy = "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'";
  const head = [
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    element("title", "Functions for balloon decorators"),
    '<link rel="icon" href="icon-32.png">',
    '<link rel="stylesheet" href="reference.css">',
  ].join("");
  const intro =
    "Bare numbers are metres for lengths and inches for balloons; type the unit where you think otherwise. Blank cells take the default. " +
    "Counts, gas and wind numbers are estimates: local codes and licensed practice come first.";
  const body = [
    element(
      "header",
      element("h1", "Functions for balloon decorators") +
        element("p", intro) +
        element("p", otherForm(style)),
    ),
    contents(),
    element("main", catalogue.map((fn) => section(fn, style)).join("")),
  ].join("");
  return `<!doctype html>\n${element("html", element("head", head) + element("body", body), 'lang="en"')}\n`;
}

/** The reference of all functions as one page; those that another one has replaced stand in it, but not in its contents. */
export function referencePage(): string {
  return pageIn(EXCEL_STYLE);
}

/** The same page with formulas as a spreadsheet takes them whose decimal mark is the comma. */
export function referencePageWithCommas(): string {
  return pageIn(EXCEL_COMMA_STYLE);
}
