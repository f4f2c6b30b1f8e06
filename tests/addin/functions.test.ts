import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { beforeAll, describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { CustomFunctionsHost } from "./custom-functions-host";

const bundle = "dist/addin/functions.js";

describe("the compiled bundle in Microsoft's custom-functions runtime", () => {
  let host: CustomFunctionsHost;
  beforeAll(() => {
    host = new CustomFunctionsHost(bundle);
  });

  it("registers every function of the catalogue and nothing else", () => {
    expect([...host.registered()].sort()).toEqual(catalogue.map((fn) => fn.name).sort());
  });

  it("answers as the catalogue does, for the first example of every function", async () => {
    const calls = catalogue.flatMap((fn) => {
      const [example] = fn.examples;
      if (example === undefined) return [];
      const args = fn.params.map((_, index) => {
        const argument = example.args[index] ?? null;
        return Array.isArray(argument) && !Array.isArray(argument[0]) ? [argument] : argument;
      });
      return [{ fn, args }];
    });
    const results = await Promise.all(calls.map(({ fn, args }) => host.call(fn.name, args)));
    results.forEach((result, index) => {
      const call = calls[index];
      if (call === undefined) throw new Error("no call");
      const expected = call.fn.call(call.args);
      expect(expected.kind, call.fn.name).not.toBe("error");
      const value =
        expected.kind === "value" ? expected.value : expected.kind === "table" ? expected.rows : undefined;
      // A round trip through JSON, as the runtime makes it, in which a withheld number is an error of its own cell.
      const sent = JSON.parse(
        JSON.stringify(value),
        (_, cell: { error?: string; sentence?: string } | null) =>
          cell?.sentence === undefined
            ? cell
            : { type: "Error", basicValue: cell.error, message: cell.sentence },
      ) as unknown;
      expect(result, call.fn.name).toMatchObject({ ok: true, value: sent });
    });
  });

  it("sends the sentence with #VALUE! for bad input", async () => {
    const result = await host.call("AIR_LITRES", [250, null]);
    expect(result.ok).toBe(false);
    expect(result.value).toBe("balloon must be from 1 to 120 in, found 250 in");
  });

  it("takes an omitted argument as not given", async () => {
    const [omitted, given] = await Promise.all([
      host.call("AIR_LITRES", [11, null]),
      host.call("AIR_LITRES", [11, 1]),
    ]);
    expect(omitted.value).toBe(given.value);
  });
});

it("ships no help texts that only other hosts show", () => {
  const code = readFileSync(bundle, "utf8");
  const texts = catalogue.flatMap((fn) => fn.examples.map((example) => example.working));
  expect(texts.filter((text) => text.length > 25 && code.includes(JSON.stringify(text)))).toEqual([]);
  expect(gzipSync(code).length).toBeGreaterThan(1000);
});
