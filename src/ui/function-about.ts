import type { CatalogueFunction, ExampleArgument } from "../functions/definition";
import type { FormulaStyle } from "../functions/formula-style";
import { formulaText, signature } from "../functions/reference";
import { button, element } from "./element";

/** Worked examples of a function, each of which can be filled into its form. */
export function examplesView(
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

/** What stands behind the number: the model, what it does not cover, the signature, and what is refused. */
export function aboutView(fn: CatalogueFunction, style: FormulaStyle): HTMLElement {
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

/** What can hurt someone, where a function has such a thing. */
export function cautionView({ caution }: CatalogueFunction): readonly HTMLElement[] {
  if (caution === undefined) return [];
  const word = element("strong", {}, "Caution: ");
  return [element("p", { class: "bln-caution", role: "note" }, word, caution)];
}
