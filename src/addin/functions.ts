import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction, Cell } from "../functions/define";

// Excel shows a message only with these two codes.
function customFunctionsError(code: string, sentence: string): CustomFunctions.Error {
  const { ErrorCode } = CustomFunctions;
  if (code === "#N/A") return new CustomFunctions.Error(ErrorCode.notAvailable, sentence);
  if (code === "#NUM!") return new CustomFunctions.Error(ErrorCode.invalidNumber);
  return new CustomFunctions.Error(ErrorCode.invalidValue, sentence);
}

/** A catalogue function as Excel calls it; the invocation object that Excel appends is past the last parameter. */
function excelFunction(fn: CatalogueFunction): (...args: unknown[]) => Cell | Cell[][] {
  return (...args) => {
    const outcome = fn.call(args.slice(0, fn.params.length));
    if (outcome.kind === "error") throw customFunctionsError(outcome.code, outcome.sentence);
    return outcome.kind === "value" ? outcome.value : outcome.rows.map((row) => [...row]);
  };
}

for (const fn of catalogue) CustomFunctions.associate(fn.name, excelFunction(fn));
