import "../ui/styles.css";
import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction } from "../functions/definition";
import { UNDERSCORE_COMMA_STYLE, UNDERSCORE_STYLE, type FormulaStyle } from "../functions/formula-style";
import type { ReferenceValues } from "../ui/form-reading";
import { functionForm } from "../ui/function-form";
import { functionList } from "../ui/function-list";

interface Runner {
  withSuccessHandler(handler: (result: never) => void): Runner;
  withFailureHandler(handler: (fault: unknown) => void): Runner;
  blnFile(): void;
  blnSelection(): void;
  blnValues(reference: string): void;
  blnInsert(formula: string, isSure: boolean): void;
}

declare const google: { readonly script: { readonly run: Runner } };

/** Calls a function of the script beside the sheet. */
function run<Result>(start: (runner: Runner) => void): Promise<Result> {
  return new Promise((done, fail) => {
    start(
      google.script.run
        .withSuccessHandler((result: Result) => {
          done(result);
        })
        .withFailureHandler((fault) => {
          fail(fault instanceof Error ? fault : new Error(String(fault)));
        }),
    );
  });
}

/** Formulas as a person of this locale types them: where a comma is the decimal mark, a semicolon parts arguments. */
function styleOf(locale: string): FormulaStyle {
  const tag = locale.replaceAll("_", "-");
  const isComma = new Intl.NumberFormat(tag).format(1.5).includes(",");
  return isComma ? UNDERSCORE_COMMA_STYLE : UNDERSCORE_STYLE;
}

function start(place: HTMLElement, style: FormulaStyle): void {
  let asked = "";
  const list = functionList(catalogue, { onOpen: open });

  async function insert(formula: string): Promise<string> {
    const isSure = asked === formula;
    const { message, asks } = await run<{ message: string; asks: boolean }>((runner) => {
      runner.blnInsert(formula, isSure);
    });
    asked = asks ? formula : "";
    return message;
  }

  function open(fn: CatalogueFunction): void {
    const form = functionForm(fn, {
      style,
      onBack: () => {
        place.replaceChildren(list.element);
        list.focus();
      },
      resolve: (reference) =>
        run<ReferenceValues | undefined>((runner) => {
          runner.blnValues(reference);
        }),
      pickReference: () =>
        run<string>((runner) => {
          runner.blnSelection();
        }),
      onInsert: insert,
    });
    place.replaceChildren(form.element);
    form.focus();
  }

  place.replaceChildren(list.element);
}

const place = document.getElementById("place");
if (place !== null) {
  run<{ locale: string }>((runner) => {
    runner.blnFile();
  })
    .then(({ locale }) => {
      start(place, styleOf(locale));
    })
    .catch(() => {
      start(place, UNDERSCORE_STYLE);
    });
}
