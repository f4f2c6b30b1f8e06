import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import type { Example, ExampleArgument, PlainCell } from "../../src/functions/definition";
import { isOptional } from "../../src/functions/param";
import { formulaText } from "../../src/functions/reference";
import { MENU_ITEMS } from "../../src/sheets/menu";
import { ScriptHost } from "./script-host";

/** An argument as a sheet sends it: one cell bare, ranges as rows, blanks as empty text, left out as undefined. */
function sent(argument: ExampleArgument): unknown {
  if (argument === null) return undefined;
  if (typeof argument !== "object") return argument;
  const rows = Array.isArray(argument[0]) ? argument : [argument];
  return (rows as readonly (readonly (PlainCell | null)[])[]).map((row) => row.map((cell) => cell ?? ""));
}

/** True for a table in which a number is withheld. */
const isGapped = (gives: Example["gives"]): boolean =>
  typeof gives === "object" && gives.flat().includes("#N/A");

const isDate = (value: unknown): value is Date => Object.prototype.toString.call(value) === "[object Date]";
const serial = (date: Date): number =>
  (Date.UTC(
    date.getFullYear(),
    date.getMonth(),
    date.getDate(),
    date.getHours(),
    date.getMinutes(),
    date.getSeconds(),
  ) -
    Date.UTC(1899, 11, 30)) /
  86400000;

describe.each([false, true])("the script in an engine without newer methods: %s", (isOlder) => {
  const host = new ScriptHost(isOlder);

  it.each(catalogue.map((fn) => [fn.name, fn] as const))("%s answers its examples", (name, fn) => {
    for (const { args, gives, within = 0 } of fn.examples) {
      if (isGapped(gives)) {
        // A table cannot hold an error here: the whole call says what is missing.
        expect(() => host.call(`BLN_${name}`, args.map(sent)), formulaText(fn, args)).toThrow(/^#N\/A \S/);
        continue;
      }
      const result = host.call(`BLN_${name}`, args.map(sent));
      const compare = (found: unknown, wanted: unknown): void => {
        if (wanted === null) return;
        const value = isDate(found) ? serial(found) : found;
        if (typeof wanted !== "number") expect(value, formulaText(fn, args)).toBe(wanted);
        // A date in a cell has whole seconds.
        else expect(Math.abs(Number(value) - wanted)).toBeLessThanOrEqual(isDate(found) ? 6e-6 : within);
      };
      if (typeof gives !== "object") {
        compare(result, gives);
        continue;
      }
      const rows = (result as unknown[][]).slice(fn.result.kind === "table" ? 1 : 0);
      expect(rows).toHaveLength(gives.length);
      gives.forEach((row, down) => {
        row.forEach((cell, across) => {
          compare(rows[down]?.[across], cell);
        });
      });
    }
  });

  it.each(catalogue.map((fn) => [fn.name, fn] as const))(
    "%s refuses its failures with a sentence",
    (name, fn) => {
      for (const { args, gives, says = "" } of fn.failures) {
        let message = "";
        try {
          host.call(`BLN_${name}`, args.map(sent));
        } catch (error) {
          message = (error as Error).message;
        }
        expect(message.startsWith(`${gives} `), formulaText(fn, args)).toBe(true);
        expect(message).toContain(says);
      }
    },
  );
});

describe("the script", () => {
  const host = new ScriptHost(true);

  it("declares each function once, with a comment that names every parameter in order and says which may be left out", () => {
    expect(host.names().filter((name) => name.startsWith("BLN_"))).toEqual(
      catalogue.map((fn) => `BLN_${fn.name}`),
    );
    for (const fn of catalogue) {
      const comment = new RegExp(
        String.raw`/\*\*((?:(?!\*/)[\s\S])*)\*/\nfunction BLN_${fn.name}\(([^)]*)\)`,
      ).exec(host.text);
      expect(comment?.[1]?.includes("@customfunction")).toBe(fn.replacedBy === undefined);
      const documented = [...(comment?.[1] ?? "").matchAll(/@param (\w+) (.*)/g)];
      expect(documented.map((match) => match[1]).join(", ")).toBe(comment?.[2]);
      documented.forEach((match, index) => {
        const param = fn.params[index];
        expect(match[2]?.startsWith("optional: ")).toBe(param !== undefined && isOptional(param));
      });
    }
  });

  it("has the function of each menu item, and no name that would be private", () => {
    expect(host.names()).toEqual(expect.arrayContaining(Object.keys(MENU_ITEMS)));
    expect(host.names().filter((name) => name.endsWith("_"))).toEqual([]);
  });

  it("has no syntax that the host cannot parse", () => {
    expect(host.text).not.toMatch(/[{;}\s]#\w+\s*[=;(]|\bstatic\s+\w+\s*=|^\s*(?:import|export)\b/m);
  });

  it("gives rectangular tables without holes", () => {
    for (const fn of catalogue.filter(({ result }) => result.kind !== "value")) {
      for (const { args } of fn.examples.filter(({ gives }) => !isGapped(gives))) {
        const rows = host.call(`BLN_${fn.name}`, args.map(sent)) as unknown[][];
        const widths = new Set(rows.map((row) => row.length));
        expect(widths.size).toBe(1);
        for (const cell of rows.flat()) {
          expect(cell).not.toBeNull();
          expect(cell).not.toBeUndefined();
          expect(cell).not.toBeNaN();
        }
      }
    }
  });

  it("takes one cell, a range of one cell and blanks alike", () => {
    const one = host.call("BLN_COUNT_COLUMN", ["6 ft", 9]);
    expect(host.call("BLN_COUNT_COLUMN", [[["6 ft"]], [[9]], "", undefined])).toBe(one);
  });

  it("calls a function for each row of a range: dates leave as dates, and a bad row is named instead of left out", () => {
    // 6 ft of columns at 9 in is 12 clusters of four; 18:00 less 10 x 1.15 / 2 = 5.75 h is 12:15.
    expect(host.call("BLN_EACH", ["BLN_COUNT_COLUMN", [["6 ft"], [""], ["6 ft"]], 9])).toEqual([
      [48],
      [""],
      [48],
    ]);
    const rows = host.call("BLN_EACH", [
      "START_BY",
      [[new Date(2027, 5, 19, 18)], [new Date(2027, 5, 20, 18)]],
      10,
      2,
    ]);
    expect(
      (rows as Date[][]).map(
        ([date]) => isDate(date) && [date.getDate(), date.getHours(), date.getMinutes()],
      ),
    ).toEqual([
      [19, 12, 15],
      [20, 12, 15],
    ]);
    expect(() => host.call("BLN_EACH", ["COUNT_COLUMN", [["6 ft"], [-1], [-2]], 9])).toThrow(
      /^#N\/A row 2: height must be above 0.*\(and 1 more\)$/,
    );
  });

  it("names an error cell instead of computing with it", () => {
    expect(() => host.call("BLN_COUNT_COLUMN", ["#N/A", 9])).toThrow(/^#[A-Z/!]+ .*#N\/A/);
  });
});

// A zone is fixed when Node starts, so each is tried in a process of its own.
describe.each(["UTC", "Europe/Dublin", "Asia/Kolkata", "America/St_Johns", "Pacific/Apia"])(
  "dates in %s",
  (zone) => {
    it("arrive and leave as the wall clock shows them, durations too", () => {
      const script = `
      const { createContext, runInContext } = require("node:vm");
      const context = createContext({});
      runInContext(require("node:fs").readFileSync("dist/google-sheets/Code.gs", "utf8"), context);
      const start = runInContext('BLN_START_BY(new Date(2027, 5, 19, 18, 0), 10, 2)', context);
      const crew = runInContext('BLN_COUNT_CREW(new Date(1899, 11, 30, 10, 0), 4)', context);
      const hours = runInContext('BLN_START_BY(new Date(2027, 5, 19, 18, 0), new Date(1899, 11, 30, 2, 30))', context);
      const plan = runInContext('BLN_WORK_PLAN([["name","kind","printed","balloons","colour"],["Arch","count",11,20,"Gold"]],[["term","value"],["crew",1],["travel",25],["ready",new Date(1899, 11, 30, 14, 30)]])', context);
      const text = (date) => [date.getFullYear(), date.getMonth() + 1, date.getDate(), date.getHours(), date.getMinutes()].join(" ");
      console.log(JSON.stringify([text(start), crew, text(hours), plan.find((row) => row[1] === "ready")[5]]));
    `;
      const { stdout, stderr } = spawnSync(process.execPath, ["-e", script], {
        env: { ...process.env, TZ: zone },
        encoding: "utf8",
      });
      expect(stderr).toBe("");
      // 18:00 less 10 x 1.15 / 2 = 5.75 h; 10 h in 4 h of which 85 % are useful take 2.9 people; 2.5 h x 1.15 before
      // 18:00 is 15:07:30; a time of day stays one.
      expect(JSON.parse(stdout)).toEqual(["2027 6 19 12 15", 3, "2027 6 19 15 7", "14:30"]);
    });
  },
);
