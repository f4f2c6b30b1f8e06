import { parseCell } from "../src/formula/address";
import { fileFormula } from "../src/formula/names";
import { catalogue } from "../src/functions/catalogue";
import { engineFunctions } from "../src/sheet/catalogue-functions";
import { recalculateWorkbook } from "../src/sheet/recalculate";
import { createWorkbook, type WorkbookDescription } from "../src/workbook/create";
import type { NewCell } from "../src/workbook/create-sheet";
import type { CellFormula } from "../src/workbook/model";

// Twelve small workbooks, each with something that another office program could lose: what our formulas give, where they
// stand, and what they are written with.

type Content = string | number | boolean;
type Cells = Readonly<Record<string, Content>>;

/** `{=...}` was entered with Ctrl+Shift+Enter, `#=...` spills. */
function cellOf(address: string, content: Content): NewCell {
  if (typeof content !== "string") return { value: content };
  const [, kind, formula] = /^([{#]?)=(.*?)\}?$/s.exec(content) ?? [];
  if (formula === undefined) return { value: content };
  const place = parseCell(address);
  if (place === undefined) throw new Error(address);
  const text = fileFormula(formula);
  if (kind === "") return { value: null, formula: text };
  const range = {
    firstRow: place.row,
    firstColumn: place.column,
    lastRow: place.row,
    lastColumn: place.column,
  };
  const written: CellFormula = { text, kind: kind === "{" ? "array" : "dynamic", range };
  return { value: null, formula: written };
}

function sheet(name: string, cells: Cells, more: object = {}): WorkbookDescription["sheets"][number] {
  const written = Object.entries(cells).map(
    ([address, content]) => [address, cellOf(address, content)] as const,
  );
  return { name, cells: Object.fromEntries(written), ...more };
}

const column = (first: number, last: number, make: (row: number) => Content): Cells =>
  Object.fromEntries(Array.from({ length: last - first + 1 }, (_, i) => [`A${first + i}`, make(first + i)]));

const PRICES = { A1: "Item", B1: "Count", A2: "red", B2: 240, A3: "blue", B3: 120, A4: "white", B4: 60 };

const SHEETS: Readonly<Record<string, Partial<WorkbookDescription> & Pick<WorkbookDescription, "sheets">>> = {
  // Numbers of 16 and 17 digits, which most programs cut to 15.
  digits: {
    sheets: [
      sheet("Plan", {
        A1: "=BLN.METRES(1.8666666666666667)",
        A2: '=BLN.METRES("7 in")/3',
        A3: "=BLN.METRES(1)*1E+300/7",
        A4: "=BLN.METRES(1)/7E+200",
        A5: "=-BLN.METRES(1)/3",
        A6: "=BLN.METRES(1)*0",
        A7: "=SUM(A1:A6)",
      }),
    ],
  },
  truth: { sheets: [sheet("Plan", { A1: "=BLN.METRES(2)>1", A2: "=BLN.METRES(2)<1", A3: "=NOT(A1)" })] },
  errors: {
    sheets: [
      sheet("Plan", {
        A1: '=BLN.METRES("x")',
        A2: "=BLN.METRES(1)/0",
        A3: "=IF(BLN.METRES(1)>0,NA(),1)",
        A4: "=IFERROR(A1,2)",
      }),
    ],
  },
  texts: {
    sheets: [
      sheet("Plan", {
        A1: '="  "&BLN.METRES(1)&"  "',
        A2: '="="&BLN.METRES(1)',
        A3: '="a"&CHAR(10)&"b <&> ""c"" é 風 🎈 "&BLN.METRES(1)',
        A4: '=IF(BLN.METRES(1)>0,"","x")',
        A5: '="_x000D_"&BLN.METRES(1)',
        A6: '="00"&BLN.METRES(7)',
        A7: "'=BLN.METRES(1)",
      }),
    ],
  },
  spills: {
    sheets: [
      sheet("Plan", {
        A1: "#=BLN.BAG_PLAN(200,{50,100},{8,14})",
        A20: "#=BLN.COLUMN_PLAN(1,10)",
        J1: "#=SORT(A1#)",
        R1: "=ROWS(A1#)",
        R2: "#=SEQUENCE(3)",
      }),
    ],
  },
  arrays: {
    sheets: [
      sheet("Plan", { A1: 1, A2: 2, A3: 3, C1: "{=SUM(BLN.METRES(2)*A1:A3)}", C2: "{=SUM(A1:A3*2)}" }),
    ],
  },
  sheets: {
    sheets: [
      sheet("It's a plan", { A1: "=BLN.METRES('2027'!A1)" }),
      sheet("2027", { A1: 3, B1: "=BLN.METRES('It''s a plan'!A1)+'Größe 風'!A1" }),
      sheet("Größe 風", { A1: "=BLN.METRES(2)" }, { state: "hidden" }),
      sheet("Deep", { B2: "=BLN.METRES(2)*2" }, { state: "veryHidden" }),
    ],
  },
  names: {
    sheets: [
      sheet("Plan", { A1: "=rope", A2: "=twice+1", A3: "=Rate*2", B1: 4 }),
      sheet("Back", { A1: "=Rate" }),
    ],
    names: [
      { name: "rope", text: '_xldudf_BLN_METRES("2 ft")' },
      { name: "twice", text: "rope*2" },
      { name: "Rate", text: "Plan!$B$1" },
    ],
  },
  tables: {
    sheets: [
      sheet(
        "Prices",
        {
          ...PRICES,
          C1: "Spares",
          ...Object.fromEntries(
            [2, 3, 4].map((row) => [`C${row}`, "=BLN.COUNT_WITH_SPARES(Prices[[#This Row],[Count]])"]),
          ),
          E1: "=SUM(Prices[Spares])",
          E2: "=BLN.COUNT_WITH_SPARES(SUM(Prices[Count]))",
        },
        { tables: [{ name: "Prices", range: "A1:C4" }] },
      ),
    ],
  },
  later: {
    sheets: [
      sheet("Plan", {
        A1: "=LET(height,BLN.METRES(2),height*2)",
        A2: "=IFS(BLN.METRES(1)>2,1,TRUE,XLOOKUP(2,{1,2},{3,4}))",
        A3: "=BLN.METRES(1)+STDEV.S(1,2,3)",
        A4: '=TEXTJOIN(", ",TRUE,BLN.METRES(1),"m")',
      }),
    ],
  },
  filled: {
    sheets: [
      sheet("Plan", {
        ...column(1, 120, (row) => `=BLN.COUNT_COLUMN(${row / 10 + 1},11)`),
        B1: "=SUM(A1:A120)",
      }),
    ],
  },
  long: {
    sheets: [
      sheet("Plan", {
        A1: `=${Array.from({ length: 60 }, (_, i) => `BLN.METRES("${i + 1} ft")`).join("+")}`,
        A2: `=IF(BLN.METRES(1)>0,"${"long text, ".repeat(20)}","")`,
      }),
    ],
  },
};

/** The workbooks by name, computed. */
export async function roundTripWorkbooks(): Promise<ReadonlyMap<string, Uint8Array>> {
  const made = new Map<string, Uint8Array>();
  for (const [name, description] of Object.entries(SHEETS)) {
    const bytes = createWorkbook({
      author: "test",
      generator: "test",
      date: "2026-01-01T00:00:00Z",
      ...description,
    });
    const result = await recalculateWorkbook(bytes, engineFunctions(catalogue));
    if (result.uncomputed.length > 0) throw new Error(`${name}: ${result.uncomputed[0]?.why}`);
    made.set(name, result.bytes);
  }
  return made;
}
