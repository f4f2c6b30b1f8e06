import { defineConfig } from "vitest/config";

// The tests of what is mutated; the others start browsers and processes.
export default defineConfig({
  test: {
    include: [
      "tests/core/**/*.test.ts",
      "tests/functions/define.test.ts",
      "tests/sheet/*.test.ts",
      "tests/workbook/**/*.test.ts",
    ],
    exclude: [
      "tests/sheet/conformance.test.ts",
      "tests/sheet/recalculate.test.ts",
      "tests/sheet/univer-corrections.test.ts",
    ],
    testTimeout: 60_000,
    env: { SHARE_OF_CASES: "0.1" },
  },
});
