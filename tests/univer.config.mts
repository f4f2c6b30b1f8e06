import { join } from "node:path";
import { defineConfig } from "vitest/config";

/** A folder with packages of another version of Univer. */
const folder = process.env["UNIVER_FOLDER"] ?? "";

export default defineConfig({
  resolve: {
    alias: [
      {
        find: /^@univerjs\/([\w-]+)$/,
        replacement: join(folder, "node_modules/@univerjs/$1/lib/es/index.js"),
      },
    ],
  },
  test: { include: ["tests/sheet/*.test.ts"], testTimeout: 60_000 },
});
