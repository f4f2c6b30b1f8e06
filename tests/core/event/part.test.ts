import { expect, it } from "vitest";
import { rowCheck, rowStop } from "../../../src/core/event/part";

it("stops every number of the job by a row that cannot be read", () => {
  expect(rowStop({ row: 3 }, "pieces row 3: height must be given")).toEqual({
    weight: "stop",
    table: "pieces",
    row: 3,
    what: "pieces row 3: height must be given",
    todo: "mend the cell",
    reach: { of: "job" },
  });
});

it("takes no number away by what is only to be looked at", () => {
  expect(rowCheck({ row: 4 }, "pieces row 4: inflated above its printed size", "set it")).toMatchObject({
    weight: "check",
    row: 4,
    todo: "set it",
    reach: { of: "none" },
  });
});
