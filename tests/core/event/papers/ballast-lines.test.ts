import { describe, expect, it } from "vitest";
import { ballastLines } from "../../../../src/core/event/papers/ballast-lines";
import { isWithheld } from "../../../../src/core/withheld";
import { inches } from "../job-builder";
import { pieceOfRows, termsOf } from "../planned";

const GATE = { kind: "arch", width: 5, height: 2.8, inflated: inches(9), where: "outdoors" } as const;

describe("ballastLines", () => {
  it("splits an arch's ballast between its feet and never below what both need together", () => {
    const [row] = ballastLines("s", pieceOfRows([{ ...GATE, base: 0.6 }]), termsOf({ gust: 8 }), "Gate: ");
    expect(row).toMatchObject({
      section: "s",
      line: "Gate: ballast of one, in both feet together",
      unit: "kg",
    });
    const [each] = /^[\d.]+/.exec(row?.note ?? "") ?? [];
    // By hand: 2 x 194.9 N x 1.749 m / (9.80665 x 0.6 m) x 1.5 = 173.8 kg, half of it in each foot.
    expect(Number(row?.amount)).toBeCloseTo(173.8, 1);
    expect(2 * Number(each)).toBeGreaterThanOrEqual(173.7);
    expect(Number(each)).toBeCloseTo(86.9, 1);
  });

  it("stops without a gust or a foot, and is silent indoors", () => {
    for (const [row] of [
      ballastLines("s", pieceOfRows([{ ...GATE, base: 0.6 }]), termsOf({})),
      ballastLines("s", pieceOfRows([GATE]), termsOf({ gust: 8 })),
    ]) {
      expect(isWithheld(row?.amount)).toBe(true);
      expect(row?.status).toMatch(/^stop: "Piece" stands outdoors: (gust|base) must be given/);
    }
    expect(ballastLines("s", pieceOfRows([{ ...GATE, where: "indoors" }]), termsOf({ gust: 8 }))).toEqual([]);
  });
});
