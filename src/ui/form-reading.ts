import type { CatalogueFunction } from "../functions/definition";
import { isOptional } from "../functions/param";
import { readArgument } from "../functions/read-argument";
import type { Argument } from "./argument";
import type { Field } from "./field";
import { messageOf } from "./message-of";

/** The values of a reference: rows of cells, blank as null. */
export type ReferenceValues = readonly (readonly (number | string | boolean | null)[])[];

/** Values behind a reference; undefined where the host cannot tell. */
export type Resolve = (reference: string) => Promise<ReferenceValues | undefined> | undefined;

/** The value of a reference that this page does not have. */
export const WITHHELD = Symbol("a reference whose values this page does not have");

/** What stands in the fields of a form, in the order of the parameters. */
export interface FormReading {
  readonly args: readonly Argument[];
  readonly values: readonly unknown[];
  /** Sentences about fields that cannot be used. */
  readonly faults: readonly (string | undefined)[];
}

/** Values of an argument as the worksheet would send them. */
async function valuesOf(argument: Argument, resolve: Resolve | undefined): Promise<unknown> {
  if (argument.kind === "omitted") return null;
  if (argument.kind === "literal") return argument.value;
  const rows = await resolve?.(argument.text);
  if (rows === undefined) return argument.otherwise ?? WITHHELD;
  // A reference to one cell arrives as that cell.
  return rows.length === 1 && rows[0]?.length === 1 ? rows[0][0] : rows;
}

/**
 * The field that a sentence is about: sentences begin with their argument, and an error of another argument belongs under that
 * one's field.
 */
export function fieldAbout(fn: CatalogueFunction, sentence: string): number | undefined {
  const [first = ""] = sentence.split(/[ :]/, 1);
  const index = fn.params.findIndex((param) => param.name === first);
  return index < 0 ? undefined : index;
}

/** Reads all fields of a form, and checks them as the cell would. */
export async function readForm(
  fn: CatalogueFunction,
  fields: readonly Field[],
  resolve: Resolve | undefined,
): Promise<FormReading> {
  const args = fields.map((field) => field.read());
  const faults: (string | undefined)[] = fields.map(() => undefined);
  const values = await Promise.all(
    args.map(async (argument, index) => {
      try {
        return await valuesOf(argument, resolve);
      } catch (error) {
        faults[index] = messageOf(error);
        return WITHHELD;
      }
    }),
  );
  const readable = values.map((value) => (value === WITHHELD ? null : value));
  fields.forEach((_, index) => {
    if (values[index] === WITHHELD) return;
    try {
      readArgument(fn.params, index, readable);
    } catch (error) {
      const about = fieldAbout(fn, messageOf(error)) ?? index;
      if (values[about] !== WITHHELD) faults[about] ??= messageOf(error);
    }
  });
  return { args, values, faults };
}

/** Places of the parameters that must be given and are not. */
export function missingPlaces(fn: CatalogueFunction, args: readonly Argument[]): readonly number[] {
  return [...fn.params.entries()].flatMap(([index, param]) =>
    args[index]?.kind === "omitted" && !isOptional(param) ? [index] : [],
  );
}

/** Whether the function can be called with what stands in the fields. */
export function canCall(fn: CatalogueFunction, { args, values, faults }: FormReading): boolean {
  return (
    missingPlaces(fn, args).length === 0 &&
    faults.every((fault) => fault === undefined) &&
    !values.includes(WITHHELD)
  );
}
