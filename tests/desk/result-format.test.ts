import { expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { resultFormat } from "../../src/desk/result-format";

it("formats what gives a date, a share or money, and nothing else", () => {
  expect(resultFormat("=BLN.START_BY(A1,2)")).toBe("yyyy-mm-dd hh:mm");
  expect(resultFormat('=BLN_METRES("2 ft")')).toBeUndefined();
  expect(resultFormat("=TODAY()")).toBe("yyyy-mm-dd");
  // A day more is a date too, but what is done to a share or an amount need not be one.
  expect(resultFormat("=BLN.START_BY(A1,2)-A1")).toBeUndefined();
  expect(resultFormat("=SUM(A1)")).toBeUndefined();
  expect(resultFormat("=")).toBeUndefined();
  const money = catalogue.filter(({ result }) => result.kind === "value" && result.measure === "money");
  expect(money.map(({ name }) => resultFormat(`=BLN.${name}(A1)`))).toEqual(money.map(() => "#,##0.00"));
});
