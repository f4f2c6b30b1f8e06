import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    coverage: { include: ["src/**/*.ts"], reporter: ["text", "html"], reportsDirectory: "dist/coverage" },
  },
});
