import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  linkSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { cellAddress } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import type { CellValue } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "../workbook/tiny-package";
import { recalc } from "./recalc-process";

const SAMPLE = join(import.meta.dirname, "../../sample-workbooks/price-list.xlsx");
// Real workbooks from public repositories are kept beside this repository, not in it.
const REAL = join(import.meta.dirname, "../../../shared/reference/xlsx");
const TIMEOUT = { timeout: 120_000 };

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "recalc-"));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

let cases = 0;
/** A path in a folder of its own. */
function place(name = "in.xlsx"): string {
  cases += 1;
  return join(mkdtempSync(join(folder, `${cases}-`)), name);
}

const read = (file: string): Uint8Array => new Uint8Array(readFileSync(file));
const isSame = (one: Uint8Array | undefined, other: Uint8Array | undefined): boolean =>
  one !== undefined && other !== undefined && Buffer.compare(one, other) === 0;

/** All cells of a workbook's sheets by sheet and address. */
function cellsOf(bytes: Uint8Array): ReadonlyMap<string, { value: CellValue; formula: string | undefined }> {
  const { model } = openWorkbook(bytes);
  return new Map(
    model.sheets.flatMap(({ name, cells }) =>
      cells.map(
        (cell) =>
          [
            `${name}!${cellAddress(cell.row, cell.column)}`,
            { value: cell.value, formula: cell.formula?.text },
          ] as const,
      ),
    ),
  );
}

/** Addresses of cells that differ, with what they were and are. */
function differences(before: Uint8Array, after: Uint8Array): Readonly<Record<string, readonly CellValue[]>> {
  const old = cellsOf(before);
  const fresh = cellsOf(after);
  expect([...fresh.keys()]).toEqual([...old.keys()]);
  return Object.fromEntries(
    [...fresh].flatMap(([address, cell]) => {
      const was = old.get(address);
      expect(cell.formula).toBe(was?.formula);
      return JSON.stringify(was?.value) === JSON.stringify(cell.value)
        ? []
        : [[address, [was?.value ?? null, cell.value]]];
    }),
  );
}

/** Names of the parts of two packages that are not byte for byte the same. */
function changedParts(before: Uint8Array, after: Uint8Array): readonly string[] {
  const old = unzipSync(before);
  const fresh = unzipSync(after);
  expect(Object.keys(fresh)).toEqual(Object.keys(old));
  return Object.keys(old).filter((name) => !isSame(old[name], fresh[name]));
}

describe("one changed price", TIMEOUT, () => {
  it("changes the cells that follow from it by what a person works out, and nothing else", async () => {
    const original = read(SAMPLE);
    // Row 10: 96 balloons and their spares, more than 100 and at most 200, are two bags of 100. A bag goes from 17.20 to
    // 18.20, so the line goes up by 2 x 1.00, and so does the total.
    const change = { sheet: 0, row: 9, column: 4, value: 18.2 };
    const before = cellsOf(original);
    expect(before.get("Price list!E10")?.value).toBe(17.2);
    expect(before.get("Price list!D10")?.value).toBe(100);
    expect(before.get("Price list!H10")?.value).toBe(2);
    const total = Number(before.get("Price list!I16")?.value);
    const input = place();
    writeFileSync(input, openWorkbook(original).patched([change]));
    const output = join(input, "..", "out.xlsx");
    const run = await recalc([input, output]);
    expect(run.code).toBe(0);
    const result = read(output);
    expect(differences(original, result)).toEqual({
      "Price list!E10": [17.2, 18.2],
      "Price list!I10": [34.4, 36.4],
      "Price list!I16": [total, Number((total + 2).toFixed(2))],
    });
    expect(changedParts(original, result)).toEqual(["xl/worksheets/sheet1.xml"]);
    // In the sheet's own part three values differ and no other character.
    const sheet = (bytes: Uint8Array): string =>
      new TextDecoder().decode(unzipSync(bytes)["xl/worksheets/sheet1.xml"]);
    const replaced = sheet(original)
      .replace('<c r="E10" s="6"><v>17.2</v>', '<c r="E10" s="6"><v>18.2</v>')
      .replace("<v>34.4</v>", "<v>36.4</v>")
      .replace(`<v>${total}</v>`, `<v>${Number((total + 2).toFixed(2))}</v>`);
    expect(sheet(result)).toBe(replaced);
  });

  it("leaves a workbook alone whose values are up to date", async () => {
    const output = place("out.xlsx");
    const run = await recalc([SAMPLE, output]);
    expect([run.code, run.stdout]).toEqual([0, `0 cells changed, written to ${output}\n`]);
    expect(isSame(read(SAMPLE), read(output))).toBe(true);
  });
});

describe("what the command says", TIMEOUT, () => {
  const rows = (cells: readonly (readonly [string, string])[]): string =>
    cells
      .map(([text, stored], index) => {
        const row = index + 1;
        return `<row r="${row}"><c r="A${row}"><f>${text}</f><v>${stored}</v></c></row>`;
      })
      .join("");

  it("is 0, a list of changes and the place of the file where all is computed", async () => {
    const input = place();
    writeFileSync(input, tinyWorkbook({ rows: rows([["1+1", "0"]]) }));
    const run = await recalc([input]);
    const output = join(input, "..", "in (recalculated).xlsx");
    expect(run).toMatchObject({ code: 0, stderr: "" });
    expect(run.stdout).toMatch(/^1 cells? changed, written to /);
    expect(run.stdout).toContain(`${output}\n  Sheet one!A1: 0 -> 2\n`);
    expect(cellsOf(read(output)).get("Sheet one!A1")?.value).toBe(2);
  });

  it("is 1 where a cell keeps its stored value, which stays in the file", async () => {
    const input = place();
    writeFileSync(input, tinyWorkbook({ rows: rows([["NOFUNCTION(1)", "7"]]) }));
    const run = await recalc([input, "--json"]);
    expect(run.code).toBe(1);
    const output = join(input, "..", "in (recalculated).xlsx");
    expect(JSON.parse(run.stdout)).toEqual({
      output,
      previous: null,
      healed: 0,
      changed: [],
      failing: [],
      differing: [],
      statuses: [],
      notReady: [],
      uncomputed: [
        { cell: "Sheet one!A1", formula: "NOFUNCTION(1)", why: "the function NOFUNCTION is not known here" },
      ],
    });
    expect(cellsOf(read(output)).get("Sheet one!A1")?.value).toBe(7);
  });

  // Handbook value: I1(1) = 0.5651591 (Abramowitz and Stegun, table 9.8). BESSELI differs elsewhere from what Excel stored.
  it.each([
    [[], 1, 99, [{ cell: "Sheet one!A1", stored: 99 }]],
    [["--accept"], 0, 0.5651591, []],
  ])("takes our values over stored ones only where asked: %j", async (options, code, value, differing) => {
    const input = place();
    writeFileSync(input, tinyWorkbook({ rows: rows([["BESSELI(1,1)", "99"]]) }));
    const run = await recalc([input, "--json", ...options]);
    expect(run.code).toBe(code);
    expect((JSON.parse(run.stdout) as { differing: unknown[] }).differing).toMatchObject(differing);
    const output = join(input, "..", "in (recalculated).xlsx");
    expect(cellsOf(read(output)).get("Sheet one!A1")?.value).toBeCloseTo(value, 7);
  });

  it("gives one formula the seconds that are asked for", async () => {
    const input = place();
    const slow = "SUM(_xlfn.MAP(_xlfn.SEQUENCE(900,900),_xlfn.LAMBDA(_xlpm.x,_xlpm.x*_xlpm.x+_xlpm.x)))";
    writeFileSync(
      input,
      tinyWorkbook({
        rows: rows([
          [slow, "7"],
          ["A1+1", "0"],
        ]),
      }),
    );
    const run = await recalc([input, "--json", "--seconds=0.05"]);
    expect(run.code).toBe(1);
    expect(JSON.parse(run.stdout)).toMatchObject({
      changed: [{ cell: "Sheet one!A2", value: 8 }],
      uncomputed: [{ cell: "Sheet one!A1", why: "it takes longer than 0.05 s" }],
    });
  });

  it.each(["--seconds=0", "--seconds=soon", "--seconds=1e9"])(
    "is 2 and a sentence for %s",
    async (option) => {
      const input = place();
      writeFileSync(input, tinyWorkbook({ rows: rows([["1+1", "0"]]) }));
      const run = await recalc([input, option]);
      expect([run.code, run.stderr]).toEqual([
        2,
        `seconds must be a number from 0.001 to 86400, found ${option}\n`,
      ]);
      expect(existsSync(join(input, "..", "in (recalculated).xlsx"))).toBe(false);
    },
  );

  it("names a cell with an error of ours and its sentence, also for programs", async () => {
    const input = place();
    writeFileSync(input, tinyWorkbook({ rows: rows([["_xldudf_BLN_COUNT_SPHERE(1,250)", "0"]]) }));
    const run = await recalc([input, "--json"]);
    // A workbook with an error of ours must not go out.
    expect(run.code).toBe(1);
    expect(JSON.parse(run.stdout)).toMatchObject({
      changed: [{ cell: "Sheet one!A1", before: 0, value: { error: "#VALUE!" } }],
      failing: [
        {
          cell: "Sheet one!A1",
          value: { error: "#VALUE!" },
          sentence: "balloon must be from 1 to 120 in, found 250 in",
        },
      ],
      uncomputed: [],
    });
  });

  it.each([
    [[], /^usage: /],
    [["--each"], /^usage: /],
    [["a.xlsx", "--fast"], /^the option --fast is not known; usage: /],
    [["a.xlsx", "-q"], /^the option -q is not known; usage: /],
    [
      ["a.xlsx", "--seconds", "10"],
      /^the option --seconds must have its value behind it, --seconds=VALUE; usage: /,
    ],
    [["a.xlsx", "--json=1"], /^the option --json=1 must have no value; usage: /],
  ])("is 2 and its usage for %j", async (args, sentence) => {
    const run = await recalc(args);
    expect(run.code).toBe(2);
    expect(run.stdout).toBe("");
    expect(run.stderr).toMatch(sentence);
  });

  it("is 2 where OUT is IN, by the same or another path", async () => {
    const input = place();
    const bytes = tinyWorkbook({ rows: rows([["1+1", "0"]]) });
    writeFileSync(input, bytes);
    for (const output of [input, join(input, "..", ".", "..", input.split("/").at(-2) ?? "", "in.xlsx")]) {
      const run = await recalc([input, output]);
      expect(run.code).toBe(2);
      expect(run.stderr).toMatch(/^OUT\.xlsx must be another file than IN\.xlsx/);
    }
    expect(isSame(read(input), bytes)).toBe(true);
    expect(readdirSync(join(input, ".."))).toEqual(["in.xlsx"]);
  });

  it("is 2 where OUT cannot be written, and leaves nothing there", async () => {
    const input = place();
    writeFileSync(input, tinyWorkbook({ rows: rows([["1+1", "0"]]) }));
    const run = await recalc([input, join(input, "..", "no such folder", "out.xlsx")]);
    expect(run.code).toBe(2);
    expect(run.stderr).toMatch(/^[^\n]+\n$/);
    expect(readdirSync(join(input, ".."))).toEqual(["in.xlsx"]);
  });

  // Excel refuses a file whose ending says another kind than its content, such as macros.
  it.each([
    ["in.xlsx", "out.xlsm", ".xlsx"],
    ["in.xlsx", "out.pdf", ".xlsx"],
    ["in.xlsx", "10", ".xlsx"],
    ["in.xlsm", "out.xlsx", ".xlsm"],
  ])("is 2 where IN is %s and OUT %s, another kind of file", async (name, out, ending) => {
    const input = place(name);
    writeFileSync(input, tinyWorkbook({ rows: rows([["1+1", "0"]]) }));
    const output = join(input, "..", out);
    const run = await recalc([input, output]);
    expect([run.code, run.stderr]).toEqual([
      2,
      `OUT.xlsx must be a name that ends in ${ending}, found ${output}\n`,
    ]);
    expect(readdirSync(join(input, ".."))).toEqual([name]);
  });

  it("names the former OUT, which is kept", async () => {
    const input = place();
    const output = join(input, "..", "out.xlsx");
    writeFileSync(input, tinyWorkbook({ rows: rows([["1+1", "0"]]) }));
    writeFileSync(output, "old");
    const run = await recalc([input, output, "--json"]);
    expect(run.code).toBe(0);
    const outcome = JSON.parse(run.stdout) as { readonly output: string; readonly previous: string };
    expect(outcome.output).toBe(output);
    expect(outcome.previous).toMatch(/out \(previous [-\d. ]+\)\.xlsx$/);
    expect(readFileSync(outcome.previous, "utf8")).toBe("old");
    expect(cellsOf(read(output)).get("Sheet one!A1")?.value).toBe(2);
  });
});

describe("the input", TIMEOUT, () => {
  const bytes = tinyWorkbook({ rows: '<row r="1"><c r="A1"><f>1+1</f><v>0</v></c></row>' });

  it("stays, whatever it is called, and so does every file that was there", async () => {
    const input = place("q (previous).xlsx");
    const at = (name: string): string => join(input, "..", name);
    writeFileSync(input, bytes);
    writeFileSync(at("q.xlsx"), "first");
    for (const turn of [1, 2]) {
      expect((await recalc([input, at("q.xlsx")])).code).toBe(0);
      expect(isSame(read(input), bytes)).toBe(true);
      expect(readdirSync(at("."))).toHaveLength(2 + turn);
    }
    const texts = readdirSync(at(".")).map((name) => readFileSync(at(name), "utf8"));
    expect(texts).toContain("first");
  });

  it.runIf(process.platform !== "win32").each([
    ["hard", linkSync, /must be another file/],
    ["symbolic", symlinkSync, /must be another file/],
  ] as const)("is not written through a %s link", async (_kind, link, sentence) => {
    const input = place();
    const output = join(input, "..", "out.xlsx");
    writeFileSync(input, bytes);
    link(input, output);
    const run = await recalc([input, output]);
    expect(run.code).toBe(2);
    expect(run.stderr).toMatch(sentence);
    expect(isSame(read(input), bytes)).toBe(true);
    expect(readdirSync(join(input, "..")).sort()).toEqual(["in.xlsx", "out.xlsx"]);
  });

  it.runIf(process.platform !== "win32")("gives its permissions to the result", async () => {
    const input = place();
    writeFileSync(input, bytes);
    chmodSync(input, 0o640);
    expect((await recalc([input])).code).toBe(0);
    expect(statSync(join(input, "..", "in (recalculated).xlsx")).mode & 0o777).toBe(0o640);
  });

  it.runIf(process.platform !== "win32")(
    "is named in a sentence whatever is wrong with its path",
    async () => {
      const input = place();
      const at = (name: string): string => join(input, "..", name);
      writeFileSync(input, bytes);
      symlinkSync("two", at("one"));
      symlinkSync("one", at("two"));
      const long = at(`${"a".repeat(300)}.xlsx`);
      const told = async (...args: readonly string[]): Promise<string> => (await recalc(args)).stderr;
      expect(await told(at("in.xlsx/x.xlsx"))).toMatch(
        /in\.xlsx\/x\.xlsx cannot be read: a part of its path is a file/,
      );
      expect(await told(input, at("in.xlsx/x.xlsx"))).toMatch(
        /cannot be written: a part of its path is a file/,
      );
      expect(await told(long)).toBe(`${long} cannot be read: its name is too long\n`);
      expect(await told(input, long)).toBe(`${long} cannot be written: its name is too long\n`);
      expect(await told(at("one"))).toBe(`${at("one")} cannot be read: its links lead in a circle\n`);
      expect(await told(input, at("one/x.xlsx"))).toBe(
        `${at("one/x.xlsx")} cannot be written: its links lead in a circle\n`,
      );
      expect(readdirSync(at(".")).sort()).toEqual(["in.xlsx", "one", "two"]);
    },
  );

  it("is refused in a sentence that names it where it is a folder without workbooks", async () => {
    const folder = join(place(), "..");
    const run = await recalc([folder]);
    expect([run.code, run.stderr]).toEqual([
      2,
      `there is no workbook to recalculate in the folder ${folder}\n`,
    ]);
  });
});

it("shrinks a spill whose cells all carry a mark, so that none is left outside", TIMEOUT, async () => {
  const input = place();
  const sheet = "xl/worksheets/sheet1.xml";
  const parts = unzipSync(
    createWorkbook({
      author: "test",
      generator: "Microsoft Excel",
      date: "2026-11-01T08:00:00Z",
      sheets: [
        {
          name: "List",
          cells: {
            A1: { formula: { text: "_xlfn._xlws.FILTER(C1:C3,C1:C3>1)", kind: "dynamic" }, value: 1 },
            A2: { value: 2 },
            A3: { value: 3 },
            C1: { value: 1 },
            C2: { value: 2 },
            C3: { value: 3 },
          },
        },
      ],
    }),
  );
  // Excel writes an array formula that is always computed with a formula without text in each of its cells.
  const marked = strFromU8(parts[sheet] ?? new Uint8Array())
    .replace(/<f t="array" ref="A1(?::A1)?">/, '<f t="array" ref="A1:A3" ca="1">')
    .replace(/(<c r="A[23]"[^>]*>)/g, '$1<f ca="1"/>');
  expect(marked.match(/ca="1"/g)).toHaveLength(3);
  writeFileSync(input, zipSync({ ...parts, [sheet]: strToU8(marked) }));
  const run = await recalc([input]);
  expect([run.code, run.stderr]).toEqual([0, ""]);
  const after = strFromU8(
    unzipSync(read(join(input, "..", "in (recalculated).xlsx")))[sheet] ?? new Uint8Array(),
  );
  expect(after).toMatch(/ref="A1:A2" ca="1"/);
  expect(after.match(/<f ca="1"\/>/g)).toHaveLength(1);
  expect(after).toMatch(/<c r="A2"[^>]*><f ca="1"\/>/);
});

describe("several files", TIMEOUT, () => {
  const workbook = (formula: string): Uint8Array =>
    tinyWorkbook({ rows: `<row r="1"><c r="A1"><f>${formula}</f><v>0</v></c></row>` });

  it("are recalculated each, and one that cannot be opened costs no other", async () => {
    const first = place("b.xlsx");
    const at = (name: string): string => join(first, "..", name);
    writeFileSync(first, workbook("1+1"));
    writeFileSync(at("c.xlsx"), workbook("2+2"));
    writeFileSync(at("a.xlsx"), "no workbook \0");
    for (const name of ["~$b.xlsx", "d (recalculated).xlsx", "list.txt"])
      writeFileSync(at(name), "left alone");
    const run = await recalc([at("."), "--json"]);
    expect(run.code).toBe(2);
    expect(run.stderr).toBe(`${at("a.xlsx")}: the file is not an .xlsx workbook\n`);
    expect(JSON.parse(run.stdout)).toMatchObject([
      { input: at("a.xlsx"), error: "the file is not an .xlsx workbook" },
      { input: at("b.xlsx"), output: at("b (recalculated).xlsx"), changed: [{ value: 2 }] },
      { input: at("c.xlsx"), output: at("c (recalculated).xlsx"), changed: [{ value: 4 }] },
    ]);
    expect(readdirSync(at(".")).filter((name) => name.startsWith("d") || name.startsWith("~"))).toHaveLength(
      2,
    );
  });

  it("never take the place of another input", async () => {
    const first = place("b.xlsx");
    const second = join(first, "..", "b (recalculated).xlsx");
    writeFileSync(first, workbook("1+1"));
    writeFileSync(second, workbook("2+2"));
    const run = await recalc(["--each", first, second]);
    expect(run.code).toBe(2);
    expect(run.stderr).toContain(`${second} is itself to be recalculated, so nothing is written there`);
    expect(isSame(read(second), workbook("2+2"))).toBe(true);
  });
});

describe("a supplier's text file", TIMEOUT, () => {
  it("becomes a workbook, and how it was read is shown", async () => {
    const input = place("prices.csv");
    // As Excel writes it in much of Europe: windows-1252, in which 0x80 is the euro sign.
    const bytes = Buffer.from("Farbe;Preis\r\nRos\xe9;9,90 \x80\r\nNavy;1.250\r\n", "latin1");
    writeFileSync(input, bytes);
    const output = join(input, "..", "prices (recalculated).xlsx");
    const run = await recalc([input]);
    expect([run.code, run.stderr]).toEqual([0, ""]);
    expect(run.stdout).toBe(
      `${input} was read as windows-1252 text, columns between semicolons, decimal comma, 3 rows, 2 columns\n` +
        `0 cells changed, written to ${output}\n`,
    );
    const cells = cellsOf(read(output));
    expect(["A2", "B2", "B3"].map((address) => cells.get(`prices!${address}`)?.value)).toEqual([
      "Rosé",
      9.9,
      1250,
    ]);
    expect(isSame(read(input), bytes)).toBe(true);
  });

  it("keeps as text what can be read in two ways, says so, and gives 1", async () => {
    const input = place("prices.csv");
    writeFileSync(input, 'item,price\nnavy,"1,234"\n');
    const output = join(input, "..", "out.xlsx");
    const run = await recalc([input, output]);
    expect(run.code).toBe(1);
    expect(run.stdout).toContain('prices!B2: "1,234", its mark may part thousands or decimals\n');
    expect(JSON.parse((await recalc([input, output, "--json"])).stdout)).toMatchObject({
      read: { separator: ",", unclear: [{ cell: "B2", text: "1,234" }] },
    });
  });

  it("is never what is written", async () => {
    const input = place("prices.csv");
    writeFileSync(input, "a;b\n1;2\n");
    const run = await recalc([input, join(input, "..", "out.csv")]);
    expect(run.code).toBe(2);
    expect(run.stderr).toMatch(/^OUT\.xlsx must be a name that ends in \.xlsx, found .*out\.csv\n$/);
  });

  it("of another office program is refused with what to do", async () => {
    const input = place("prices.ods");
    const parts = { mimetype: "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<a/>" };
    writeFileSync(
      input,
      zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)]))),
    );
    const run = await recalc([input]);
    expect(run.code).toBe(2);
    expect(run.stderr).toBe(
      "the file is an OpenDocument file (.ods): open it in its own program and save it as .xlsx\n",
    );
  });
});

it.each(["--help", "-h"])("says with %s what it does", async (option) => {
  const run = await recalc([option]);
  expect([run.code, run.stderr]).toEqual([0, ""]);
  expect(run.stdout).toMatch(/^usage: npm run recalc[^]*OUT\.xlsx[^]*--each[^]*exit code/);
});

it.each([
  ["recalc", "json"],
  ["share", "put_back"],
])("says what to type where npm took an option of %s for itself", (command, option) => {
  const { status, stderr } = spawnSync(process.execPath, ["src/build/run.mjs", command, "my list.xlsx"], {
    encoding: "utf8",
    env: { ...process.env, [`npm_config_${option}`]: "true" },
  });
  expect(status).toBe(2);
  expect(stderr).toContain(`type: npm run ${command} -- "my list.xlsx" --${option.replace("_", "-")}\n`);
});

describe("text that looks like a formula", TIMEOUT, () => {
  // What a supplier's price list may hold, by accident or not.
  const TEXTS = [
    "=1+1",
    "+1+1",
    "-1",
    "@SUM(1)",
    "=cmd|'/c calc'!A1",
    '=HYPERLINK("x")',
    "\t=1+1",
    "1/0",
    "{=1+1}",
  ];

  it("stays text wherever it is read, joined, listed or spilled", async () => {
    const last = TEXTS.length;
    const input = place();
    writeFileSync(
      input,
      createWorkbook({
        author: "test",
        generator: "Microsoft Excel",
        date: "2026-11-01T08:00:00Z",
        sheets: [
          {
            name: "List",
            cells: Object.fromEntries([
              ...TEXTS.flatMap((text, index) => {
                const row = index + 1;
                return [
                  [`A${row}`, { value: text }],
                  [`B${row}`, { formula: `A${row}`, value: 0 }],
                  [`C${row}`, { formula: `A${row}&""`, value: 0 }],
                  [`D${row}`, { formula: `VLOOKUP(A${row},A$1:A$${last},1,FALSE)`, value: 0 }],
                  [`E${row}`, { formula: `ISTEXT(A${row})`, value: false }],
                ] as const;
              }),
              ["G1", { formula: { text: `A1:A${last}`, kind: "dynamic" }, value: 0 }],
              [
                "H1",
                { formula: { text: `_xldudf_BLN_SIMILAR_PLAN(A1:A${last})`, kind: "dynamic" }, value: 0 },
              ],
            ]),
          },
        ],
      }),
    );
    const output = join(input, "..", "out.xlsx");
    const run = await recalc([input, output, "--accept"]);
    expect([run.code, run.stderr]).toEqual([0, ""]);
    const before = cellsOf(read(input));
    const after = cellsOf(read(output));
    for (const [index, text] of TEXTS.entries()) {
      const row = index + 1;
      for (const column of ["A", "B", "C", "D", "G"]) {
        expect([column, row, after.get(`List!${column}${row}`)?.value]).toEqual([column, row, text]);
      }
      expect(after.get(`List!E${row}`)?.value).toBe(true);
    }
    const formulas = (cells: typeof after): readonly string[] =>
      [...cells].flatMap(([address, cell]) =>
        cell.formula === undefined ? [] : [`${address} ${cell.formula}`],
      );
    expect(formulas(after)).toEqual(formulas(before));
  });

  it("is refused by our functions as the text it is", async () => {
    const input = place();
    const cell =
      '<c r="A1" t="str"><v>=6+5</v></c><c r="B1"><f>_xldudf_BLN_COUNT_SPHERE(1,A1)</f><v>0</v></c>';
    writeFileSync(input, tinyWorkbook({ rows: `<row r="1">${cell}</row>` }));
    const run = await recalc([input, "--json"]);
    expect(JSON.parse(run.stdout)).toMatchObject({
      failing: [{ sentence: 'balloon must be an inflated size such as 11 or "28 cm", found "=6+5"' }],
    });
  });
});

describe("killed half way", TIMEOUT, () => {
  it("leaves IN, a former OUT and whatever is there whole", async () => {
    const input = place("large.xlsx");
    const output = join(input, "..", "out.xlsx");
    const rows = Array.from({ length: 1500 }, (_, index) => {
      const row = index + 1;
      return `<row r="${row}"><c r="A${row}"><v>${row}</v></c><c r="B${row}"><f>A${row}*2</f><v>0</v></c></row>`;
    });
    const bytes = tinyWorkbook({ rows: rows.join("") });
    writeFileSync(input, bytes);
    const whole = await recalc([input, output]);
    expect(whole.code).toBe(0);
    const finished = read(output);
    const former = new TextEncoder().encode("a former file");
    const TURNS = 14;
    let killed = 0;
    let length = whole.seconds;
    // Moments spread over a run, densest at its end, where the file is written.
    for (let turn = 1; turn <= TURNS; turn += 1) {
      writeFileSync(output, former);
      const share = 1 - ((TURNS - turn) / TURNS) ** 2;
      const run = await recalc([input, output], length * 1000 * (0.1 + share));
      if (run.code === undefined) killed += 1;
      // The machine may have been slower before.
      else length = Math.min(length, run.seconds);
      expect(isSame(read(input), bytes)).toBe(true);
      const now = read(output);
      expect(isSame(now, former) || isSame(now, finished)).toBe(true);
      if (!isSame(now, finished)) continue;
      const kept = readdirSync(join(input, "..")).filter((name) => name.startsWith("out (previous"));
      expect(kept.some((name) => isSame(read(join(input, "..", name)), former))).toBe(true);
    }
    expect(killed).toBeGreaterThan(4);
    // What a kill left half written is gone after the next run.
    expect((await recalc([input, output])).code).toBe(0);
    expect(readdirSync(join(input, "..")).filter((name) => name.endsWith(".part"))).toEqual([]);
  });
});

describe.skipIf(!existsSync(REAL))("a real workbook", TIMEOUT, () => {
  const names = existsSync(REAL) ? readdirSync(REAL).filter((name) => name.endsWith(".xlsx")) : [];

  it.concurrent.each(names)("%s passes with every untouched part as it was", async (name) => {
    const output = place("out.xlsx");
    const before = read(join(REAL, name));
    const run = await recalc([join(REAL, name), output, "--json"]);
    expect(run.stderr).toBe("");
    expect([0, 1]).toContain(run.code);
    expect(isSame(read(join(REAL, name)), before)).toBe(true);
    const after = read(output);
    const outcome = JSON.parse(run.stdout) as {
      readonly changed: readonly { readonly cell: string }[];
      readonly uncomputed: readonly { readonly cell: string }[];
    };
    const { model } = openWorkbook(before);
    const sheets = new Set(outcome.changed.map(({ cell }) => cell.slice(0, cell.lastIndexOf("!"))));
    const touched = model.sheets.filter((sheet) => sheets.has(sheet.name)).map((sheet) => sheet.part);
    expect(changedParts(before, after).filter((part) => !touched.includes(part))).toEqual([]);
    // Only cells that are listed differ, and a cell that could not be computed is none of them.
    const old = cellsOf(before);
    const listed = new Set(outcome.changed.map(({ cell }) => cell));
    for (const [address, cell] of cellsOf(after)) {
      const was = old.get(address);
      expect(cell.formula).toBe(was?.formula);
      if (!listed.has(address)) expect([address, cell.value]).toEqual([address, was?.value ?? null]);
    }
    for (const { cell } of outcome.uncomputed) expect(listed.has(cell)).toBe(false);
  });
});
