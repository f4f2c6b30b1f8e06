import { resolve } from "node:path";
import { describe, expect, it } from "vitest";

interface NpmOptionsModule {
  readonly takenByNpm: (
    known: readonly string[],
    env: Readonly<Record<string, string>>,
    rest: readonly string[],
  ) => readonly string[];
  readonly unknownArgument: (known: readonly string[], rest: readonly string[]) => string | undefined;
}
const { takenByNpm, unknownArgument } = (await import(
  resolve("src/build/npm-options.mjs")
)) as NpmOptionsModule;

const KNOWN = ["--json", "--put-back", "--seconds=", "--no-serve"];

// What npm 11.19.1 put into the environment and handed on for each of these lines.
describe("options that npm took for its own", () => {
  it.each([
    ["npm run x q.xlsx --json", { npm_config_json: "true" }, ["q.xlsx"], ["--json"]],
    ["npm run x --put-back q.xlsx", { npm_config_put_back: "true" }, ["q.xlsx"], ["--put-back"]],
    ["npm run x q.xlsx --seconds=10", { npm_config_seconds: "10" }, ["q.xlsx"], ["--seconds=10"]],
    ["npm run x q.xlsx --seconds 10", { npm_config_seconds: "true" }, ["q.xlsx", "10"], ["--seconds=VALUE"]],
    ["npm start --no-serve", { npm_config_serve: "" }, [], ["--no-serve"]],
    ["npm run x -- q.xlsx --json --seconds=10", {}, ["q.xlsx", "--json", "--seconds=10"], []],
    ["npm run x q.xlsx", { npm_config_user_agent: "npm" }, ["q.xlsx"], []],
  ])("are found for %s", (_line, env, rest, taken) => {
    expect(takenByNpm(KNOWN, env as Readonly<Record<string, string>>, rest)).toEqual(taken);
  });

  it("are none where they were handed on as well", () => {
    const env = { npm_config_json: "true", npm_config_seconds: "10" };
    expect(takenByNpm(KNOWN, env, ["q.xlsx", "--json", "--seconds=3"])).toEqual([]);
  });
});

it("finds the first argument that a command does not know", () => {
  expect(unknownArgument(["--origin="], ["--origin=https://example.org"])).toBeUndefined();
  expect(unknownArgument(["--origin="], ["--origin", "https://example.org"])).toBe("--origin");
  expect(unknownArgument(["--no-serve"], ["--no-serve", "--noserve"])).toBe("--noserve");
});
