import type { CatalogueFunction, ExampleArgument } from "../functions/definition";
import type { FoundTable } from "../functions/event/find-tables";
import { EXCEL_STYLE, type FormulaStyle } from "../functions/formula-style";
import { isOptional } from "../functions/param";
import { formulaOf } from "./argument";
import { button, disclosure, element, freshId, type View } from "./element";
import { fieldOf, type Field } from "./field";
import { formPicture } from "./form-picture";
import {
  fieldAbout,
  missingPlaces,
  readForm,
  WITHHELD,
  type FormReading,
  type Resolve,
} from "./form-reading";
import { aboutView, cautionView, examplesView } from "./function-about";
import { optionalFields, type OptionalFields } from "./optional-fields";
import type { PictureHost } from "./picture-view";
import { resultView } from "./result-view";
import { tableFinder } from "./table-finder";
import { messageOf } from "./message-of";

/** What a form can ask of the page that it stands on. */
export interface FormHost {
  readonly resolve?: Resolve;
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

/** The fields of a form, and where each stands. */
interface Fields {
  readonly fn: CatalogueFunction;
  readonly all: readonly Field[];
  readonly optional: OptionalFields;
}

function showFault({ all, optional }: Fields, index: number, fault: string): void {
  const field = all[index];
  if (field === undefined) return;
  field.show({ fault });
  optional.reveal(field);
}

/** Says under every field what is wrong with it, or what its value is. */
function showFields(fields: Fields, { args, values, faults }: FormReading): void {
  fields.all.forEach((field, index) => {
    const argument = args[index];
    const isQuiet = argument?.kind === "omitted" && !field.isTouched();
    const fault = isQuiet ? undefined : faults[index];
    if (fault !== undefined) {
      showFault(fields, index, fault);
      return;
    }
    const isWithheld = values[index] === WITHHELD && argument?.kind === "reference";
    field.show({
      value: isWithheld ? null : values[index],
      remark: isWithheld ? `${argument.text} is read in the sheet` : undefined,
    });
  });
}

/** The result, or what is to be done before there is one. */
function resultElements(fields: Fields, { args, values, faults }: FormReading): readonly Node[] {
  const { fn } = fields;
  const say = (sentence: string): readonly Node[] => [element("p", { class: "bln-quiet" }, sentence)];
  const empty = missingPlaces(fn, args).map((index) => fn.params[index]?.name.replaceAll("_", " "));
  if (empty.length > 0) return say(`Fill in ${empty.join(" and ")}.`);
  if (faults.some((fault) => fault !== undefined)) return say("Something above needs another value.");
  if (values.includes(WITHHELD)) return say("The result shows in the sheet.");
  const outcome = fn.call(values);
  const about = outcome.kind === "error" ? fieldAbout(fn, outcome.sentence) : undefined;
  if (outcome.kind === "error" && about !== undefined) showFault(fields, about, outcome.sentence);
  return resultView(fn.name, fn.result, outcome);
}

/** A part of the page under a small heading. */
function titled(title: string, ...parts: readonly Node[]): readonly Node[] {
  return parts.length === 0 ? [] : [element("h3", { class: "bln-subtitle" }, title), ...parts];
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
  const all = fn.params.map((param) => fieldOf(param, { onInput: later, pickReference: host.pickReference }));
  const optional = optionalFields(all.filter(({ param }) => isOptional(param)));
  const fields: Fields = { fn, all, optional };
  const result = element("div", { class: "bln-result", "aria-live": "polite" });
  const formulaLine = element("code", { class: "bln-formula" });
  const status = element("p", { class: "bln-quiet", role: "status" });
  const picture = formPicture(fn, host.picture ?? {});
  const finder = tableFinder(all, host.findTables, () => {
    optional.unfold();
    void update();
  });
  const argumentsNow = (): FormReading["args"] => all.map((field) => field.read());

  async function update(): Promise<void> {
    clearTimeout(timer);
    turn += 1;
    const mine = turn;
    const reading = await readForm(fn, all, host.resolve);
    // A later update began while references were read; its values are the ones that count.
    if (mine !== turn) return;
    showFields(fields, reading);
    result.replaceChildren(...resultElements(fields, reading));
    const text = formulaOf(fn, reading.args, style);
    isFormulaTooLong = text.length > LONGEST_FORMULA;
    formulaLine.textContent = isFormulaTooLong
      ? "too long for a cell: put the values into cells and name them"
      : text;
    picture?.draw(reading, text);
  }

  const insert = async (): Promise<void> => {
    for (const field of all) field.touch();
    await update();
    const args = argumentsNow();
    const [firstEmpty] = missingPlaces(fn, args);
    if (firstEmpty !== undefined) {
      all[firstEmpty]?.focus();
      return;
    }
    if (isFormulaTooLong || host.onInsert === undefined) return;
    try {
      const refusal = await finder?.refusal();
      if (refusal !== undefined) {
        status.textContent = refusal;
        return;
      }
      status.textContent = (await host.onInsert(formulaOf(fn, args, insertStyle))) ?? "";
    } catch (error) {
      status.textContent = messageOf(error);
    }
  };

  const fill = (args: readonly ExampleArgument[]): void => {
    all.forEach((field, index) => {
      field.fill(args[index] ?? null);
    });
    optional.openFilled();
    void update();
  };

  const formId = freshId();
  const form = element(
    "form",
    { id: formId, class: "bln-form", novalidate: true },
    ...all.filter(({ param }) => !isOptional(param)).map((field) => field.element),
    ...(finder === undefined ? [] : [finder.element]),
    optional.openPart,
    optional.element,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void insert();
  });
  const heading = element("h2", { class: "bln-title", tabindex: -1 }, fn.name);
  const submit = element(
    "button",
    { type: "submit", form: formId, class: "bln-button bln-button-primary" },
    host.insertLabel ?? "Put in the selected cell",
  );
  const view = element(
    "section",
    { class: "bln-view" },
    ...(host.onBack === undefined ? [] : [button("All functions", "plain", host.onBack)]),
    heading,
    element("p", { class: "bln-lead" }, fn.text),
    ...cautionView(fn),
    form,
    ...titled("Result", result),
    ...titled("Picture", ...(picture === undefined ? [] : [picture.element])),
    ...titled("Formula", formulaLine),
    ...(host.onInsert === undefined ? [] : [submit]),
    status,
    ...(fn.examples.length === 0 ? [] : [disclosure("Examples", examplesView(fn, style, fill))]),
    disclosure("What stands behind it", aboutView(fn, style)),
  );
  void (finder === undefined ? update() : finder.find());
  return {
    element: view,
    fill,
    formula: () => formulaOf(fn, argumentsNow(), insertStyle),
    refresh: update,
    focus: () => {
      (all[0] ?? heading).focus();
    },
  };
}
