import { expect, it } from "vitest";
import { check } from "../../src/core/problem";
import { statusOf, stopping } from "../../src/core/event/status";

it("makes what is to be looked at once, which stops nothing", () => {
  const found = check("terms", "crew is not given, 2 taken", "type crew in terms");
  expect(statusOf([found])).toBe("check: crew is not given, 2 taken");
  expect(stopping([found], "job", "work", "travel", "price", "tables")).toBeUndefined();
  expect(check("names", "names row 2: odd", undefined, 2)).toMatchObject({ row: 2, todo: "look at it once" });
});
