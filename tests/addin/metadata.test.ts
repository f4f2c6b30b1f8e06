import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import { expect, it } from "vitest";
import { metadata } from "../../src/addin/metadata";
import { catalogue } from "../../src/functions/catalogue";
import { functionText } from "../../src/functions/metadata";
import { jsdocSource } from "./jsdoc-source";

const PAGE = "https://localhost:3000/reference.html";

it("equals what the official generator makes of the same catalogue written as JSDoc", async () => {
  const folder = mkdtempSync(join(tmpdir(), "metadata-"));
  try {
    const file = join(folder, "functions.ts");
    writeFileSync(file, jsdocSource(catalogue, functionText, PAGE));
    const generated = await generateCustomFunctionsMetadata([file], true);
    expect(generated.errors).toEqual([]);
    // The generator knows no tag for error cells as input; Microsoft's documentation of functions.json has the key.
    const { allowErrorForDataTypeAny, ...rest } = metadata;
    expect(allowErrorForDataTypeAny).toBe(true);
    // It declares a choice to be a text, where ours stay any, and keeps the quotes of a member with a space in its name.
    const theirs = JSON.parse(generated.metadataJson, (key, value: unknown) => {
      if (key === "name" && typeof value === "string") return value.replace(/^"(.*)"$/, "$1");
      const isChoice = typeof value === "object" && value !== null && "customEnumId" in value;
      return isChoice ? { ...value, type: "any" } : value;
    }) as unknown;
    expect(theirs).toEqual(JSON.parse(JSON.stringify(rest)));
  } finally {
    rmSync(folder, { recursive: true });
  }
});

it("offers every choice as a list, with the words that the function takes", () => {
  const lists = new Map(
    metadata.enums.map(({ id, values }) => [id, values.map((value) => value.stringValue)]),
  );
  expect(lists.size).toBeGreaterThan(5);
  catalogue.forEach((fn, at) => {
    fn.params.forEach((param, index) => {
      const id = metadata.functions[at]?.parameters[index]?.customEnumId;
      expect(id === undefined ? undefined : lists.get(id), `${fn.name} ${param.name}`).toEqual(
        param.kind === "choice" ? param.options : undefined,
      );
    });
  });
});

it("links every function to its own place on the page that the build ships beside it", () => {
  const page = readFileSync("dist/addin/reference.html", "utf8");
  for (const { helpUrl, name } of metadata.functions) {
    const { pathname, hash } = new URL(helpUrl);
    expect(pathname).toBe("/reference.html");
    expect(hash).toBe(`#${name}`);
    expect(page).toMatch(new RegExp(`id="?${name}"?[ >]`));
  }
});

it("is what the build ships", () => {
  const shipped = readFileSync("dist/addin/functions.json", "utf8");
  expect(JSON.parse(shipped)).toEqual(JSON.parse(JSON.stringify(metadata)));
  expect(shipped.length).toBeLessThan(1_000_000);
});
