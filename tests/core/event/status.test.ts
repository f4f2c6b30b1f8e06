import { expect, it } from "vitest";
import type { Problem, Reach, Weight } from "../../../src/core/event/job";
import { statusOf, stopping } from "../../../src/core/event/status";

const problem = (
  weight: Weight,
  what: string,
  of: Exclude<Reach["of"], "item" | "good"> = "none",
): Problem => ({
  weight,
  table: "pieces",
  what,
  todo: "mend it",
  reach: { of },
});

it("says the worst word first and every sentence once", () => {
  expect(statusOf([])).toBe("ok");
  expect(statusOf([problem("note", "read")])).toBe("ok");
  const found = [problem("check", "a"), problem("stop", "b"), problem("unsafe", "c"), problem("check", "a")];
  expect(statusOf(found)).toBe("stop: b; c; a");
});

it("finds what takes a number away by its reach, and only stops do", () => {
  const found = [problem("check", "a", "job"), problem("stop", "b", "travel"), problem("stop", "c", "job")];
  expect(stopping(found, "job")).toBe("c");
  expect(stopping(found, "travel", "job")).toBe("b");
  expect(stopping(found, "price")).toBeUndefined();
});
