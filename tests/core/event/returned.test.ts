import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PastJobCells } from "../../../src/core/event/cells";
import { returnedOf } from "../../../src/core/event/returned";
import { itemKey } from "../../../src/core/stock/item";
import { inches, jobOf, type Row } from "./job-builder";

const navy = itemKey({ printed: inches(11), colour: "Navy" });
const row = (more: Row<PastJobCells> = {}): Row<PastJobCells> => ({
  job: "June",
  event: "Friday",
  printed: inches(11),
  colour: "Navy",
  left: 4,
  ...more,
});
const backOf = (rows: readonly Row<PastJobCells>[], event = "Friday", key = navy): number | undefined =>
  returnedOf(jobOf({ past_jobs: rows }))(event, key);

describe("returnedOf", () => {
  it("is what was counted, added up over rows of one event and item", () => {
    expect(backOf([row(), row({ left: 3, colour: " NAVY" })])).toBe(7);
    expect(backOf([row()], " friday ")).toBe(4);
  });

  it("is not known where nobody counted, which is not the same as none", () => {
    expect(backOf([])).toBeUndefined();
    expect(backOf([{ job: "June", event: "Friday", printed: inches(11), colour: "Navy" }])).toBeUndefined();
    expect(backOf([row({ left: 0 })])).toBe(0);
  });

  it("keeps events, sizes, colours and types apart", () => {
    expect(backOf([row({ event: "Sunday" })])).toBeUndefined();
    expect(backOf([row({ printed: inches(5) })])).toBeUndefined();
    expect(backOf([row({ type: "foil" })])).toBeUndefined();
    expect(backOf([row()], "Friday", itemKey({ printed: inches(11), colour: "White" }))).toBeUndefined();
  });

  it("takes nothing from a doubtful row", () => {
    expect(backOf([row(), row({ left: 90, doubt: "popped must be a number" })])).toBe(4);
  });

  it("does not depend on the order of rows", () => {
    const rows = fc.array(
      fc.record({ left: fc.nat(50), event: fc.constantFrom("Friday", "Sunday") }).map((cells) => row(cells)),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(rows, (some) => {
        expect(backOf(some.toReversed())).toBe(backOf(some));
      }),
    );
  });
});
