import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { expect, it } from "vitest";

/** What each folder of src may import: folders of src, packages, or `node:` modules. Nothing else. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  core: [],
  functions: ["core"],
  addin: ["functions"],
  formula: ["functions"],
  workbook: ["formula", "fflate", "saxes"],
  sheet: ["formula", "functions", "workbook", "@univerjs", "decimal.js"],
  partner: ["formula", "workbook"],
  paper: ["formula", "workbook", "numfmt"],
  ui: ["functions"],
  sheets: ["functions", "formula", "partner", "ui"],
  samples: ["formula", "functions", "workbook"],
  recalc: ["formula", "functions", "partner", "samples", "paper", "sheet", "workbook", "node:"],
  desk: ["formula", "functions", "paper", "partner", "sheet", "workbook", "ui", "@univerjs"],
  taskpane: ["formula", "functions", "partner", "workbook", "ui"],
};

/** Words that only the named folders may use. */
const ONLY_IN: readonly (readonly [RegExp, readonly string[]])[] = [
  [/\bCustomFunctions\./, ["addin"]],
  [/\b(?:Excel|Office)\.(?!com)[a-zA-Z]+\b(?=\(|\.|;)/, ["taskpane"]],
];

/** Names that two files export although they mean two things, with the reason. */
const TWO_MEANINGS: Readonly<Record<string, string>> = {
  CellContent:
    "what the engine reads of a cell, and what is written into the file's: neither room knows the other",
  SheetSurroundings:
    "what a new sheet is written with, and what an old one is patched around: never in one file",
  positionOf: "of a value in a list for MATCH, and of a reference in a formula for ROW: never in one file",
};

const FORBIDDEN_NAMES = /(?:^|\/)(?:utils?|helpers?|common|misc)(?:\/|\.ts$)|(?:^|\/)index\.ts$/;

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return filesBelow(path);
    return path.endsWith(".ts") ? [path] : [];
  });
}

const files = filesBelow("src").map((path) => ({
  path,
  folder: path.split("/")[1] ?? "",
  text: readFileSync(path, "utf8"),
}));

function importsOf(text: string): readonly string[] {
  return [
    ...text.matchAll(/^(?:(?:import|export)\b[^;"]*?from |import )"([^"]+)";|\bimport\("([^"]+)"\)/gm),
  ].map((match) => match[1] ?? match[2] ?? "");
}

function targetOf(path: string, specifier: string): string {
  return specifier.startsWith(".") ? relative("src", join(dirname(path), specifier)) : specifier;
}

/** Code without its comments and texts. */
function withoutTexts(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$|"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`/gm, "");
}

function isAllowed(target: string, allowed: string): boolean {
  const isPart = allowed.includes("/") || allowed.endsWith(":") || allowed.startsWith("@");
  return target === allowed || target.startsWith(isPart ? allowed : `${allowed}/`);
}

it("imports only what its folder may", () => {
  const faults = files.flatMap(({ path, folder, text }) =>
    importsOf(text)
      .map((specifier) => targetOf(path, specifier))
      .filter((target) => !isAllowed(target, folder))
      .filter((target) => !(MAY_IMPORT[folder] ?? []).some((allowed) => isAllowed(target, allowed)))
      .map((target) => `${path} imports ${target}`),
  );
  expect(faults).toEqual([]);
});

it("names Excel's and the add-in's own objects only where they belong", () => {
  const faults = files.flatMap(({ path, folder, text }) =>
    ONLY_IN.filter(([word, folders]) => !folders.includes(folder) && word.test(withoutTexts(text))).map(
      ([word]) => `${path} uses ${word}`,
    ),
  );
  expect(faults).toEqual([]);
});

it("has no file or folder whose name says nothing", () => {
  expect(files.map(({ path }) => path).filter((path) => FORBIDDEN_NAMES.test(path))).toEqual([]);
});

it("opens every room with what may live there", () => {
  const rooms = ["src", "src/core"].flatMap((folder) =>
    readdirSync(folder)
      .map((name) => join(folder, name))
      .filter((path) => statSync(path).isDirectory()),
  );
  const silent = rooms.filter((room) => {
    const path = join(room, "README.md");
    return (
      !statSync(path, { throwIfNoEntry: false }) || !readFileSync(path, "utf8").startsWith(`# ${room}\n`)
    );
  });
  expect(silent).toEqual([]);
});

it("documents every export of core", () => {
  const faults = files
    .filter(({ folder }) => folder === "core")
    .flatMap(({ path, text }) => {
      const lines = text.split("\n");
      return lines.flatMap((line, index) => {
        const isExport = /^export (?:const|function|class|interface|type) /.test(line);
        return isExport && !/\*\/$/.test(lines[index - 1] ?? "") ? [`${path}:${index + 1} ${line}`] : [];
      });
    });
  expect(faults).toEqual([]);
});

it("has a test for every file of core that computes", () => {
  const untested = files
    .filter(({ folder, text }) => folder === "core" && /^export (?:function|class) /m.test(text))
    .map(({ path }) => path.replace(/^src/, "tests").replace(/\.ts$/, ".test.ts"))
    .filter((path) => !statSync(path, { throwIfNoEntry: false }));
  expect(untested).toEqual([]);
});

it("counts a missing entry as nothing only where the name says so", () => {
  const faults = files
    .filter(({ path, folder }) => folder === "core" && path !== "src/core/numeric/tally.ts")
    .flatMap(({ path, text }) =>
      text
        .split("\n")
        .flatMap((line, index) => (/\?\? 0\b/.test(line) ? [`${path}:${index + 1} ${line}`] : [])),
    );
  expect(faults).toEqual([]);
});

function exportedNames(text: string): readonly string[] {
  const declarations =
    /^export (?:declare |abstract |async )*(?:const|let|function\*?|class|interface|type|enum) ([\w$]+)/gm;
  return [...new Set([...withoutTexts(text).matchAll(declarations)].flatMap(([, name]) => name ?? []))];
}

it("never exports one name for two things", () => {
  const places = new Map<string, string[]>();
  for (const { path, text } of files)
    for (const name of exportedNames(text)) places.set(name, [...(places.get(name) ?? []), path]);
  const twice = [...places].filter(([, paths]) => new Set(paths).size > 1);
  const unexpected = twice.filter(([name]) => !(name in TWO_MEANINGS));
  expect(unexpected.map(([name, paths]) => `${name}: ${paths.join(", ")}`)).toEqual([]);
  expect(Object.keys(TWO_MEANINGS).filter((name) => !twice.some(([found]) => found === name))).toEqual([]);
});
