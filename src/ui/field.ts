import { echo } from "../functions/echo";
import type { ExampleArgument } from "../functions/definition";
import { rangeWords } from "../functions/event/find-tables";
import { isNumeric, isOptional, limitsOf, type Param } from "../functions/param";
import { defaultText, parameterFacts, unitWords } from "../functions/parameter-help";
import { rangeText } from "../functions/read-scalar";
import { fieldText, readField, type Argument } from "./argument";
import { button, disclosure, element, freshId, type View } from "./element";

/** The field of one parameter. */
export interface Field extends View {
  readonly param: Param;
  /** What it says now. */
  read(): Argument;
  fill(value: ExampleArgument): void;
  /** Makes it say nothing, as if nobody had been in it. */
  clear(): void;
  /** Makes it say a reference. */
  refer(reference: string): void;
  /** True once a person has been in it: only then is an empty required field an error. */
  isTouched(): boolean;
  touch(): void;
  /** Shows how `value` was understood, or why not; `remark` is for what cannot be checked here. */
  show(told: {
    readonly fault?: string | undefined;
    readonly value?: unknown;
    readonly remark?: string | undefined;
  }): void;
  focus(): void;
}

export interface FieldHost {
  /** The person typed. */
  readonly onInput: () => void;
  /** Gives the address of the cells selected in the sheet. */
  readonly pickReference?: (() => Promise<string | undefined>) | undefined;
}

// A limit nobody reaches is not worth a line.
const MOST_SAID = 1e6;

function placeholderOf(param: Param): string {
  if (param.kind === "table") return "Sheet1!A1:D9, or paste cells";
  if (param.kind === "list") return "A2:A9, or 3, 4, 5";
  const fallback = defaultText(param);
  return fallback ?? (isOptional(param) ? "may stay empty" : "");
}

function choicesOf(param: Param): readonly string[] | undefined {
  if (param.kind === "choice") return param.options;
  return param.kind === "flag" ? ["TRUE", "FALSE"] : undefined;
}

function controlOf(
  param: Param,
  attributes: Readonly<Record<string, string>>,
): HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement {
  const choices = choicesOf(param);
  const shared = { ...attributes, class: "bln-input", autocomplete: "off", spellcheck: "false" };
  if (choices !== undefined && param.kind !== "list" && param.kind !== "table") {
    const fallback = defaultText(param);
    const none =
      fallback === undefined ? (isOptional(param) ? "not given" : "choose") : `default: ${fallback}`;
    return element(
      "select",
      { ...attributes, class: "bln-input" },
      element("option", { value: "" }, none),
      ...choices.map((choice) => element("option", { value: choice }, choice)),
    );
  }
  const placeholder = placeholderOf(param);
  if (param.kind === "table" || param.kind === "list") {
    return element("textarea", { ...shared, rows: param.kind === "table" ? 3 : 1, placeholder });
  }
  return element("input", { ...shared, type: "text", placeholder });
}

function helpOf(param: Param): readonly (Node | string)[] {
  if (param.kind === "table" && param.raw === true) return [param.text];
  if (param.kind === "table") {
    const columns = param.columns.map((column) =>
      element(
        "li",
        {},
        element("strong", {}, column.name),
        isOptional(column) ? " (may be missing): " : ": ",
        column.text,
      ),
    );
    return [
      param.text,
      disclosure(
        `Columns: ${param.columns.map(({ name }) => name).join(", ")}`,
        element("ul", {}, ...columns),
      ),
    ];
  }
  const facts = parameterFacts(param).filter((fact) => !/^(?:default|one of|TRUE) /.test(fact));
  if (param.kind !== "list" && isNumeric(param) && limitsOf(param).max < MOST_SAID)
    facts.push(rangeText(param));
  const [first = "", ...rest] = facts.join("; ");
  return [
    param.text,
    element("span", { class: "bln-facts" }, first === "" ? "" : ` ${first.toUpperCase()}${rest.join("")}.`),
  ];
}

function valueWords(param: Param, value: unknown): string | undefined {
  if (!Array.isArray(value)) return undefined;
  if (param.kind === "table" && param.raw === true) return rangeWords(value);
  const rows = value.length;
  const columns = Array.isArray(value[0]) ? value[0].length : 1;
  return param.kind === "table" || param.kind === "list" ? `${rows} x ${columns} cells read` : undefined;
}

/** A field with label, unit, help, the line that echoes what was understood and the line for what is wrong. */
export function fieldOf(param: Param, host: FieldHost): Field {
  const [id, helpId, echoId, faultId] = [freshId(), freshId(), freshId(), freshId()];
  const control = controlOf(param, {
    id,
    name: param.name,
    "aria-describedby": `${helpId} ${echoId} ${faultId}`,
  });
  if (!isOptional(param)) control.setAttribute("aria-required", "true");
  const echoLine = element("p", { id: echoId, class: "bln-echo" });
  const faultLine = element("p", { id: faultId, class: "bln-fault" });
  const unit = param.kind === "table" || param.kind === "list" ? undefined : unitWords(param);
  let isTouched = false;
  control.addEventListener("input", () => {
    isTouched = true;
    host.onInput();
  });
  control.addEventListener("blur", () => {
    if (isTouched) return;
    isTouched = true;
    host.onInput();
  });
  const pick = async (): Promise<void> => {
    const reference = await host.pickReference?.();
    if (reference === undefined) return;
    control.value = `=${reference}`;
    isTouched = true;
    host.onInput();
  };
  const canPick = host.pickReference !== undefined && !(control instanceof HTMLSelectElement);
  const label = element("label", { class: "bln-label", for: id }, param.name.replaceAll("_", " "));
  if (isOptional(param)) label.append(element("span", { class: "bln-quiet" }, " (optional)"));
  const row = element("div", { class: "bln-control" }, control);
  if (unit !== undefined) row.append(element("span", { class: "bln-unit" }, unit));
  if (canPick) {
    const chooser = button("Use selection", "plain", () => void pick());
    chooser.setAttribute("aria-label", `Use selection for ${param.name.replaceAll("_", " ")}`);
    row.append(chooser);
  }
  return {
    param,
    element: element(
      "div",
      { class: "bln-field" },
      label,
      row,
      element("div", { id: helpId, class: "bln-help" }, ...helpOf(param)),
      echoLine,
      faultLine,
    ),
    read: () => readField(param, control.value),
    fill: (value) => {
      control.value = fieldText(param, value);
      isTouched = true;
    },
    clear: () => {
      control.value = "";
      isTouched = false;
    },
    refer: (reference) => {
      control.value = reference;
      isTouched = true;
    },
    isTouched: () => isTouched,
    touch: () => {
      isTouched = true;
    },
    show: ({ fault, value, remark }) => {
      const understood = fault === undefined ? echo(param, value) : undefined;
      const words =
        remark ?? understood?.text ?? (fault === undefined ? valueWords(param, value) : undefined);
      echoLine.replaceChildren(words ?? "");
      if (understood?.note !== undefined)
        echoLine.append(element("span", { class: "bln-note" }, ` ${understood.note}`));
      faultLine.textContent = fault ?? "";
      if (fault === undefined) control.removeAttribute("aria-invalid");
      else control.setAttribute("aria-invalid", "true");
    },
    focus: () => {
      control.focus();
    },
  };
}
