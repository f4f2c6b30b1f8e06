import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // Speed is measured by the bench; no test fails because a machine is busy.
    testTimeout: 60_000,
    hookTimeout: 120_000,
    coverage: { include: ["src/**/*.ts"], reporter: ["text", "html"], reportsDirectory: "dist/coverage" },
  },
});
