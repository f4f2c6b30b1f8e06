import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

interface TestNeedsModule {
  readonly partsNeeded: (root: string, args: readonly string[], all: readonly string[]) => readonly string[];
}
const { partsNeeded } = (await import(resolve("src/build/test-needs.mjs"))) as TestNeedsModule;

const PARTS = ["node", "addin", "desk"];
const built = (part: string): string => ["dist", part].join("/");

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), "test-needs-"));
  const files = {
    "tests/core/one.test.ts": 'import { a } from "../../src/core/one";',
    "tests/recalc/two.test.ts": 'import { b } from "./process";\nimport { two } from "../../src/recalc/two";',
    "tests/recalc/process.ts": `import { c } from "../deep";\nexport const path = "${built("node")}/recalc.cjs";`,
    "tests/deep.ts": `import "./recalc/process";\nexport const c = "${built("desk")}";`,
    "tests/any.test.ts": `it.each(PARTS)("${built("%s")}", () => {});`,
  };
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
});
afterAll(() => {
  rmSync(root, { recursive: true });
});

describe("the parts that chosen tests need", () => {
  it.each([
    [["tests/core"], []],
    [["tests/recalc"], ["node", "desk"]],
    [
      ["./tests/recalc/two.test.ts", "--coverage"],
      ["node", "desk"],
    ],
    [["two"], ["node", "desk"]],
    [["tests/any.test.ts"], PARTS],
    [["--coverage"], PARTS],
    [["nothing"], []],
  ])("%j", (args, parts) => {
    expect(partsNeeded(root, args, PARTS)).toEqual(parts);
  });

  it("are found in the project's own tests", () => {
    const own = (path: string): readonly string[] => partsNeeded(resolve("."), [path], PARTS);
    expect(own("tests/recalc/command.test.ts")).toEqual(["node"]);
    expect(own("tests/desk/desk.test.ts")).toEqual(["desk"]);
    expect(own("tests/taskpane/pane.test.ts")).toEqual(["addin"]);
    expect(own("tests/formula")).toEqual([]);
  });
});
