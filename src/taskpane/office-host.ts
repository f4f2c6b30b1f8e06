import type { CellRange } from "../formula/address";
import type { NameInfo, SheetArea, SheetCell, TableInfo } from "../formula/scope";
import {
  HostError,
  type ApiVersion,
  type Block,
  type DocumentChoices,
  type FormulaEntry,
  type Outline,
  type SheetHost,
  type SheetPicture,
  type Writing,
} from "./sheet-host";

// Excel names these with the members that need them, in its own reference.
const DECIMAL_VERSION = "1.11";
const MERGE_VERSION = "1.13";
const TRUST_SETTING = "Office.DisableTrustUX";
/** Excel's width of one character of the default font, points. */
const POINTS_PER_CHARACTER = 5.6;
const GAP_POINTS = 12;

const SENTENCES: Readonly<Record<string, string>> = {
  AccessDenied: "Excel does not allow it here: the sheet or the workbook is protected",
  ItemNotFound: "it is no longer in the workbook",
  InvalidOperationInCellEditMode: "a cell is being edited: press Enter in the sheet first",
  ActivityLimitReached: "Excel is busy: wait a moment and try again",
  RequestPayloadSizeLimitExceeded: "that is too much for Excel at once",
  ResponsePayloadSizeLimitExceeded: "that is too much for Excel at once",
};

function hostError(error: unknown): HostError {
  if (error instanceof HostError) return error;
  const { code, message } = error as { readonly code?: unknown; readonly message?: unknown };
  const known = typeof code === "string" ? SENTENCES[code] : undefined;
  return new HostError(known ?? (typeof message === "string" && message !== "" ? message : String(error)));
}

async function inWorkbook<Result>(
  batch: (context: Excel.RequestContext) => Promise<Result>,
): Promise<Result> {
  try {
    return await Excel.run(batch);
  } catch (error) {
    throw hostError(error);
  }
}

function rangeIn(context: Excel.RequestContext, { sheet, range }: SheetArea): Excel.Range {
  return context.workbook.worksheets
    .getItem(sheet)
    .getRangeByIndexes(
      range.firstRow,
      range.firstColumn,
      range.lastRow - range.firstRow + 1,
      range.lastColumn - range.firstColumn + 1,
    );
}

function cellIn(context: Excel.RequestContext, { sheet, row, column }: SheetCell): Excel.Range {
  return context.workbook.worksheets.getItem(sheet).getRangeByIndexes(row, column, 1, 1);
}

function cornersOf(range: Excel.Range): CellRange {
  return {
    firstRow: range.rowIndex,
    firstColumn: range.columnIndex,
    lastRow: range.rowIndex + range.rowCount - 1,
    lastColumn: range.columnIndex + range.columnCount - 1,
  };
}

function nameInfo(item: Excel.NamedItem, sheet?: string): NameInfo {
  const { name, formula } = item;
  return { name, reference: String(formula).replace(/^=/, ""), ...(sheet !== undefined && { sheet }) };
}

async function outline(context: Excel.RequestContext): Promise<Outline> {
  const { worksheets, tables, names } = context.workbook;
  worksheets.load("items/name");
  tables.load("items/name,items/showHeaders,items/showTotals");
  names.load("items/name,items/formula");
  await context.sync();
  const sheets = worksheets.items.map((sheet) => {
    const used = sheet.getUsedRangeOrNullObject(true);
    used.load("rowIndex,columnIndex,rowCount,columnCount");
    sheet.protection.load("protected");
    sheet.names.load("items/name,items/formula");
    return { sheet, used };
  });
  const ranges = tables.items.map((table) => {
    const range = table.getRange();
    range.load("rowIndex,columnIndex,rowCount,columnCount");
    table.worksheet.load("name");
    table.columns.load("items/name");
    return { table, range };
  });
  await context.sync();
  return {
    sheets: sheets.map(({ sheet, used }) => ({
      name: sheet.name,
      isProtected: sheet.protection.protected,
      ...(!used.isNullObject && { used: cornersOf(used) }),
    })),
    tables: ranges.map(({ table, range }): TableInfo => ({
      name: table.name,
      sheet: table.worksheet.name,
      range: cornersOf(range),
      columns: table.columns.items.map(({ name }) => name),
      headerRows: table.showHeaders ? 1 : 0,
      totalsRows: table.showTotals ? 1 : 0,
    })),
    names: [
      ...names.items.map((item) => nameInfo(item)),
      ...sheets.flatMap(({ sheet }) => sheet.names.items.map((item) => nameInfo(item, sheet.name))),
    ],
  };
}

async function read(context: Excel.RequestContext, areas: readonly SheetArea[]): Promise<readonly Block[]> {
  const ranges = areas.map((area) => {
    const range = rangeIn(context, area);
    range.load("formulas,values");
    return range;
  });
  await context.sync();
  return ranges.map(({ formulas, values }) => ({ formulas, values }) as Block);
}

async function spills(
  context: Excel.RequestContext,
  cells: readonly SheetCell[],
): Promise<readonly (CellRange | undefined)[]> {
  const found = cells.map((place) => {
    const cell = cellIn(context, place);
    const spill = cell.getSpillingToRangeOrNullObject();
    spill.load("rowIndex,columnIndex,rowCount,columnCount");
    const parent = cell.getSpillParentOrNullObject();
    parent.load("rowIndex,columnIndex,rowCount,columnCount");
    return { place, spill, parent };
  });
  await context.sync();
  return found.map(({ place: { row, column }, spill, parent }) => {
    if (!spill.isNullObject) return cornersOf(spill);
    const isOther = !parent.isNullObject && (parent.rowIndex !== row || parent.columnIndex !== column);
    return isOther ? undefined : { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
  });
}

async function selection(context: Excel.RequestContext): Promise<SheetArea> {
  // Several areas may be selected; a plain getSelectedRange would then fail.
  const first = context.workbook.getSelectedRanges().areas.getItemAt(0);
  first.load("rowIndex,columnIndex,rowCount,columnCount");
  const sheet = context.workbook.worksheets.getActiveWorksheet();
  sheet.load("name");
  await context.sync();
  return { sheet: sheet.name, range: cornersOf(first) };
}

async function surrounding(context: Excel.RequestContext, cell: SheetCell): Promise<CellRange> {
  const region = cellIn(context, cell).getSurroundingRegion();
  region.load("rowIndex,columnIndex,rowCount,columnCount");
  await context.sync();
  return cornersOf(region);
}

async function fillColours(context: Excel.RequestContext, area: SheetArea): Promise<readonly string[]> {
  const cells = rangeIn(context, area).getCellProperties({ format: { fill: { color: true } } });
  await context.sync();
  return cells.value.flat().map((cell) => cell.format?.fill?.color ?? "");
}

async function enter(context: Excel.RequestContext, entries: readonly FormulaEntry[]): Promise<void> {
  for (const { filled, formula, ...place } of entries) {
    if (filled !== undefined) {
      rangeIn(context, { sheet: place.sheet, range: filled }).clear(Excel.ClearApplyTo.contents);
    }
    cellIn(context, place).formulas = [[formula]];
  }
  await context.sync();
}

async function writeSheet(
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

async function removeSheet(context: Excel.RequestContext, name: string): Promise<void> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(name);
  sheet.load("name");
  await context.sync();
  if (!sheet.isNullObject) sheet.delete();
  await context.sync();
}

async function partsOf(
  context: Excel.RequestContext,
  namespace: string,
): Promise<readonly Excel.CustomXmlPart[]> {
  const parts = context.workbook.customXmlParts.getByNamespace(namespace);
  parts.load("items/id");
  await context.sync();
  // eslint-disable-next-line office-addins/load-object-before-read -- "items/id" above loads them
  return parts.items;
}

async function readPart(context: Excel.RequestContext, namespace: string): Promise<string | undefined> {
  const [part] = await partsOf(context, namespace);
  if (part === undefined) return undefined;
  const xml = part.getXml();
  await context.sync();
  // eslint-disable-next-line office-addins/load-object-before-read -- a ClientResult has no load, sync alone fills it
  return xml.value;
}

async function writePart(
  context: Excel.RequestContext,
  namespace: string,
  xml: string | undefined,
): Promise<void> {
  const [part, ...others] = await partsOf(context, namespace);
  for (const other of others) other.delete();
  if (xml === undefined) part?.delete();
  else if (part === undefined) context.workbook.customXmlParts.add(xml);
  else part.setXml(xml);
  await context.sync();
}

function supports(version: ApiVersion): boolean {
  return Office.context.requirements.isSetSupported("ExcelApi", version);
}

async function decimalMark(context: Excel.RequestContext): Promise<string> {
  const { application } = context.workbook;
  application.load("decimalSeparator");
  await context.sync();
  return application.decimalSeparator;
}

async function obstacles(context: Excel.RequestContext, area: SheetArea): Promise<readonly string[]> {
  const range = rangeIn(context, area);
  range.load("rowHidden");
  const merged = range.getMergedAreasOrNullObject();
  merged.load("address");
  await context.sync();
  // It is null where only some of the rows are hidden.
  const isHidden = (range.rowHidden as boolean | null) !== false;
  return [
    ...(isHidden ? ["some of its rows are hidden, by a filter or by hand: show all rows first"] : []),
    ...(merged.isNullObject ? [] : [`${merged.address} is merged: unmerge it first`]),
  ];
}

async function putPicture(context: Excel.RequestContext, picture: SheetPicture): Promise<void> {
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

async function nameCell(context: Excel.RequestContext, name: string, cell: SheetCell): Promise<void> {
  const { names } = context.workbook;
  const known = names.getItemOrNullObject(name);
  known.load("name");
  await context.sync();
  if (!known.isNullObject) known.delete();
  names.add(name, cellIn(context, cell)).visible = false;
  await context.sync();
}

async function choices(): Promise<DocumentChoices> {
  const behavior = await Office.addin.getStartupBehavior();
  const { platform, document } = Office.context;
  // Excel on the web shows the prompt in its own way and takes no such setting.
  const canHide = platform === Office.PlatformType.PC || platform === Office.PlatformType.Mac;
  return {
    startsOnOpen: behavior === Office.StartupBehavior.load,
    hidesTrustPrompt: canHide ? document.settings.get(TRUST_SETTING) === true : undefined,
  };
}

async function setHidesTrustPrompt(isOn: boolean): Promise<void> {
  const { settings } = Office.context.document;
  if (isOn) settings.set(TRUST_SETTING, true);
  else settings.remove(TRUST_SETTING);
  await new Promise<void>((resolve, reject) => {
    settings.saveAsync(({ status, error }) => {
      if (status === Office.AsyncResultStatus.Failed) reject(new HostError(error.message));
      else resolve();
    });
  });
}

/** The workbook in Excel. */
export const officeHost: SheetHost = {
  supports,
  decimalMark: () => (supports(DECIMAL_VERSION) ? inWorkbook(decimalMark) : Promise.resolve(undefined)),
  obstacles: (area) => {
    if (supports(MERGE_VERSION)) return inWorkbook((context) => obstacles(context, area));
    const sentence = "this Excel cannot tell merged cells: fill the column by hand, or update Excel";
    return Promise.resolve([sentence]);
  },
  outline: () => inWorkbook(outline),
  read: (areas) => inWorkbook((context) => read(context, areas)),
  spills: (cells) => inWorkbook((context) => spills(context, cells)),
  selection: () => inWorkbook(selection),
  surrounding: (cell) => inWorkbook((context) => surrounding(context, cell)),
  fillColours: (area) => inWorkbook((context) => fillColours(context, area)),
  write: (writings: readonly Writing[]) =>
    inWorkbook(async (context) => {
      for (const { contents, ...area } of writings) {
        rangeIn(context, area).formulas = contents.map((row) => [...row]);
      }
      await context.sync();
    }),
  freeze: (areas) =>
    inWorkbook(async (context) => {
      for (const area of areas) {
        const range = rangeIn(context, area);
        range.copyFrom(range, Excel.RangeCopyType.values);
      }
      await context.sync();
    }),
  enter: (entries) => inWorkbook((context) => enter(context, entries)),
  select: (area) =>
    inWorkbook(async (context) => {
      context.workbook.worksheets.getItem(area.sheet).activate();
      rangeIn(context, area).select();
      await context.sync();
    }),
  writeSheet: (name, rows, widths) => inWorkbook((context) => writeSheet(context, name, rows, widths)),
  removeSheet: (name) => inWorkbook((context) => removeSheet(context, name)),
  readPart: (namespace) => inWorkbook((context) => readPart(context, namespace)),
  writePart: (namespace, xml) => inWorkbook((context) => writePart(context, namespace, xml)),
  putPicture: (picture) => inWorkbook((context) => putPicture(context, picture)),
  nameCell: (name, cell) => inWorkbook((context) => nameCell(context, name, cell)),
  watch: ({ changed, selected }) =>
    inWorkbook(async (context) => {
      const { worksheets } = context.workbook;
      const after = (tell: () => void) => (): Promise<void> => {
        tell();
        return Promise.resolve();
      };
      worksheets.onChanged.add(after(changed));
      worksheets.onCalculated.add(after(changed));
      worksheets.onSelectionChanged.add(after(selected));
      await context.sync();
    }),
  choices,
  setStartsOnOpen: (isOn) =>
    Office.addin.setStartupBehavior(isOn ? Office.StartupBehavior.load : Office.StartupBehavior.none),
  setHidesTrustPrompt,
};

/** Where the page runs: the host where it is Excel, and what Office says about the surroundings. */
export interface OfficeSurroundings {
  readonly host: SheetHost | undefined;
  /** `light` or `dark` as Office looks, undefined where Office does not say. */
  readonly theme: "light" | "dark" | undefined;
  /** A prefix for keys of local storage, where the browser keeps storage of several sites apart. */
  readonly partition: string;
}

/** Waits for Office. Outside of Excel there is no host, but the page can still be read. */
export async function connectOffice(): Promise<OfficeSurroundings> {
  const { host } = await Office.onReady();
  const context = Office.context as Partial<Office.Context> | undefined;
  return {
    host: host === Office.HostType.Excel ? officeHost : undefined,
    theme: themeOf(context?.officeTheme),
    partition: context?.partitionKey ?? "",
  };
}

function themeOf(theme: Partial<Office.OfficeTheme> | undefined): "light" | "dark" | undefined {
  if (theme?.isDarkTheme !== undefined) return theme.isDarkTheme ? "dark" : "light";
  const channels = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})/i.exec(theme?.bodyBackgroundColor ?? "");
  if (channels === null) return undefined;
  const [red = 0, green = 0, blue = 0] = channels.slice(1).map((channel) => Number.parseInt(channel, 16));
  // Luma of ITU-R BT.601.
  return 0.299 * red + 0.587 * green + 0.114 * blue < 128 ? "dark" : "light";
}
