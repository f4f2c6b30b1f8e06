import type { SheetArea, SheetCell } from "../formula/scope";
import { cellIn, rangeOfArea } from "./excel-batch";
import type { FormulaEntry, PlacedPicture, AreaContents } from "./sheet-host";

/** Excel's width of one character of the default font, points. */
const POINTS_PER_CHARACTER = 5.6;
const GAP_POINTS = 12;

/** Writes contents into areas. */
export async function write(context: Excel.RequestContext, writings: readonly AreaContents[]): Promise<void> {
  for (const { contents, ...area } of writings) {
    rangeOfArea(context, area).formulas = contents.map((row) => [...row]);
  }
  await context.sync();
}

/** Turns formulas into their values. */
export async function freeze(context: Excel.RequestContext, areas: readonly SheetArea[]): Promise<void> {
  for (const area of areas) {
    const range = rangeOfArea(context, area);
    range.copyFrom(range, Excel.RangeCopyType.values);
  }
  await context.sync();
}

/** Enters formulas, each over what it filled before. */
export async function enter(context: Excel.RequestContext, entries: readonly FormulaEntry[]): Promise<void> {
  for (const { filled, formula, ...place } of entries) {
    if (filled !== undefined) {
      rangeOfArea(context, { sheet: place.sheet, range: filled }).clear(Excel.ClearApplyTo.contents);
    }
    cellIn(context, place).formulas = [[formula]];
  }
  await context.sync();
}

/** Writes a sheet of texts, making or emptying it first. */
export async function writeSheet(
  context: Excel.RequestContext,
  name: string,
  rows: readonly (readonly string[])[],
  widths: readonly number[],
): Promise<void> {
  const { worksheets } = context.workbook;
  const known = worksheets.getItemOrNullObject(name);
  known.load("name");
  await context.sync();
  const sheet = known.isNullObject ? worksheets.add(name) : known;
  sheet.getRange().clear();
  const columns = Math.max(1, ...rows.map((row) => row.length));
  const range = sheet.getRangeByIndexes(0, 0, Math.max(1, rows.length), columns);
  // Text first, or the formulas on this sheet would compute.
  range.numberFormat = [["@"]];
  range.values = rows.map((row) => Array.from({ length: columns }, (_, column) => row[column] ?? ""));
  widths.forEach((width, column) => {
    sheet.getRangeByIndexes(0, column, 1, 1).getEntireColumn().format.columnWidth =
      width * POINTS_PER_CHARACTER;
  });
  await context.sync();
}

/** Removes a sheet, where there is one. */
export async function dropSheet(context: Excel.RequestContext, name: string): Promise<void> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(name);
  sheet.load("name");
  await context.sync();
  if (!sheet.isNullObject) sheet.delete();
  await context.sync();
}

/** Puts a picture on its sheet, in the place of the one before it. */
export async function putPicture(context: Excel.RequestContext, picture: PlacedPicture): Promise<void> {
  const { shapes } = context.workbook.worksheets.getItem(picture.beside.sheet);
  const before = shapes.getItemOrNullObject(picture.name);
  before.load("left,top,width");
  const cell = cellIn(context, picture.beside);
  cell.load("left,top,width");
  await context.sync();
  const place = before.isNullObject
    ? { left: cell.left + cell.width + GAP_POINTS, top: cell.top, width: picture.width }
    : { left: before.left, top: before.top, width: before.width };
  if (!before.isNullObject) before.delete();
  const image = shapes.addImage(picture.png);
  image.name = picture.name;
  image.altTextDescription = picture.text;
  image.lockAspectRatio = false;
  image.left = place.left;
  image.top = place.top;
  image.width = place.width;
  image.height = (place.width * picture.height) / picture.width;
  image.lockAspectRatio = true;
  await context.sync();
}

/** Gives a cell a hidden name. */
export async function nameCell(context: Excel.RequestContext, name: string, cell: SheetCell): Promise<void> {
  const { names } = context.workbook;
  const known = names.getItemOrNullObject(name);
  known.load("name");
  await context.sync();
  if (!known.isNullObject) known.delete();
  names.add(name, cellIn(context, cell)).visible = false;
  await context.sync();
}

/** Shows and selects an area. */
export async function select(context: Excel.RequestContext, area: SheetArea): Promise<void> {
  context.workbook.worksheets.getItem(area.sheet).activate();
  rangeOfArea(context, area).select();
  await context.sync();
}
