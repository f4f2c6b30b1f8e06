import { WEIGHTS, type Problem, type Reach } from "../problem";

/**
 * The status cell of a row: the worst word first, then every sentence, worst first.
 *
 * @param problems what concerns the row
 * @returns `ok`, or for example `stop: pieces row 2: height must be given for kind "column", found nothing`
 */
export function statusOf(problems: readonly Problem[]): string {
  const spoken = WEIGHTS.flatMap((weight) =>
    weight === "note" ? [] : problems.filter((problem) => problem.weight === weight),
  );
  const [worst] = spoken;
  if (worst === undefined) return "ok";
  const sentences = [...new Set(spoken.map(({ what }) => what))];
  return `${worst.weight}: ${sentences.join("; ")}`;
}

/**
 * The first problem that takes a number away.
 *
 * @param problems all that were found
 * @param reaches kinds of reach that concern the number
 * @returns its sentence, or undefined where the number can stand
 */
export function stopping(
  problems: readonly Problem[],
  ...reaches: readonly Exclude<Reach["of"], "item" | "good" | "none">[]
): string | undefined {
  const wanted: readonly string[] = reaches;
  return problems.find(({ weight, reach }) => weight === "stop" && wanted.includes(reach.of))?.what;
}
