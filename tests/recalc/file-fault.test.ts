import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { constants, tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { CommandError, fileFault } from "../../src/recalc/file-fault";
import { tinyWorkbook } from "../workbook/tiny-package";

// Names of errors as Node's own table of this system's errors has them.
it.each([
  "ENOSPC",
  "EROFS",
  "EISDIR",
  "EACCES",
  "EPERM",
  "EBUSY",
  "ENAMETOOLONG",
  "EDQUOT",
  "EFBIG",
  "EIO",
  "ELOOP",
])("has a sentence for %s that names the file", (code) => {
  expect(Object.keys(constants.errno)).toContain(code);
  const fault = fileFault(Object.assign(new Error(code), { code }), "my list.xlsx", "written");
  expect(fault).toBeInstanceOf(CommandError);
  expect((fault as Error).message).toMatch(/^my list\.xlsx cannot be written: [a-z][^.]*[a-z]$/);
  expect((fault as Error).message).not.toContain(code);
});

it("leaves an error of another kind as it is", () => {
  const error = new TypeError("x is not a function");
  expect(fileFault(error, "my list.xlsx", "read")).toBe(error);
});

// The system itself refuses the write half way: no file may grow beyond one block.
it.runIf(existsSync("/bin/sh") && process.platform !== "win32")(
  "says it where the disk takes no more",
  () => {
    const folder = mkdtempSync(join(tmpdir(), "fault-"));
    const input = join(folder, "in.xlsx");
    const bytes = tinyWorkbook({ rows: '<row r="1"><c r="A1"><f>1+1</f><v>0</v></c></row>' });
    writeFileSync(input, bytes);
    const { status, stderr } = spawnSync(
      "/bin/sh",
      ["-c", 'ulimit -f 1; exec "$@"', "sh", process.execPath, "dist/node/recalc.cjs", input],
      { encoding: "utf8" },
    );
    expect(status).toBe(2);
    expect(stderr).toMatch(
      /in \(recalculated\)\.xlsx cannot be written: files there cannot be that large\n$/,
    );
    expect(readdirSync(folder)).toEqual(["in.xlsx"]);
    expect(Buffer.compare(readFileSync(input), bytes)).toBe(0);
    rmSync(folder, { recursive: true });
  },
);
