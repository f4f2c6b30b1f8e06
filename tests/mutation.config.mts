import { defineConfig } from "vitest/config";

/** The tests of what is mutated; the others start browsers and processes. */
const ALL =
  "tests/core/**/*.test.ts,tests/functions/define.test.ts,tests/sheet/**/*.test.ts,tests/workbook/**/*.test.ts";

// MUTATION_TESTS names fewer, so that one file takes minutes.
export default defineConfig({
  test: {
    include: (process.env["MUTATION_TESTS"] ?? ALL).split(","),
    exclude: [
      "tests/sheet/conformance.test.ts",
      "tests/sheet/engine-comparison.test.ts",
      "tests/sheet/recalculate.test.ts",
      "tests/sheet/univer-corrections.test.ts",
    ],
    testTimeout: 60_000,
    env: { SHARE_OF_CASES: "0.1" },
  },
});
