import type { IFunctionInfo } from "@univerjs/engine-formula";
import { BooleanNumber } from "@univerjs/core";
import { FunctionType } from "@univerjs/engine-formula";
import { offered } from "../functions/catalogue";
import type { CatalogueFunction } from "../functions/definition";
import { NAMESPACE } from "../functions/formula-style";
import { functionText } from "../functions/metadata";
import { isOptional, type Param } from "../functions/param";
import { parameterText } from "../functions/parameter-help";
import { argumentText } from "../functions/reference";

function parameterInfo(
  fn: CatalogueFunction,
  param: Param,
  index: number,
): IFunctionInfo["functionParameter"][number] {
  const [example] = fn.examples;
  return {
    name: param.name,
    detail: parameterText(param),
    example: argumentText(example?.args[index] ?? null),
    require: isOptional(param) ? BooleanNumber.FALSE : BooleanNumber.TRUE,
    repeat: BooleanNumber.FALSE,
  };
}

/** The name in the list for what a person begins to type: `BLN_` stands for `BLN.`. */
export function listedName(typed: string): string {
  return typed.replace(new RegExp(`^(\\s*${NAMESPACE})_`, "i"), "$1.");
}

/** The catalogue as the grid's formula editor lists it while a formula is typed. */
export function typedFunctions(): IFunctionInfo[] {
  return offered.map((fn) => ({
    functionName: `${NAMESPACE}.${fn.name}`,
    functionType: FunctionType.User,
    description: functionText(fn),
    abstract: fn.text,
    functionParameter: fn.params.map((param, index) => parameterInfo(fn, param, index)),
  }));
}
