import { MAX_TEXT } from "../../formula/address";
import type { CellValue } from "../../workbook/model";
import type { EngineArgument, EngineFunction, EngineResult } from "../engine";
import { usedPart } from "../vast-ranges";
import { Area } from "./areas";
import { type Code, type Compiler, isTable, notCompiled } from "./code";
import { isError, VALUE_ERROR } from "./operands";
import { needsUniver } from "./signals";
import type { Tree } from "./tree";

/** A call of a function of ours. Ranges go in as rows; a range for a single value is one call for each cell, for Univer. */
export function compileOurs(fn: EngineFunction, args: readonly Tree[], compiler: Compiler): Code {
  const { parameters } = fn;
  if (args.length > parameters.length) notCompiled("more arguments than it takes");
  const codes = args.map((tree, at): Code | EngineArgument => {
    const takesRange = parameters[at]?.takesRange === true;
    if (tree.kind === "nothing") return null;
    if (tree.kind === "array" && takesRange) return tree.rows;
    return takesRange ? compiler.any(tree) : compiler.value(tree);
  });
  return (row, column) => {
    const given: EngineArgument[] = [];
    for (const [at, code] of codes.entries()) {
      if (typeof code !== "function") {
        given.push(code);
        continue;
      }
      const result = code(row, column);
      if (result instanceof Area) given.push(rowsFor(result, compiler));
      else if (isTable(result)) return needsUniver();
      else if (isError(result) && parameters[at]?.takesRange !== true) {
        const { name = "an argument" } = parameters[at] ?? {};
        return compiler.fail({ error: result.error }, `${name} holds the error ${result.error}`);
      } else given.push(result);
    }
    return called(fn, given, compiler);
  };
}

/** The cells of an area; whole columns and rows as far as the workbook is in use. */
function rowsFor(area: Area, { extent }: Compiler): readonly (readonly CellValue[])[] {
  const { lastRow, lastColumn } = usedPart(area, extent);
  return area.rows(lastRow, lastColumn);
}

function called(fn: EngineFunction, args: readonly EngineArgument[], compiler: Compiler): ReturnType<Code> {
  let result: EngineResult;
  try {
    result = fn.call(args);
  } catch (error) {
    return compiler.fail(VALUE_ERROR, error instanceof Error ? error.message : String(error));
  }
  switch (result.kind) {
    case "value": {
      const { value } = result;
      if (typeof value === "number") return Number.isFinite(value) ? value || 0 : needsUniver();
      return typeof value === "string" && value.length > MAX_TEXT ? needsUniver() : value;
    }
    case "table":
      return { table: result.rows };
    case "error":
      return compiler.fail({ error: result.code }, result.sentence);
  }
}
