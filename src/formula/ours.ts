import { functionNamed } from "../functions/catalogue";
import type { CatalogueFunction } from "../functions/definition";
import { ourFunction } from "./names";
import type { NameInfo, Scope } from "./scope";
import { splitSheet } from "./address";
import { type FormulaToken, tokenize, withoutPrefix } from "./tokens";

/** The function of the catalogue that a token calls, whichever way its name is written. */
export function calledFunction({ kind, text }: FormulaToken): CatalogueFunction | undefined {
  const name = kind === "call" ? ourFunction(text) : undefined;
  return name === undefined ? undefined : functionNamed(name);
}

/** Whether a formula on a sheet, without its equals sign, uses our functions. */
export type UsesOurs = (formula: string, sheet: string) => boolean;

/** Whether a formula of a workbook calls a function of our namespace, by itself or through names of the workbook. */
export function oursTest(scope: Scope): UsesOurs {
  const byWord = new Map<string, NameInfo[]>();
  for (const name of scope.names) {
    const word = withoutPrefix(name.name).toLowerCase();
    byWord.set(word, [...(byWord.get(word) ?? []), name]);
  }
  const nameBehind = (word: string, sheet: string): NameInfo | undefined => {
    const known = byWord.get(withoutPrefix(word).toLowerCase()) ?? [];
    const own = known.find((name) => name.sheet?.toLowerCase() === sheet.toLowerCase());
    return own ?? known.find((name) => name.sheet === undefined);
  };
  const namesIn = (tokens: readonly FormulaToken[], sheet: string): readonly NameInfo[] =>
    tokens.flatMap(({ kind, text }, at) => {
      if (kind !== "name" && kind !== "call") return [];
      const before = tokens[at - 1];
      const on = before?.kind === "sheet" ? (splitSheet(before.text).sheet ?? sheet) : sheet;
      return nameBehind(text, on) ?? [];
    });

  const ours = new Set<NameInfo>();
  const usersOf = new Map<NameInfo, NameInfo[]>();
  for (const name of scope.names) {
    const tokens = tokenize(name.reference);
    if (tokens.some(isOurCall)) ours.add(name);
    for (const used of namesIn(tokens, name.sheet ?? "")) {
      const users = usersOf.get(used) ?? [];
      users.push(name);
      usersOf.set(used, users);
    }
  }
  // A set gives what is added while it is walked, too.
  for (const name of ours) for (const user of usersOf.get(name) ?? []) ours.add(user);

  return (formula, sheet) => {
    if (ours.size === 0 && !/bln[._]/i.test(formula)) return false;
    const tokens = tokenize(formula);
    return tokens.some(isOurCall) || namesIn(tokens, sheet).some((name) => ours.has(name));
  };
}

function isOurCall({ kind, text }: FormulaToken): boolean {
  return kind === "call" && ourFunction(text) !== undefined;
}

/** Excel's own functions whose result may be more than one cell, whatever they give at present. */
const FILLING = new Set(
  `ANCHORARRAY BYCOL BYROW CHOOSECOLS CHOOSEROWS DROP EXPAND FILTER HSTACK MAKEARRAY MAP RANDARRAY SCAN SEQUENCE SORT SORTBY
  TAKE TEXTSPLIT TOCOL TOROW TRANSPOSE UNIQUE VSTACK WRAPCOLS WRAPROWS XLOOKUP`.split(/\s+/),
);

/** Whether a formula's result may be more than one cell, so that Excel must not cut it to one. */
export function mayFill(formula: string): boolean {
  return tokenize(formula).some((token) => {
    if (token.kind !== "call") return false;
    if (!isOurCall(token)) return FILLING.has(withoutPrefix(token.text).toUpperCase());
    return calledFunction(token)?.result.kind !== "value";
  });
}
