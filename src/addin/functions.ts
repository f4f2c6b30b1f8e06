import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction, Cell, PlainCell } from "../functions/definition";

// Excel shows a message only with two codes, #VALUE! and #N/A; an error that arrived in an argument keeps its own.
function customFunctionsError(code: string, sentence: string): CustomFunctions.Error {
  const { ErrorCode } = CustomFunctions;
  switch (code) {
    case "#N/A":
      return new CustomFunctions.Error(ErrorCode.notAvailable, sentence);
    case "#NUM!":
      return new CustomFunctions.Error(ErrorCode.invalidNumber);
    case "#DIV/0!":
      return new CustomFunctions.Error(ErrorCode.divisionByZero);
    case "#REF!":
      return new CustomFunctions.Error(ErrorCode.invalidReference);
    case "#NAME?":
      return new CustomFunctions.Error(ErrorCode.invalidName);
    case "#NULL!":
      return new CustomFunctions.Error(ErrorCode.nullReference);
    default:
      return new CustomFunctions.Error(ErrorCode.invalidValue, sentence);
  }
}

type ExcelCell = PlainCell | CustomFunctions.Error;

function excelCell(cell: Cell): ExcelCell {
  return typeof cell === "object" ? customFunctionsError(cell.error, cell.sentence) : cell;
}

/** A catalogue function as Excel calls it; the invocation object that Excel appends is past the last parameter. */
function excelFunction(fn: CatalogueFunction): (...args: unknown[]) => PlainCell | ExcelCell[][] {
  return (...args) => {
    const outcome = fn.call(args.slice(0, fn.params.length));
    if (outcome.kind === "error") throw customFunctionsError(outcome.code, outcome.sentence);
    return outcome.kind === "value" ? outcome.value : outcome.rows.map((row) => row.map(excelCell));
  };
}

for (const fn of catalogue) CustomFunctions.associate(fn.name, excelFunction(fn));
