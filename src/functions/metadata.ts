import type { CatalogueFunction } from "./definition";
import { isOptional, type Param } from "./param";
import { parameterText } from "./parameter-help";

interface ParameterMetadata {
  readonly customEnumId?: string;
  readonly description: string;
  readonly dimensionality?: "matrix";
  readonly name: string;
  readonly optional?: true;
  readonly type: "any";
}

interface EnumMetadata {
  readonly id: string;
  readonly type: "string";
  readonly values: readonly {
    readonly name: string;
    readonly stringValue: string;
    readonly tooltip: string;
  }[];
}

interface FunctionMetadata {
  readonly description: string;
  readonly helpUrl: string;
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
  /** Choices that Excel lists while a formula is typed; builds that know no such lists take the text as before. */
  readonly enums: readonly EnumMetadata[];
  readonly functions: readonly FunctionMetadata[];
}

type Choice = Param & { readonly kind: "choice" };

function isChoice(param: Param): param is Choice {
  return param.kind === "choice";
}

const optionsKey = ({ options }: Choice): string => options.join("\n");

/** The lists of choices, each once, named after the first parameter that offers it. */
function choiceLists(catalogue: readonly CatalogueFunction[]): ReadonlyMap<string, EnumMetadata> {
  const lists = new Map<string, EnumMetadata>();
  for (const fn of catalogue) {
    for (const param of fn.params.filter(isChoice)) {
      const key = optionsKey(param);
      if (lists.has(key)) continue;
      const values = param.options.map((option) => ({ name: option, stringValue: option, tooltip: "" }));
      lists.set(key, { id: `${fn.name}_${param.name.toUpperCase()}`, type: "string", values });
    }
  }
  return lists;
}

function parameterMetadata(param: Param, lists: ReadonlyMap<string, EnumMetadata>): ParameterMetadata {
  const isRange = param.kind === "list" || param.kind === "table";
  const list = isChoice(param) ? lists.get(optionsKey(param)) : undefined;
  return {
    // The type stays any: as a text Excel would turn numbers and blanks into texts before the sentence for them can be made.
    ...(list !== undefined && { customEnumId: list.id }),
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

/**
 * Writes the metadata of a catalogue in the form that Excel reads.
 *
 * @param page address of the reference page, where each function has an anchor of its name
 */
export function customFunctionsMetadata(
  catalogue: readonly CatalogueFunction[],
  page: string,
): CustomFunctionsMetadata {
  const lists = choiceLists(catalogue);
  return {
    allowCustomDataForDataTypeAny: true,
    allowErrorForDataTypeAny: true,
    enums: [...lists.values()],
    functions: catalogue.map((fn) => ({
      description: functionText(fn),
      helpUrl: `${page}#${fn.name}`,
      id: fn.name,
      name: fn.name,
      ...(fn.replacedBy !== undefined && { options: { excludeFromAutoComplete: true as const } }),
      parameters: fn.params.map((param) => parameterMetadata(param, lists)),
      result: fn.result.kind === "value" ? {} : { dimensionality: "matrix" },
    })),
  };
}
