import { type CellCheck, readCellChecks } from "./cell-checks";
import { readConditions, type SheetConditions } from "./conditions";
import { type CellLink, readLinks } from "./links";
import { type SheetModel, WorkbookError } from "./model";
import { readOutsideRows } from "./outside-rows";
import type { WorkbookPackage } from "./package";
import { readPictures, type SheetPicture } from "./pictures";
import { type ListFilter, readFilters } from "./row-filters";
import { readConditionalLooks } from "./styles";
import { findWorkbookPart } from "./workbook-part";
import { readXml } from "./xml";

const BARE_SHEET = "<worksheet/>";

/** What a sheet holds beside its cells and a page of a browser can show. */
export interface SheetFeatures {
  readonly checks: readonly CellCheck[];
  readonly formats: SheetConditions;
  readonly links: readonly CellLink[];
  readonly pictures: readonly SheetPicture[];
  readonly filters: readonly ListFilter[];
  /** Whether there are links and pictures that are not among these. */
  readonly hasOtherLinks: boolean;
  readonly hasOtherPictures: boolean;
}

/** What the sheets of a workbook hold beside their cells; undefined for a sheet where that cannot be read. */
export function readFeatures(
  parts: WorkbookPackage,
  sheets: readonly Pick<SheetModel, "part" | "undrawn">[],
): readonly (SheetFeatures | undefined)[] {
  const looks = readConditionalLooks(parts, findWorkbookPart(parts));
  const found = sheets.map(({ part, undrawn }) => {
    try {
      // Reading found nothing of this around the cells of most sheets, which need not be decoded once more.
      const root = undrawn === undefined ? readXml(BARE_SHEET, part) : readOutsideRows(parts, part);
      const { links, hasOthers: hasOtherLinks } = readLinks(root, parts, part);
      const { pictures, hasOthers: hasOtherPictures } = readPictures(parts, part);
      return {
        checks: readCellChecks(root),
        formats: readConditions(root, looks),
        filters: readFilters(root, parts, part),
        links,
        pictures,
        hasOtherLinks,
        hasOtherPictures,
      };
    } catch (error) {
      // The cells were read: what stands around them is named as not drawn.
      if (error instanceof WorkbookError) return undefined;
      throw error;
    }
  });
  const hung = new Set(found.flatMap((sheet) => sheet?.pictures.map(({ part }) => part.toLowerCase()) ?? []));
  // Pictures in headings of paper, in fills of shapes or behind a sheet hang nowhere.
  const isElsewhere = parts.names.some((name) => {
    return /^xl\/media\//i.test(name) && !hung.has(name.toLowerCase());
  });
  return found.map((sheet) => sheet && { ...sheet, hasOtherPictures: sheet.hasOtherPictures || isElsewhere });
}
