import { createHash } from "node:crypto";
import type { CatalogueFunction, ExampleArgument, Outcome } from "../../src/functions/definition";
import { formulaText } from "../../src/functions/reference";

/** What every example gave when a version of the models was recorded: formula to its numbers. */
export interface ModelValues {
  readonly version: string;
  readonly values: Readonly<Record<string, string>>;
}

const LONGEST_PLAIN = 40;

/** A number to the digits that do not depend on the machine. */
const digits = (value: number): string => String(Number(value.toPrecision(9)));

/** The numbers of a result in reading order; words, such as a status, are not what a model gives. */
function numbersOf(outcome: Outcome): string {
  if (outcome.kind === "error") return outcome.code;
  const cells: readonly unknown[] = outcome.kind === "value" ? [outcome.value] : outcome.rows.slice(1).flat();
  const all = cells.filter((cell) => typeof cell === "number").map((cell) => digits(cell));
  const text = all.join(" ");
  if (text.length <= LONGEST_PLAIN) return text;
  return `${all.length} numbers ${createHash("sha256").update(text).digest("hex").slice(0, 16)}`;
}

const sent = (args: readonly ExampleArgument[]): readonly unknown[] =>
  args.map((argument) => (Array.isArray(argument) && !Array.isArray(argument[0]) ? [argument] : argument));

/** The numbers of all examples of a catalogue, by formula. */
export function valuesOf(catalogue: readonly CatalogueFunction[]): Readonly<Record<string, string>> {
  const entries = catalogue.flatMap((fn) =>
    fn.examples.map(
      (example) => [formulaText(fn, example.args), numbersOf(fn.call(sent(example.args)))] as const,
    ),
  );
  return Object.fromEntries([...entries].sort(([one], [other]) => (one < other ? -1 : 1)));
}

/** Formulas whose numbers are not the recorded ones; new and removed examples are none of them. */
export function changedFormulas(recorded: ModelValues, values: Readonly<Record<string, string>>): string[] {
  return Object.keys(values).filter(
    (formula) => Object.hasOwn(recorded.values, formula) && recorded.values[formula] !== values[formula],
  );
}

/**
 * The record to keep for these values.
 *
 * @param isUnreleased whether numbers may change under the same version, since nobody has it yet
 * @throws where numbers changed and the version did not
 */
export function renewed(
  recorded: ModelValues,
  version: string,
  values: Readonly<Record<string, string>>,
  isUnreleased: boolean,
): ModelValues {
  const changed = changedFormulas(recorded, values);
  if (recorded.version === version && changed.length > 0 && !isUnreleased) {
    throw new Error(
      `raise MODEL_VERSION in src/core/version.ts, these give other numbers than ${version}: ${changed.join(", ")}`,
    );
  }
  return { version, values };
}
