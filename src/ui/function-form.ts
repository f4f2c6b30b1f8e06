import type { CatalogueFunction, ExampleArgument, Outcome } from "../functions/definition";
import { readArgument } from "../functions/read-argument";
import type { FoundTable } from "../functions/event/find-tables";
import { EXCEL_STYLE, type FormulaStyle } from "../functions/formula-style";
import { isOptional } from "../functions/param";
import { formulaText, signature } from "../functions/reference";
import { formulaOf, type Argument } from "./argument";
import { button, disclosure, element, freshId, type View } from "./element";
import { fieldOf, type Field } from "./field";
import { pictureView, type PictureHost } from "./picture-view";
import { piecesView } from "./pieces-view";
import { resultView } from "./result-view";
import { tableFinder } from "./table-finder";

/** The values of a reference: rows of cells, blank as null. */
export type ReferenceValues = readonly (readonly (number | string | boolean | null)[])[];

export interface FormHost {
  /** Values behind a reference; undefined where this host cannot tell. */
  readonly resolve?: (reference: string) => Promise<ReferenceValues | undefined> | undefined;
  /** Address of the cells selected in the sheet, without an equals sign. */
  readonly pickReference?: () => Promise<string | undefined>;
  /** Takes the formula; a text given back is shown to the person. */
  readonly onInsert?: (formula: string) => Promise<string | undefined> | string | undefined;
  /** What the button for it says. */
  readonly insertLabel?: string;
  /** The tables of a job in the workbook beside the form, those to be preferred first. */
  readonly findTables?: (() => Promise<readonly FoundTable[]>) | undefined;
  readonly onBack?: () => void;
  /** How the sheet beside the form writes formulas; as Excel does where it is not said. */
  readonly style?: FormulaStyle;
  /** How `onInsert` takes formulas; as they are shown where it is not said. */
  readonly insertStyle?: FormulaStyle;
  readonly picture?: PictureHost;
}

/** The form of one function. */
export interface FunctionForm extends View {
  fill(args: readonly ExampleArgument[]): void;
  /** The formula as it stands, in the style in which it is inserted. */
  formula(): string;
  /** Reads the references again, after the sheet has changed. */
  refresh(): Promise<void>;
  focus(): void;
}

const WAIT_AFTER_TYPING_MS = 150;
const LONGEST_FORMULA = 8192;
// A form with more optional fields than this folds them, so that the result stays in sight.
const MOST_OPEN_OPTIONAL = 2;
const WITHHELD = Symbol("a reference whose values this page does not have");

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** Values of an argument as the worksheet would send them. */
async function valuesOf(argument: Argument, host: FormHost): Promise<unknown> {
  if (argument.kind === "omitted") return null;
  if (argument.kind === "literal") return argument.value;
  const rows = await host.resolve?.(argument.text);
  if (rows === undefined) return argument.otherwise ?? WITHHELD;
  // A reference to one cell arrives as that cell.
  return rows.length === 1 && rows[0]?.length === 1 ? rows[0][0] : rows;
}

interface Reading {
  readonly args: readonly Argument[];
  readonly values: readonly unknown[];
  readonly faults: readonly (string | undefined)[];
}

/** Sentences begin with the argument they are about; an error of another argument belongs under that one's field. */
function fieldAbout(
  fn: CatalogueFunction,
  sentence: string,
  otherwise: number | undefined,
): number | undefined {
  const [first = ""] = sentence.split(/[ :]/, 1);
  const index = fn.params.findIndex((param) => param.name === first);
  return index < 0 ? otherwise : index;
}

async function readAll(fn: CatalogueFunction, fields: readonly Field[], host: FormHost): Promise<Reading> {
  const args = fields.map((field) => field.read());
  const faults: (string | undefined)[] = fields.map(() => undefined);
  const values = await Promise.all(
    args.map(async (argument, index) => {
      try {
        return await valuesOf(argument, host);
      } catch (error) {
        faults[index] = messageOf(error);
        return WITHHELD;
      }
    }),
  );
  const readable = values.map((value) => (value === WITHHELD ? null : value));
  fields.forEach((_, index) => {
    if (values[index] === WITHHELD) return;
    try {
      readArgument(fn.params, index, readable);
    } catch (error) {
      const about = fieldAbout(fn, messageOf(error), index) ?? index;
      if (values[about] !== WITHHELD) faults[about] ??= messageOf(error);
    }
  });
  return { args, values, faults };
}

function exampleView(
  fn: CatalogueFunction,
  style: FormulaStyle,
  fill: (args: readonly ExampleArgument[]) => void,
): HTMLElement {
  return element(
    "ul",
    { class: "bln-examples" },
    ...fn.examples.map((example) =>
      element(
        "li",
        {},
        element("code", {}, formulaText(fn, example.args, style)),
        button("Fill in", "plain", () => {
          fill(example.args);
        }),
        element("p", { class: "bln-help" }, `${example.working} (${example.source})`),
      ),
    ),
  );
}

function aboutView(fn: CatalogueFunction, style: FormulaStyle): HTMLElement {
  const limits =
    fn.limits === undefined ? [] : [element("dt", {}, "Does not cover"), element("dd", {}, fn.limits)];
  const refusals = fn.failures.map(({ gives, when }) =>
    element("li", {}, element("code", {}, gives), ` when ${when}`),
  );
  return element(
    "dl",
    { class: "bln-about" },
    element("dt", {}, "Model and source"),
    element("dd", {}, fn.source),
    ...limits,
    element("dt", {}, "In a cell"),
    element("dd", {}, element("code", {}, signature(fn, style))),
    ...(refusals.length === 0
      ? []
      : [element("dt", {}, "Refuses"), element("dd", {}, element("ul", {}, ...refusals))]),
  );
}

/**
 * The form of a function: a field for each parameter with the checks and sentences of the cell, the result and the
 * formula as they are typed, examples, and what stands behind the number.
 */
export function functionForm(fn: CatalogueFunction, host: FormHost): FunctionForm {
  const style = host.style ?? EXCEL_STYLE;
  const insertStyle = host.insertStyle ?? style;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let turn = 0;
  let isFormulaTooLong = false;
  const later = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void update(), WAIT_AFTER_TYPING_MS);
  };
  const fields = fn.params.map((param) =>
    fieldOf(param, { onInput: later, pickReference: host.pickReference }),
  );
  const required = fields.filter(({ param }) => !isOptional(param));
  const optional = fields.filter(({ param }) => isOptional(param));
  const folded =
    optional.length > MOST_OPEN_OPTIONAL ? disclosure(`${optional.length} more, all optional`) : undefined;
  const optionalPart = folded ?? element("div", { class: "bln-form" });
  (folded?.lastElementChild ?? optionalPart).append(...optional.map((field) => field.element));
  const result = element("div", { class: "bln-result", "aria-live": "polite" });
  const formulaLine = element("code", { class: "bln-formula" });
  const status = element("p", { class: "bln-quiet", role: "status" });
  const picture = fn.draw === undefined ? undefined : pictureView(fn.name, host.picture ?? {});
  const pieces = fn.drawPieces === undefined ? undefined : piecesView(fn.name, host.picture ?? {});
  const drawing = picture ?? pieces;
  const openPart = element("div", { class: "bln-form" });
  /** What is filled stands in the open, the rest is folded away. */
  const unfold = (): void => {
    if (folded === undefined) return;
    const filled = optional.filter((field) => field.read().kind !== "omitted");
    openPart.replaceChildren(...filled.map((field) => field.element));
    const rest = optional.filter((field) => !filled.includes(field));
    folded.lastElementChild?.replaceChildren(...rest.map((field) => field.element));
    folded.hidden = rest.length === 0;
    const title = folded.querySelector("summary");
    if (title !== null) title.textContent = `${rest.length} more, all optional`;
  };
  const finder = tableFinder(fields, host.findTables, () => {
    unfold();
    void update();
  });

  const formula = (written: FormulaStyle): string =>
    formulaOf(
      fn,
      fields.map((field) => field.read()),
      written,
    );

  const missing = (args: readonly Argument[]): readonly string[] =>
    fn.params
      .filter((param, index) => args[index]?.kind === "omitted" && !isOptional(param))
      .map((param) => param.name.replaceAll("_", " "));

  const showFault = (index: number, fault: string): void => {
    const field = fields[index];
    field?.show({ fault });
    if (folded !== undefined && field !== undefined && folded.contains(field.element)) folded.open = true;
  };

  const showFields = ({ args, values, faults }: Reading): void => {
    fields.forEach((field, index) => {
      const argument = args[index];
      const isQuiet = argument?.kind === "omitted" && !field.isTouched();
      const fault = isQuiet ? undefined : faults[index];
      if (fault !== undefined) {
        showFault(index, fault);
        return;
      }
      const isWithheld = values[index] === WITHHELD && argument?.kind === "reference";
      field.show({
        value: isWithheld ? null : values[index],
        remark: isWithheld ? `${argument.text} is read in the sheet` : undefined,
      });
    });
  };

  const outcomeElements = (reading: Reading): readonly Node[] => {
    const { args, values, faults } = reading;
    const empty = missing(args);
    if (empty.length > 0) return [element("p", { class: "bln-quiet" }, `Fill in ${empty.join(" and ")}.`)];
    if (faults.some((fault) => fault !== undefined)) {
      return [element("p", { class: "bln-quiet" }, "Something above needs another value.")];
    }
    if (values.includes(WITHHELD))
      return [element("p", { class: "bln-quiet" }, "The result shows in the sheet.")];
    const outcome: Outcome = fn.call(values);
    if (outcome.kind === "error") {
      const about = fieldAbout(fn, outcome.sentence, undefined);
      if (about !== undefined) showFault(about, outcome.sentence);
    }
    return resultView(fn.name, fn.result, outcome);
  };

  const drawPieces = ({ values }: Reading): void => {
    if (pieces === undefined || fn.drawPieces === undefined) return;
    try {
      pieces.draw(values.includes(WITHHELD) ? [] : fn.drawPieces(values));
    } catch {
      pieces.draw([]);
    }
  };

  const drawPiece = ({ args, values, faults }: Reading): void => {
    if (picture === undefined || fn.draw === undefined) return;
    const canDraw =
      missing(args).length === 0 &&
      faults.every((fault) => fault === undefined) &&
      !values.includes(WITHHELD);
    try {
      const balloons = canDraw ? fn.draw(values) : [];
      picture.draw(
        balloons,
        `${formula(style)} seen from the front`,
        `${balloons.length} balloons, to scale`,
      );
    } catch {
      picture.draw([], `${fn.name} seen from the front`, "nothing to draw");
    }
  };

  async function update(): Promise<void> {
    clearTimeout(timer);
    turn += 1;
    const mine = turn;
    const reading = await readAll(fn, fields, host);
    // A later update began while references were read; its values are the ones that count.
    if (mine !== turn) return;
    showFields(reading);
    result.replaceChildren(...outcomeElements(reading));
    const text = formulaOf(fn, reading.args, style);
    isFormulaTooLong = text.length > LONGEST_FORMULA;
    formulaLine.textContent = isFormulaTooLong
      ? "too long for a cell: put the values into cells and name them"
      : text;
    drawPiece(reading);
    drawPieces(reading);
  }

  const insert = async (): Promise<void> => {
    for (const field of fields) field.touch();
    await update();
    const args = fields.map((field) => field.read());
    const firstEmpty = fn.params.findIndex(
      (param, index) => args[index]?.kind === "omitted" && !isOptional(param),
    );
    if (firstEmpty >= 0) {
      fields[firstEmpty]?.focus();
      return;
    }
    if (isFormulaTooLong || host.onInsert === undefined) return;
    try {
      status.textContent = (await host.onInsert(formulaOf(fn, args, insertStyle))) ?? "";
    } catch (error) {
      status.textContent = messageOf(error);
    }
  };

  const fill = (args: readonly ExampleArgument[]): void => {
    fields.forEach((field, index) => {
      field.fill(args[index] ?? null);
    });
    if (folded !== undefined) folded.open = optional.some((field) => field.read().kind !== "omitted");
    void update();
  };

  const formId = freshId();
  const form = element(
    "form",
    { id: formId, class: "bln-form", novalidate: true },
    ...required.map((field) => field.element),
    ...(finder === undefined ? [] : [finder.element]),
    openPart,
    optionalPart,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void insert();
  });
  const heading = element("h2", { class: "bln-title", tabindex: -1 }, fn.name);
  const back = host.onBack;
  const view = element(
    "section",
    { class: "bln-view" },
    ...(back === undefined ? [] : [button("All functions", "plain", back)]),
    heading,
    element("p", { class: "bln-lead" }, fn.text),
    ...(fn.caution === undefined
      ? []
      : [
          element(
            "p",
            { class: "bln-caution", role: "note" },
            element("strong", {}, "Caution: "),
            fn.caution,
          ),
        ]),
    form,
    element("h3", { class: "bln-subtitle" }, "Result"),
    result,
    ...(drawing === undefined ? [] : [element("h3", { class: "bln-subtitle" }, "Picture"), drawing.element]),
    element("h3", { class: "bln-subtitle" }, "Formula"),
    formulaLine,
    ...(host.onInsert === undefined
      ? []
      : [
          element(
            "button",
            { type: "submit", form: formId, class: "bln-button bln-button-primary" },
            host.insertLabel ?? "Put in the selected cell",
          ),
        ]),
    status,
    ...(fn.examples.length === 0 ? [] : [disclosure("Examples", exampleView(fn, style, fill))]),
    disclosure("What stands behind it", aboutView(fn, style)),
  );
  if (finder === undefined) void update();
  else void finder.find();
  return {
    element: view,
    fill,
    formula: () => formula(insertStyle),
    refresh: update,
    focus: () => {
      (
        fields[0] ?? {
          focus: () => {
            heading.focus();
          },
        }
      ).focus();
    },
  };
}
