import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync } from "node:fs";
import { basename, join } from "node:path";

/** Programs that save a workbook: LibreOffice as .xlsx, and by way of .ods, and openpyxl. */
export const PROGRAMS = ["libreoffice", "libreoffice-ods", "openpyxl"] as const;
export type Program = (typeof PROGRAMS)[number];

/** Whether LibreOffice is on this machine; tests never install it. */
export const hasOffice = spawnSync("soffice", ["--version"]).status === 0;

const python = ["python3", "/usr/bin/python3"].find(
  (command) => spawnSync(command, ["-c", "import openpyxl"]).status === 0,
);

const OPENPYXL = `import sys, openpyxl
for source, target in zip(sys.argv[1::2], sys.argv[2::2]): openpyxl.load_workbook(source).save(target)`;
const XLSX = "xlsx:Calc MS Excel 2007 XML";

function pathsIn(folder: string): readonly string[] {
  return readdirSync(folder).map((file) => join(folder, file));
}

/** The files as each program at hand saves them, under the same names; `folder` is for their use alone. */
export function savedByPrograms(
  files: readonly string[],
  folder: string,
): ReadonlyMap<Program, readonly string[]> {
  const convert = (to: string, name: string, sources: readonly string[]): readonly string[] => {
    // A profile of its own, so that one in use does not matter.
    const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
    const into = join(folder, name);
    const { status, stderr } = spawnSync(
      "soffice",
      [profile, "--headless", "--convert-to", to, "--outdir", into, ...sources],
      { encoding: "utf8" },
    );
    if (status !== 0) throw new Error(stderr);
    return pathsIn(into);
  };
  const saved = new Map<Program, readonly string[]>();
  saved.set("libreoffice", convert(XLSX, "libreoffice", files));
  saved.set("libreoffice-ods", convert(XLSX, "libreoffice-ods", convert("ods", "ods", files)));
  if (python === undefined) return saved;
  const into = join(folder, "openpyxl");
  mkdirSync(into);
  spawnSync(python, ["-c", OPENPYXL, ...files.flatMap((file) => [file, join(into, basename(file))])]);
  saved.set("openpyxl", pathsIn(into));
  return saved;
}
