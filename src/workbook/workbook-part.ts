import { WorkbookError } from "./model";
import type { WorkbookPackage } from "./package";
import { PACKAGE_ROOT } from "./part-names";

export const WORKSHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

/** An .xlsx workbook. */
export const WORKBOOK_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml";

/** Workbooks and templates, with and without macros. */
const WORKBOOK_TYPES = [
  WORKBOOK_TYPE,
  "application/vnd.openxmlformats-officedocument.spreadsheetml.template.main+xml",
  "application/vnd.ms-excel.sheet.macroEnabled.main+xml",
  "application/vnd.ms-excel.template.macroEnabled.main+xml",
  "application/vnd.ms-excel.addin.macroEnabled.main+xml",
];

/** The workbook's own part. Throws WorkbookError where the package has none. */
export function findWorkbookPart(parts: WorkbookPackage): string {
  const part = parts.linked(PACKAGE_ROOT, "officeDocument").find((name) => parts.has(name));
  if (part === undefined)
    throw new WorkbookError("the file is not an .xlsx workbook: it has no workbook part");
  const type = parts.contentType(part);
  if (!WORKBOOK_TYPES.includes(type ?? "")) {
    throw new WorkbookError(
      `the file is not an .xlsx workbook: its main part is ${type ?? "of no known type"}`,
    );
  }
  return part;
}
