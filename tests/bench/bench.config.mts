import { defineConfig } from "vitest/config";

export default defineConfig({
  test: { include: ["tests/bench/*.run.ts"], testTimeout: 1_800_000, hookTimeout: 120_000 },
});
