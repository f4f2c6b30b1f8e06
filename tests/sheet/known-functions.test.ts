import { ERROR_TYPE_SET } from "@univerjs/engine-formula";
import { expect, it } from "vitest";
import { knownError } from "../../src/sheet/known-errors";
import { KNOWN_FUNCTIONS, knowsFunction } from "../../src/sheet/known-functions";
import { UniverFormulas } from "../../src/sheet/univer-formulas";
import { workbookOf } from "./workbook-of";

it("names the functions that Univer has with what is added to it, without loading it", () => {
  const univer = new UniverFormulas(workbookOf({ S: {} }), [], () => undefined);
  expect([...univer.functionNames()].sort()).toEqual([...KNOWN_FUNCTIONS].sort());
  univer.dispose();
  expect(["SUM", "BLN_NO_SUCH", "REGEXTEST", "NO.SUCH"].map(knowsFunction)).toEqual([
    true,
    true,
    true,
    false,
  ]);
});

it("names the errors that Univer has", () => {
  expect([...ERROR_TYPE_SET].map(knownError)).toEqual([...ERROR_TYPE_SET]);
  expect(knownError("#BUSY!")).toBe("#VALUE!");
});
