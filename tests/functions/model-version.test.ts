import { readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { MODEL_VERSION } from "../../src/core/version";
import { catalogue } from "../../src/functions/catalogue";
import { changedFormulas, renewed, valuesOf, type ModelValues } from "./model-values";

const FILE = new URL("model-values.json", import.meta.url);
const recordedValues = (): ModelValues => JSON.parse(readFileSync(FILE, "utf8")) as ModelValues;

// `npm run models` renews the record; `npm run models -- unreleased` also where the version stays.
const asked = process.env["RENEW_MODEL_VALUES"];

describe("the version of the models", () => {
  it.runIf(asked !== undefined)("is recorded anew", () => {
    const record = renewed(recordedValues(), MODEL_VERSION, valuesOf(catalogue), asked === "unreleased");
    writeFileSync(FILE, `${JSON.stringify(record, null, 2)}\n`);
  });

  it("changes with the numbers of the examples, and only then", () => {
    const recorded = recordedValues();
    const values = valuesOf(catalogue);
    expect(recorded.version, "run npm run models").toBe(MODEL_VERSION);
    expect(changedFormulas(recorded, values), "raise MODEL_VERSION, then npm run models").toEqual([]);
    expect(Object.keys(values), "run npm run models").toEqual(Object.keys(recorded.values));
  });

  it("has a main number and a running one", () => {
    expect(MODEL_VERSION).toMatch(/^\d{4}\.\d+$/);
  });
});

describe("the record", () => {
  const recorded: ModelValues = { version: "2000.1", values: { "=A(1)": "1", "=B(2)": "2" } };

  it("takes new examples and drops old ones under the same version", () => {
    const values = { "=B(2)": "2", "=C(3)": "3" };
    expect(renewed(recorded, "2000.1", values, false)).toEqual({ version: "2000.1", values });
  });

  it("refuses other numbers under the same version, unless nobody has it yet", () => {
    const values = { "=A(1)": "1.5", "=B(2)": "2" };
    expect(changedFormulas(recorded, values)).toEqual(["=A(1)"]);
    expect(() => renewed(recorded, "2000.1", values, false)).toThrow("raise MODEL_VERSION");
    expect(renewed(recorded, "2000.2", values, false)).toEqual({ version: "2000.2", values });
    expect(renewed(recorded, "2000.1", values, true)).toEqual({ version: "2000.1", values });
  });
});
