import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // The engine is loaded within the first test that needs it, which takes seconds on a busy machine.
    testTimeout: 20_000,
    coverage: { include: ["src/**/*.ts"], reporter: ["text", "html"], reportsDirectory: "dist/coverage" },
  },
});
