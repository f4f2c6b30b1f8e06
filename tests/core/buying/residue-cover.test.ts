import { describe, expect, it } from "vitest";
import { coverByResidues } from "../../../src/core/buying/residue-cover";

describe("coverByResidues", () => {
  const kinds = [
    { units: 7, price: 4 },
    { units: 3, price: 2 },
  ];

  it("fills the residue with the other bags", () => {
    // Modulo 7: 6 is two bags of 3 at 4, as much as one more bag of 7 but nothing left over; 1000 = 7 x 142 + 6.
    expect(coverByResidues(1000, kinds, 0)).toEqual([142, 2]);
    // 999 = 7 x 141 + 12, at as much as 7 x 142 + 6, but nothing left over; 995 = 7 x 140 + 15, as 7 x 142 + 3.
    expect(coverByResidues(999, kinds, 0)).toEqual([141, 4]);
    expect(coverByResidues(995, kinds, 0)).toEqual([140, 5]);
    expect(coverByResidues(994, kinds, 0)).toEqual([142, 0]);
  });

  it("says where the other bags alone hold more than the need", () => {
    // At one price a unit 9 is three bags of 3, but 8 is exact only as 15 - 7.
    const equal = [
      { units: 7, price: 7 },
      { units: 5, price: 5 },
    ];
    expect(coverByResidues(8, equal, 0)).toBeUndefined();
    expect(coverByResidues(22, equal, 0)).toEqual([1, 3]);
  });

  it("takes bags larger than the base bag", () => {
    // 10 at 10 is the better value; 13 at 14 wastes 1, less than any other way to 13 modulo 10.
    expect(
      coverByResidues(
        1013,
        [
          { units: 13, price: 14 },
          { units: 10, price: 10 },
        ],
        1,
      ),
    ).toEqual([1, 100]);
  });
});
