import { expect, it } from "vitest";
import type { PieceCells } from "../../../src/core/event/job";
import { inflatedOf } from "../../../src/core/event/part-size";
import { fromSi } from "../../../src/core/units";
import { inches, jobOf, type Row } from "./job-builder";

const sized = (piece: Row<PieceCells>): number | undefined => {
  const [line] = jobOf({ pieces: [piece] }).pieces;
  const size = line && inflatedOf(line);
  return size === undefined ? undefined : Math.round(fromSi(size, "in") * 100) / 100;
};

it("sizes by use: 0.82 in clusters, 1 with helium, 0.8 outdoors, in half inches (common practice, no source)", () => {
  expect(sized({ kind: "column", printed: inches(11) })).toBe(9);
  expect(sized({ kind: "bouquet", printed: inches(11) })).toBe(11);
  expect(sized({ kind: "mix", printed: inches(16), where: "outdoors" })).toBe(13);
  expect(sized({ kind: "mix", printed: inches(16), inflated: inches(12) })).toBe(12);
});

it("takes foil by its flat size, long ones by their code, and sleeves not at all", () => {
  expect(sized({ kind: "foil", printed: inches(18), where: "outdoors" })).toBe(18);
  expect(sized({ kind: "count", type: "long", code: 260 })).toBe(2);
  expect(sized({ kind: "sleeve", printed: inches(60) })).toBeUndefined();
  expect(() => sized({ kind: "count", type: "long", printed: inches(60) })).toThrow(
    "pieces row 2: inflated must be given for a long balloon without a code such as 260, found nothing",
  );
  expect(() => sized({ kind: "column" })).toThrow("pieces row 2: printed must be given, found nothing");
});
