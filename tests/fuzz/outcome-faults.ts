import { MOST_KEPT } from "../../src/core/stock/buy-plan";
import { functionNamed } from "../../src/functions/catalogue";
import type { CatalogueFunction, Outcome } from "../../src/functions/definition";

/** What a call may take, of the process's own work. */
export const MOST_MILLISECONDS = 50;

/** Milliseconds of this process's own work: a busy machine must not look like a slow function. */
function workOf(action: () => void): number {
  const before = process.cpuUsage();
  action();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** Asks for as many other purchases as are remembered, so that the next one is searched for. */
export function forgetPurchases(): void {
  const cost = functionNamed("BUY_COST");
  if (cost === undefined) throw new Error("there is no function BUY_COST");
  for (let need = 1; need <= MOST_KEPT; need += 1) {
    cost.call([[[11, "Navy", need]], [["Town", 11, "Navy", 50, 9.9]]]);
  }
}

/** Least milliseconds of own work of three calls. */
export function leastWorkOf(action: () => void): number {
  const works = [1, 2, 3].map(() => {
    forgetPurchases();
    return workOf(action);
  });
  return Math.min(...works);
}

/** A value as text in which nothing that JSON leaves out is lost. */
export function printed(value: unknown): string {
  return (
    JSON.stringify(value, (_, part: unknown) => {
      if (typeof part === "bigint" || typeof part === "symbol" || typeof part === "undefined")
        return String(part);
      return typeof part === "number" && (!Number.isFinite(part) || Object.is(part, -0))
        ? `number ${part}`
        : part;
    }) ?? ""
  );
}

function isCell(value: unknown): boolean {
  if (typeof value === "object" && value !== null && "sentence" in value)
    return typeof value.sentence === "string" && /[^.]$/.test(value.sentence);
  if (typeof value === "number") return Number.isFinite(value) && !Object.is(value, -0);
  return typeof value === "string" || typeof value === "boolean";
}

/** What is wrong with an outcome, if anything. */
export function faultOf(fn: CatalogueFunction, outcome: Outcome): string | undefined {
  if (outcome.kind === "value") return isCell(outcome.value) ? undefined : "a value that no cell holds";
  if (outcome.kind === "table") {
    const width = outcome.rows[0]?.length ?? 0;
    if (outcome.rows.length === 0 || width === 0) return "an empty table";
    if (outcome.rows.some((row) => row.length !== width)) return "a jagged table";
    return outcome.rows.every((row) => row.every(isCell)) ? undefined : "a table cell that no cell holds";
  }
  if (!["#VALUE!", "#N/A", "#NUM!"].includes(outcome.code)) return `the code ${outcome.code}`;
  if (outcome.sentence === "" || outcome.sentence.endsWith(".")) return "no sentence";
  if (outcome.sentence.includes("fault of its own")) return "a fault of its own";
  if (/\bNaN\b|\bInfinity\b|undefined|\[object/.test(outcome.sentence.replace(/"[^"]*…?"/g, "")))
    return "a sentence with an unspoken value";
  const names = fn.params.map((param) => param.name);
  if (outcome.code === "#VALUE!" && !names.some((name) => outcome.sentence.includes(name)))
    return "a sentence without argument";
  return undefined;
}
