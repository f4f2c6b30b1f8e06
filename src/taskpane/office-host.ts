import { choices, setHidesTrustPrompt } from "./document-choices";
import { inWorkbook } from "./excel-batch";
import { readPart, writePart } from "./excel-parts";
import * as reading from "./excel-reading";
import * as writing from "./excel-writing";
import type { ApiVersion, SheetHost } from "./sheet-host";

// Excel names these with the members that need them, in its own reference.
const DECIMAL_VERSION = "1.11";
const MERGE_VERSION = "1.13";

function supports(version: ApiVersion): boolean {
  return Office.context.requirements.isSetSupported("ExcelApi", version);
}

/** A member of the host that runs one batch with the arguments it is called with. */
function batch<Args extends readonly unknown[], Result>(
  run: (context: Excel.RequestContext, ...args: Args) => Promise<Result>,
): (...args: Args) => Promise<Result> {
  return (...args) => inWorkbook((context) => run(context, ...args));
}

async function watch(
  context: Excel.RequestContext,
  { changed, selected }: Parameters<SheetHost["watch"]>[0],
): Promise<void> {
  const { worksheets } = context.workbook;
  const after = (tell: () => void) => (): Promise<void> => {
    tell();
    return Promise.resolve();
  };
  worksheets.onChanged.add(after(changed));
  worksheets.onCalculated.add(after(changed));
  worksheets.onSelectionChanged.add(after(selected));
  await context.sync();
}

/** The workbook in Excel. */
export const officeHost: SheetHost = {
  supports,
  decimalMark: () =>
    supports(DECIMAL_VERSION) ? inWorkbook(reading.decimalMark) : Promise.resolve(undefined),
  obstacles: (area) => {
    if (supports(MERGE_VERSION)) return inWorkbook((context) => reading.obstacles(context, area));
    const sentence = "this Excel cannot tell merged cells: fill the column by hand, or update Excel";
    return Promise.resolve([sentence]);
  },
  outline: batch(reading.outline),
  read: batch(reading.read),
  spills: batch(reading.spills),
  selection: batch(reading.selection),
  surrounding: batch(reading.surrounding),
  fillColours: batch(reading.fillColours),
  write: batch(writing.write),
  freeze: batch(writing.freeze),
  enter: batch(writing.enter),
  select: batch(writing.select),
  writeSheet: batch(writing.writeSheet),
  removeSheet: batch(writing.dropSheet),
  putPicture: batch(writing.putPicture),
  nameCell: batch(writing.nameCell),
  readPart: batch(readPart),
  writePart: batch(writePart),
  watch: batch(watch),
  choices,
  setStartsOnOpen: (isOn) =>
    Office.addin.setStartupBehavior(isOn ? Office.StartupBehavior.load : Office.StartupBehavior.none),
  setHidesTrustPrompt,
};
