import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import { expect, it } from "vitest";
import { metadata } from "../../src/addin/metadata";
import { catalogue } from "../../src/functions/catalogue";
import { functionText } from "../../src/functions/metadata";
import { jsdocSource } from "../../src/functions/reference";

it("equals what the official generator makes of the same catalogue written as JSDoc", async () => {
  const folder = mkdtempSync(join(tmpdir(), "metadata-"));
  try {
    const file = join(folder, "functions.ts");
    writeFileSync(file, jsdocSource(catalogue, functionText));
    const generated = await generateCustomFunctionsMetadata([file], true);
    expect(generated.errors).toEqual([]);
    // The generator knows no tag for error cells as input; Microsoft's documentation of functions.json has the key.
    const { allowErrorForDataTypeAny, ...rest } = metadata;
    expect(allowErrorForDataTypeAny).toBe(true);
    expect(JSON.parse(generated.metadataJson)).toEqual(JSON.parse(JSON.stringify(rest)));
  } finally {
    rmSync(folder, { recursive: true });
  }
});

it("is what the build ships", () => {
  const shipped = readFileSync("dist/addin/functions.json", "utf8");
  expect(JSON.parse(shipped)).toEqual(JSON.parse(JSON.stringify(metadata)));
  expect(shipped.length).toBeLessThan(1_000_000);
});
