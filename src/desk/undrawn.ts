import type { WorkbookModel } from "../workbook/model";

/** What a workbook holds and the page does not draw, in a sentence; undefined where there is nothing of it. */
export function undrawnFeatures(model: WorkbookModel): string | undefined {
  const found = model.undrawn ?? [];
  if (found.length === 0) return undefined;
  const list = found.length === 1 ? found[0] : `${found.slice(0, -1).join(", ")} and ${found.at(-1) ?? ""}`;
  return `this file also has ${list ?? ""}: they are kept in the file and not drawn here`;
}
