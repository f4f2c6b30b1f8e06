import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { NAMESPACE } from "../../src/functions/formula-style";
import { manifestFaults } from "./manifest-check";

const manifest = readFileSync("manifest.xml", "utf8");

/** Width from the header of a PNG file of the built add-in. */
function pngSize(file: string): number | undefined {
  const path = `dist/addin/${file}`;
  if (file === "" || !existsSync(path)) return undefined;
  const bytes = readFileSync(path);
  return bytes.readUInt32BE(16) === bytes.readUInt32BE(20) ? bytes.readUInt32BE(16) : undefined;
}

describe("manifest.xml", () => {
  it("has no fault that the schema would miss", () => {
    expect(manifestFaults(manifest, pngSize)).toEqual([]);
  });

  it.each([
    ["a resid without resource", /resid="Icon\.16"/, 'resid="Icon.17"'],
    ["plain http", "https://localhost:3000/functions.js", "http://localhost:3000/functions.js"],
    ["an icon of another size", 'size="16"', 'size="20"'],
    [
      "another page for the shared runtime",
      '<FunctionFile resid="Runtime.Url"/>',
      '<FunctionFile resid="Functions.Script.Url"/>',
    ],
    ["no namespace", '<Namespace resid="Functions.Namespace"/>', ""],
  ])("would be faulted for %s", (_, found, replacement) => {
    const broken = manifest.replace(found, replacement);
    expect(broken).not.toBe(manifest);
    expect(manifestFaults(broken, pngSize).length).toBeGreaterThan(0);
  });

  it("says the namespace that formulas use", () => {
    expect(manifest).toContain(`<bt:String id="Functions.Namespace" DefaultValue="${NAMESPACE}"/>`);
  });

  it("names only files that the build makes", () => {
    const files = [...manifest.matchAll(/https:\/\/localhost:3000\/([^"]+)"/g)].map(
      (match) => match[1] ?? "",
    );
    expect(files.length).toBeGreaterThan(5);
    expect([...new Set(files)].filter((file) => !existsSync(`dist/addin/${file}`))).toEqual([]);
  });

  const schema = resolve("../shared/reference/manifest-xsd/OfficeAppManifestV1_1.xsd");
  const canValidate = existsSync(schema) && spawnSync("xmllint", ["--version"]).status === 0;
  it.runIf(canValidate)("validates against the published schema", () => {
    const result = spawnSync("xmllint", ["--nonet", "--noout", "--schema", schema, "manifest.xml"], {
      encoding: "utf8",
    });
    expect(result.stderr).toContain("manifest.xml validates");
  });
});
