import { readdirSync, readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";

interface SetupModule {
  readonly isInstalled: (stamp: string, lock: string, needed: string) => boolean;
  readonly installation: (needed: string, hasTestTools: boolean) => string;
}
const { isInstalled, installation } = (await import(resolve("src/build/setup.mjs"))) as SetupModule;

describe("what is installed", () => {
  it("serves a command that needs no more of the same lock file", () => {
    expect(isInstalled("abc all", "abc", "all")).toBe(true);
    expect(isInstalled("abc all", "abc", "running")).toBe(true);
    expect(isInstalled("abc running", "abc", "running")).toBe(true);
    expect(isInstalled("abc running", "abc", "all")).toBe(false);
    expect(isInstalled("abc all", "def", "running")).toBe(false);
    expect(isInstalled("", "abc", "running")).toBe(false);
  });

  it("never takes away what tests need", () => {
    expect(installation("running", false)).toBe("running");
    expect(installation("running", true)).toBe("all");
    expect(installation("all", false)).toBe("all");
  });

  it("holds every package that building imports", () => {
    const { dependencies } = JSON.parse(readFileSync("package.json", "utf8")) as {
      readonly dependencies: Readonly<Record<string, string>>;
    };
    // excel.mjs is loaded by `npm run excel` only, which installs everything.
    const files = [
      "webpack.config.mjs",
      ...readdirSync("src/build").map((name) => join("src/build", name)),
    ].filter((file) => file.endsWith(".mjs") && !file.endsWith("excel.mjs"));
    const imported = files.flatMap((file) =>
      [...readFileSync(file, "utf8").matchAll(/^import .*?from "([^."][^"]*)";$/gm)].map(
        ([, name = ""]) => name,
      ),
    );
    const packages = imported.filter((name) => !name.startsWith("node:") && !builtinModules.includes(name));
    expect(packages).toContain("webpack");
    expect(packages.filter((name) => !(name in dependencies))).toEqual([]);
  });
});
