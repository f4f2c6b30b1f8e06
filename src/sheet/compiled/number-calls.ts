import { type CompileCall, hasArguments } from "./code";
import { isError } from "./operands";
import { needsUniver } from "./signals";

/**
 * Functions of numbers, computed by Univer as they are put right here, but without its tree: where all arguments are
 * numbers there is nothing else that the formula could mean.
 */
const ofNumbers =
  (name: string, least: number, most: number): CompileCall =>
  (args, compiler) => {
    const compute = hasArguments(args, least, most) ? compiler.ofNumbers(name, args.length) : undefined;
    if (compute === undefined) return undefined;
    const codes = args.map((tree) => compiler.value(tree));
    return (row, column) => {
      const numbers: number[] = [];
      for (const code of codes) {
        const value = code(row, column);
        if (isError(value) && codes.length === 1) return value;
        numbers.push(typeof value === "number" ? value : needsUniver());
      }
      return compute(numbers);
    };
  };

export const NUMBER_CALLS: Readonly<Record<string, CompileCall>> = {
  ROUND: ofNumbers("ROUND", 2, 2),
  ROUNDUP: ofNumbers("ROUNDUP", 2, 2),
  ROUNDDOWN: ofNumbers("ROUNDDOWN", 2, 2),
  INT: ofNumbers("INT", 1, 1),
  CEILING: ofNumbers("CEILING", 2, 2),
  FLOOR: ofNumbers("FLOOR", 2, 2),
  MOD: ofNumbers("MOD", 2, 2),
  ABS: ofNumbers("ABS", 1, 1),
  SQRT: ofNumbers("SQRT", 1, 1),
};
