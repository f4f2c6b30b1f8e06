import { Area } from "./areas";
import { type Code, type CompileCall, type Compiler, hasArguments } from "./code";
import { isError, truthOf, VALUE_ERROR } from "./operands";
import { needsUniver } from "./signals";
import type { Tree } from "./tree";

/** A branch: a cell as the reference that it is, so that a sum leaves its text out. */
function branch(tree: Tree, compiler: Compiler): Code {
  return tree.kind === "nothing" ? () => 0 : compiler.any(tree);
}

/** Computes the branch that is taken, and not the other. */
const choose: CompileCall = (args, compiler) => {
  if (!hasArguments(args, 2, 3)) return undefined;
  const [condition, then, otherwise] = args;
  const test = compiler.value(condition);
  const yes = branch(then, compiler);
  const no: Code = otherwise === undefined ? () => false : branch(otherwise, compiler);
  return (row, column) => {
    const truth = truthOf(test(row, column));
    if (typeof truth !== "boolean") return truth;
    return truth ? yes(row, column) : no(row, column);
  };
};

const substitute =
  (isReplaced: (code: string) => boolean): CompileCall =>
  (args, compiler) => {
    if (!hasArguments(args, 2)) return undefined;
    const [tree, instead] = args;
    const value = compiler.value(tree);
    const other = compiler.value(instead);
    return (row, column) => {
      const result = value(row, column);
      return isError(result) && isReplaced(result.error) ? other(row, column) : (result ?? 0);
    };
  };

/** Texts and blanks of references say nothing; an argument must spell TRUE or FALSE. */
const joining =
  (isAnd: boolean): CompileCall =>
  (args, compiler) => {
    if (!hasArguments(args, 1, 255)) return undefined;
    const codes = args.map((tree) => compiler.any(tree));
    return (row, column) => {
      let said: boolean | undefined;
      let failed: ReturnType<Code> | undefined;
      const say = (truth: boolean): void => {
        said = said === undefined ? truth : isAnd ? said && truth : said || truth;
      };
      for (const code of codes) {
        const result = code(row, column);
        if (result instanceof Area) {
          result.forEach((value) => {
            if (isError(value)) failed = value;
            else if (typeof value !== "string") say(Boolean(value));
            return failed !== undefined;
          });
        } else {
          if (result === null || result === "" || (typeof result === "object" && !isError(result)))
            needsUniver();
          const truth = truthOf(result as Exclude<typeof result, object>);
          if (typeof truth === "boolean") say(truth);
          else failed = truth;
        }
        if (failed !== undefined) return failed;
      }
      return said ?? VALUE_ERROR;
    };
  };

const not: CompileCall = (args, compiler) => {
  if (!hasArguments(args, 1)) return undefined;
  const [tree] = args;
  const value = compiler.value(tree);
  return (row, column) => {
    const given = value(row, column);
    if (typeof given === "string") return needsUniver();
    const truth = truthOf(given);
    return typeof truth === "boolean" ? !truth : truth;
  };
};

export const LOGICAL_CALLS: Readonly<Record<string, CompileCall>> = {
  IF: choose,
  IFERROR: substitute(() => true),
  IFNA: substitute((code) => code === "#N/A"),
  AND: joining(true),
  OR: joining(false),
  NOT: not,
};
