import { describe, expect, it } from "vitest";
import { parseCell } from "../../src/formula/address";
import { labelOf, type NameInfo } from "../../src/formula/scope";
import { type Cells, planCopy, whyLeft } from "../../src/partner/rule";

/** Formulas by address on sheet Plan; each shows 1 unless told. */
function cells(
  formulas: Readonly<Record<string, string>>,
  extra: {
    readonly names?: readonly NameInfo[];
    readonly shows?: string;
    readonly isProtected?: boolean;
  } = {},
): Cells {
  return {
    scope: {
      sheets: [{ name: "Plan" }, { name: "Price list" }],
      tables: [],
      names: extra.names ?? [],
    },
    formulas: Object.entries(formulas).map(([address, formula]) => {
      const place = parseCell(address);
      if (place === undefined) throw new Error(address);
      return { sheet: "Plan", ...place, formula };
    }),
    values: () => [[extra.shows ?? 1]],
    isProtected: () => extra.isProtected === true,
  };
}

const going = (...of: Parameters<typeof cells>): readonly string[] =>
  planCopy(cells(...of)).formulas.map((kept) => labelOf(kept));

describe("which formulas a partner copy turns into values", () => {
  it("those that call ours, in any spelling, and not those that only say so", () => {
    expect(
      going({
        A1: "BLN.METRES(1)",
        A2: "_xldudf_bln_metres(1)*2",
        A3: "[1]!_xldudf_BLN_METRES(1)",
        A4: 'IF(A1>0,"BLN.METRES(1)",0)',
        A5: "SUM(A1:A3)",
        A6: "OTHER.METRES(1)",
      }),
    ).toEqual(["Plan!A1", "Plan!A2", "Plan!A3"]);
  });

  it("those that use ours through names, by value, by call and over other names, seen from their sheet", () => {
    const names = [
      { name: "twice", reference: "rope*2" },
      { name: "rope", reference: '_xldudf_BLN_METRES("2 ft")' },
      { name: "half", reference: "_xlfn.LAMBDA(_xlpm.x,_xldudf_BLN_METRES(_xlpm.x)/2)" },
      { name: "local", sheet: "Price list", reference: "BLN.METRES(1)" },
      { name: "round", reference: "around" },
      { name: "around", reference: "round" },
    ];
    const formulas = {
      A1: "twice",
      A2: "half(3)",
      A3: "local",
      A4: "'Price list'!local",
      A5: "round",
      A6: '"twice"',
      A7: "TWICE+1",
    };
    expect(going(formulas, { names })).toEqual(["Plan!A1", "Plan!A2", "Plan!A4", "Plan!A7"]);
  });

  it("those that take the spill of one that goes, however far", () => {
    expect(
      going({
        A1: "BLN.BAG_PLAN(200,{50,100},{8,14})",
        C1: "SORT(A1#)",
        E1: "ROWS(_xlfn.ANCHORARRAY(Plan!$C$1))",
        F1: "ROWS(G1#)",
        G1: "SEQUENCE(3)",
      }),
    ).toEqual(["Plan!A1", "Plan!C1", "Plan!E1"]);
  });

  it("and keeps them as a person types them", () => {
    expect(planCopy(cells({ A1: "[1]!_xldudf_bln_metres(1)+_xlfn.STDEV.S(B1:B2)" })).formulas).toMatchObject([
      { formula: "=BLN.METRES(1)+STDEV.S(B1:B2)" },
    ]);
  });

  it("but none that show no result or stand on a protected sheet", () => {
    expect(planCopy(cells({ A1: "BLN.METRES(1)" }, { shows: "#NAME?" })).left).toEqual([
      { sheet: "Plan", row: 0, column: 0, why: "it shows #NAME?: repair or recalculate it first" },
    ]);
    expect(planCopy(cells({ A1: "BLN.METRES(1)" }, { isProtected: true })).left).toEqual([
      { sheet: "Plan", row: 0, column: 0, why: "its sheet is protected" },
    ]);
  });
});

describe("which kept formulas are put back", () => {
  const why = (before: string | number | boolean, now: string | number | boolean, formulas: string[] = []) =>
    whyLeft(
      { sheet: "Plan", row: 0, column: 0, formula: "=BLN.X()", values: [[before]] },
      { values: [[now]], formulas },
    );

  it("those whose cells hold the same, as far as another program can write it", () => {
    // 28/15 as LibreOffice 7.4 writes it.
    expect(why(1.8666666666666667, 1.86666666666667)).toBeUndefined();
    expect(why(0.1, 0.1000000000000001)).toBeUndefined();
    // 18 June 2027, 16:22:09 and a fraction, as an .ods file keeps it.
    expect(why(46556.68204861112, 46556.6820486)).toBeUndefined();
    expect(why(46556.682049, 46556.682045)).toBeUndefined();
    expect(why(true, true, ["TRUE()"])).toBeUndefined();
    expect(why("#N/A", "#N/A", ["#N/A"])).toBeUndefined();
    // Files keep newer errors as #VALUE!.
    expect(why("#SPILL!", "#VALUE!")).toBeUndefined();
  });

  it("no others", () => {
    const changed = "it holds another value now, or rows have moved";
    expect(why(1.8666666666666667, 1.8667)).toBe(changed);
    expect(why(1, "1")).toBe(changed);
    expect(why(46556.68206, 46556.68204)).toBe(changed);
    expect(why(12.000001, 12.000002)).toBe(changed);
    expect(why("a", "A")).toBe(changed);
    expect(why("#N/A", "#VALUE!")).toBe(changed);
    expect(why(1, 1, ["1+0"])).toBe("another formula stands there now");
  });
});
