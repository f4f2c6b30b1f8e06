import type { CatalogueFunction } from "./define";
import { isOptional, type Param } from "./param";
import { parameterText } from "./parameter-help";

interface ParameterMetadata {
  readonly description: string;
  readonly dimensionality?: "matrix";
  readonly name: string;
  readonly optional?: true;
  readonly type: "any";
}

interface FunctionMetadata {
  readonly description: string;
  readonly id: string;
  readonly name: string;
  readonly options?: { readonly excludeFromAutoComplete: true };
  readonly parameters: readonly ParameterMetadata[];
  readonly result: { readonly dimensionality?: "matrix" };
}

/** The content of functions.json, which tells Excel what the add-in offers. */
export interface CustomFunctionsMetadata {
  readonly allowCustomDataForDataTypeAny: true;
  /** Error cells reach the functions, which name them by row and column; without it Excel gives one bare error for a table. */
  readonly allowErrorForDataTypeAny: true;
  readonly functions: readonly FunctionMetadata[];
}

function parameterMetadata(param: Param): ParameterMetadata {
  const isRange = param.kind === "list" || param.kind === "table";
  return {
    description: parameterText(param),
    ...(isRange && { dimensionality: "matrix" as const }),
    name: param.name,
    ...(isOptional(param) && { optional: true as const }),
    type: "any",
  };
}

/** The sentence Excel shows for a function: what it answers, and its caution where it has one. */
export function functionText(fn: CatalogueFunction): string {
  return fn.caution === undefined ? fn.text : `${fn.text} Caution: ${fn.caution}`;
}

/** Writes the metadata of a catalogue in the form that Excel reads. */
export function customFunctionsMetadata(catalogue: readonly CatalogueFunction[]): CustomFunctionsMetadata {
  return {
    allowCustomDataForDataTypeAny: true,
    allowErrorForDataTypeAny: true,
    functions: catalogue.map((fn) => ({
      description: functionText(fn),
      id: fn.name,
      name: fn.name,
      ...(fn.replacedBy !== undefined && { options: { excludeFromAutoComplete: true as const } }),
      parameters: fn.params.map(parameterMetadata),
      result: fn.result.kind === "value" ? {} : { dimensionality: "matrix" },
    })),
  };
}
