import { describe, expect, it } from "vitest";
import type { AxisShift } from "../../src/formula/axis-shift";
import { dropSheetIn, moveReferences, renameSheetIn } from "../../src/formula/move-references";

const insert: AxisShift = { kind: "insert", axis: "row", at: 2, count: 2 };
const remove: AxisShift = { kind: "delete", axis: "column", at: 1, count: 1 };

/** Each pair worked out by hand after Excel's rules: inserting two rows above row 3, deleting column B. */
describe("references after rows and columns moved", () => {
  it.each([
    ["SUM(B2:B6)", "SUM(B2:B8)"],
    ["$B$3+B$2", "$B$5+B$2"],
    ["A:A+3:3+$2:$4", "A:A+5:5+$2:$6"],
    ['"B3"&B3&"it""s B3"', '"B3"&B5&"it""s B3"'],
    ["Prices!B3+'My list'!B3", "Prices!B3+'My list'!B3"],
    ["Quote!B3+'quote'!B3:C3", "Quote!B5+'quote'!B5:C5"],
    ["T[B3]+LOG10(B3)+B3_x", "T[B3]+LOG10(B5)+B3_x"],
    ["Jan:Mar!B3+[1]Quote!B3", "Jan:Mar!B3+[1]Quote!B3"],
    ["_xldudf_BLN_BAGS_NEEDED(B4,{1,2;3,4})", "_xldudf_BLN_BAGS_NEEDED(B6,{1,2;3,4})"],
    ["B3#+_xlfn.ANCHORARRAY(D4)", "B5#+_xlfn.ANCHORARRAY(D6)"],
    ["XFE1+#REF!+B1048576", "XFE1+#REF!+#REF!"],
  ])("%s becomes %s", (before, after) => {
    expect(moveReferences(before, "Quote", "Quote", insert)).toBe(after);
  });

  it.each([
    ["B1+C1+A1", "#REF!+B1+A1"],
    ["SUM(A1:C1)", "SUM(A1:B1)"],
    ["Prices!B1", "Prices!B1"],
    ["C:C", "B:B"],
    ["B:B", "#REF!"],
  ])("%s becomes %s without column B", (before, after) => {
    expect(moveReferences(before, "Quote", "Quote", remove)).toBe(after);
  });

  it("follows from other sheets", () => {
    expect(moveReferences("Quote!B3*B3", "Prices", "Quote", insert)).toBe("Quote!B5*B3");
  });

  it("names a sheet anew, with the quotes that it needs", () => {
    expect(renameSheetIn("Quote!B3+'quote'!A1+Other!A1", "Quote", "Bob's offer")).toBe(
      "'Bob''s offer'!B3+'Bob''s offer'!A1+Other!A1",
    );
    expect(renameSheetIn("Jan:Mar!A1", "mar", "April")).toBe("Jan:April!A1");
    expect(renameSheetIn('"Quote!A1"&[1]Quote!A1', "Quote", "Offer")).toBe('"Quote!A1"&[1]Quote!A1');
  });

  it("says where a sheet is gone", () => {
    expect(dropSheetIn("SUM(Quote!B3:B9)+Other!A1", "Quote")).toBe("SUM(#REF!)+Other!A1");
  });
});
