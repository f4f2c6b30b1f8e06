import type { CatalogueFunction } from "../functions/definition";
import { isOptional } from "../functions/param";
import { functionText } from "../functions/metadata";
import { parameterText } from "../functions/parameter-help";
import type { EngineFunction } from "./engine";

/** The catalogue as the spreadsheet engine takes it. */
export function engineFunctions(catalogue: readonly CatalogueFunction[]): readonly EngineFunction[] {
  return catalogue.map((fn) => ({
    name: fn.name,
    text: functionText(fn),
    parameters: fn.params.map((param) => ({
      name: param.name,
      text: parameterText(param),
      isOptional: isOptional(param),
      takesRange: param.kind === "list" || param.kind === "table",
    })),
    call: (args) => fn.call(args),
  }));
}
