import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import ts from "typescript";
import { expect, it } from "vitest";

// The referee is Microsoft's own declaration of Office.js, where each member names the requirement set that brought it.

const ROOM = resolve("src/taskpane");
const FILE = resolve(ROOM, "office-host.ts");
const program = ts.createProgram([FILE], {
  strict: true,
  skipLibCheck: true,
  noEmit: true,
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.ESNext,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
  types: ["office-js", "custom-functions-runtime"],
});
const checker = program.getTypeChecker();
const source = program.getSourceFile(FILE);

/** Version 1.x of ExcelApi that brought a member; 0 for what is not Excel's. */
function versionOf(symbol: ts.Symbol | undefined): number {
  const texts = (symbol?.declarations ?? []).map((declaration) => {
    const file = declaration.getSourceFile();
    return file.fileName.includes("office-js")
      ? file.text.slice(declaration.getFullStart(), declaration.getStart())
      : "";
  });
  return Math.max(0, ...texts.map((text) => Number(/Api set: ExcelApi 1\.(\d+)/.exec(text)?.[1] ?? 0)));
}

/** What a name stands for, also where it is imported. */
function meant(name: ts.Node): ts.Symbol | undefined {
  const symbol = checker.getSymbolAtLocation(name);
  return symbol && symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
}

/** The greatest version that a piece of the file needs, functions of its folder that it names included. */
function needed(node: ts.Node, seen = new Set<ts.Node>()): number {
  if (seen.has(node)) return 0;
  seen.add(node);
  let most = 0;
  const visit = (part: ts.Node): void => {
    if (ts.isPropertyAccessExpression(part))
      most = Math.max(most, versionOf(checker.getSymbolAtLocation(part.name)));
    if (ts.isIdentifier(part)) {
      const called = meant(part)?.valueDeclaration;
      if (called && ts.isFunctionDeclaration(called) && called.getSourceFile().fileName.startsWith(ROOM))
        most = Math.max(most, needed(called, seen));
    }
    ts.forEachChild(part, visit);
  };
  visit(node);
  return most;
}

/** What each method of the host needs. */
function methods(): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const visit = (node: ts.Node): void => {
    if (ts.isVariableDeclaration(node) && node.name.getText() === "officeHost" && node.initializer) {
      node.initializer.forEachChild((member) => {
        if (ts.isPropertyAssignment(member)) found.set(member.name.getText(), needed(member.initializer));
        if (ts.isShorthandPropertyAssignment(member)) {
          const value = checker.getShorthandAssignmentValueSymbol(member)?.valueDeclaration;
          found.set(member.name.getText(), value ? needed(value) : 0);
        }
      });
    }
    node.forEachChild(visit);
  };
  source?.forEachChild(visit);
  return found;
}

const needs = methods();

it("asks for what Microsoft's declarations say that each call needs", () => {
  expect(needs.get("spills")).toBe(12);
  expect(needs.get("decimalMark")).toBe(11);
  expect(needs.get("obstacles")).toBe(13);
  expect(needs.get("putPicture")).toBe(14);
});

// Calls that a view makes itself or through what it imports; those that ask Excel before they begin are left out.
const VIEWS: Readonly<Record<string, readonly string[]>> = {
  find: ["outline", "read", "selection", "surrounding", "enter", "write"],
  piece: ["outline", "read", "selection", "fillColours", "putPicture", "nameCell"],
  check: ["outline", "read", "spills", "enter", "select"],
  prices: ["outline", "read", "selection", "readPart", "writePart"],
  share: [
    "outline",
    "read",
    "spills",
    "freeze",
    "enter",
    "write",
    "writeSheet",
    "removeSheet",
    "readPart",
    "writePart",
  ],
};

it.each(Object.entries(VIEWS))("%s needs what its calls need, no less and no more", (view, calls) => {
  const declared = /needs: "1\.(\d+)"/.exec(readFileSync(`src/taskpane/${view}-view.ts`, "utf8"))?.[1];
  expect(Number(declared)).toBe(Math.max(...calls.map((call) => needs.get(call) ?? Number.NaN)));
});
