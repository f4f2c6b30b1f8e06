import type { WorkbookDescription } from "../workbook/create";
import { priceListWorkbook } from "./price-list";
import { regattaWorkbook } from "./regatta";
import { tourWorkbook } from "./tour";
import { weekWorkbook } from "./week";

/** A sample workbook: its file name and how it is made. */
export interface SampleWorkbook {
  readonly file: string;
  readonly describe: () => WorkbookDescription;
}

/** The sample workbooks in the order a newcomer opens them. */
export const SAMPLE_WORKBOOKS: readonly SampleWorkbook[] = [
  { file: "price-list.xlsx", describe: priceListWorkbook },
  { file: "regatta-evening.xlsx", describe: regattaWorkbook },
  { file: "two-events-week.xlsx", describe: weekWorkbook },
  { file: "function-tour.xlsx", describe: tourWorkbook },
];
