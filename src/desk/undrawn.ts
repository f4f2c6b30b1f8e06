import type { SheetModel, WorkbookModel } from "../workbook/model";
import type { SheetFeatures } from "../workbook/sheet-features";
import { isTooLarge } from "./conditional-looks";
import { hasIcons } from "./icon-sets";
import { conditionExtent } from "./shading";

/** The words of what is drawn here as far as it can be, and those for the rest of it. */
const DRAWN: Readonly<Record<string, (model: WorkbookModel) => string | undefined>> = {
  "drop-down lists and checks": (model) =>
    everySheet(model, () => true) ? undefined : "drop-down lists and checks",
  filters: (model) =>
    everySheet(model, ({ filters }) => filters.every(({ hasOthers }) => !hasOthers))
      ? undefined
      : "filters by comparison, rank, date or colour",
  links: (model) =>
    everySheet(model, ({ hasOtherLinks }) => !hasOtherLinks) ? undefined : "links to files of a computer",
  pictures: (model) =>
    everySheet(model, ({ hasOtherPictures }) => !hasOtherPictures)
      ? undefined
      : "pictures in shapes, groups or headings of paper, cropped, turned or of a rare kind",
  "formats by condition": (model) => {
    const isWhole = everySheet(model, ({ formats }, sheet) => {
      if (formats.hasOthers) return false;
      const extent = conditionExtent(sheet);
      return !formats.conditions.some(
        (condition) => isTooLarge(condition, extent) || ("icons" in condition && !hasIcons(condition)),
      );
    });
    return isWhole ? undefined : "formats by condition of rare kinds or over many cells";
  },
};

function everySheet(
  { features, sheets }: WorkbookModel,
  test: (features: SheetFeatures, sheet: SheetModel) => boolean,
): boolean {
  return sheets.every((sheet, index) => {
    const found = features?.[index];
    return found !== undefined && test(found, sheet);
  });
}

/** What a workbook holds and the page does not draw, in a sentence; undefined where there is nothing of it. */
export function undrawnFeatures(model: WorkbookModel): string | undefined {
  const found = (model.undrawn ?? []).flatMap((words) => {
    const rest = DRAWN[words];
    return model.features && rest ? (rest(model) ?? []) : words;
  });
  if (found.length === 0) return undefined;
  const list = found.length === 1 ? found[0] : `${found.slice(0, -1).join(", ")} and ${found.at(-1) ?? ""}`;
  return `this file also has ${list ?? ""}: they are kept in the file and not drawn here`;
}
