import { readFileSync } from "node:fs";
import { createContext, runInContext } from "node:vm";

const OLDER_ENGINE = `
  for (const name of ["at", "findLast", "findLastIndex", "toSorted", "toReversed", "toSpliced", "with"])
    delete Array.prototype[name];
  for (const name of ["at", "matchAll", "replaceAll"]) delete String.prototype[name];
  delete Object.hasOwn; delete Object.groupBy; delete Map.groupBy;
  delete globalThis.WebAssembly; delete globalThis.structuredClone;
`;

/** What a cell of Google Sheets can hold as an argument. */
export type Sent = number | string | boolean | undefined | Date | readonly (readonly unknown[])[];

/** The generated script in an engine that has ECMAScript and nothing else, as the custom functions of a sheet find it. */
export class ScriptHost {
  readonly text = readFileSync("dist/google-sheets/Code.gs", "utf8");
  private readonly context: object;

  /** @param isOlder true for an engine without the methods that came after ES2019 */
  constructor(isOlder: boolean, services: object = {}) {
    this.context = createContext({ ...services });
    if (isOlder) runInContext(OLDER_ENGINE, this.context);
    runInContext(this.text, this.context);
  }

  /** Calls a global function of the script; values cross into its realm first, as they do in a sheet. */
  call(name: string, args: readonly unknown[]): unknown {
    const cross = (value: unknown): string => {
      if (value === undefined) return "undefined";
      if (Object.prototype.toString.call(value) === "[object Date]")
        return `new Date(${(value as Date).getTime()})`;
      if (Array.isArray(value)) return `[${value.map(cross).join(",")}]`;
      return JSON.stringify(value);
    };
    return runInContext(`${name}(${args.map(cross).join(",")})`, this.context);
  }

  /** Names of the script's global functions. */
  names(): readonly string[] {
    return [...this.text.matchAll(/^function (\w+)\(/gm)].map((match) => match[1] ?? "");
  }
}
