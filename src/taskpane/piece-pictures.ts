import type { SheetArea, SheetCell } from "../formula/scope";
import { functionNamed } from "../functions/catalogue";
import { placedTables } from "../functions/event/find-tables";
import type { CatalogueFunction, DrawnBalloon, DrawnPiece } from "../functions/definition";
import { eventSvg, eventWords } from "../ui/event-picture";
import { pictureSvg, svgToPng, type PictureOptions } from "../ui/picture";
import { chosenPieces } from "../ui/pieces-view";
import { dataPart, partData } from "../workbook/data-part";
import { areaOf, resolveReference } from "../formula/resolve";
import { withinUsed } from "./contents";
import { findTables } from "./found-tables";
import { argumentValues, ourCalls, type ReadReference } from "./formula-calls";
import type { CellRows, Outline, SheetHost } from "./sheet-host";
import { withNulls } from "./workbook-check";

const NAMESPACE = "urn:balloon-decor-functions:pictures";
const NAME_START = "_BLN_picture_";
const MOST_CELLS = 20_000;
const WIDTH_POINTS = 260;
const PNG_WIDTH = 1040;

/** Colours of a picture and how they come. */
export interface PictureLook {
  readonly colours: readonly string[];
  readonly order: NonNullable<PictureOptions["order"]>;
  /** Which piece of a job; empty or absent for all of them. */
  readonly piece?: string;
}

/** A picture on a sheet that follows the numbers of a cell; a hidden name of the same name leads to the cell. */
interface LinkedPicture extends PictureLook {
  readonly name: string;
  /** Tells whether the drawing has changed. */
  readonly digest: string;
}

/** A piece as a formula in a cell describes it. */
export interface PicturedPiece {
  readonly fn: CatalogueFunction;
  readonly formula: string;
  readonly balloons: readonly DrawnBalloon[];
  /** Of a formula that plans a whole job; it has colours of its own. */
  readonly pieces?: readonly DrawnPiece[];
}

function isTooLarge({ range }: SheetArea): boolean {
  return (range.lastRow - range.firstRow + 1) * (range.lastColumn - range.firstColumn + 1) > MOST_CELLS;
}

/** Values behind references that stand in the formula of a cell. */
export async function readReferences(
  host: SheetHost,
  outline: Outline,
  references: readonly string[],
  at: SheetCell,
): Promise<ReadReference> {
  const found = references.flatMap((reference) => {
    const isSpill = reference.endsWith("#");
    const meant = resolveReference(outline, isSpill ? reference.slice(0, -1) : reference, at);
    const area = meant && withinUsed(outline, meant);
    return area === undefined || isTooLarge(area) ? [] : [{ reference, isSpill, area }];
  });
  const anchors = found.filter(({ isSpill }) => isSpill);
  const filled = await host.spills(
    anchors.map(({ area: { sheet, range } }) => ({ sheet, row: range.firstRow, column: range.firstColumn })),
  );
  const areas = found.map((entry): SheetArea => {
    const spill = filled[anchors.indexOf(entry)];
    return entry.isSpill && spill !== undefined ? { sheet: entry.area.sheet, range: spill } : entry.area;
  });
  const blocks = areas.length === 0 ? [] : await host.read(areas);
  const rows = new Map<string, CellRows>(
    found.map(({ reference }, index) => [reference, blocks[index]?.values ?? []]),
  );
  return (reference) => rows.get(reference);
}

/** The piece that the formula of a cell describes; undefined where it describes none or its arguments cannot be told. */
export async function pieceAt(
  host: SheetHost,
  outline: Outline,
  cell: SheetCell,
): Promise<PicturedPiece | undefined> {
  const [block] = await host.read([areaOf(cell)]);
  const formula = String(block?.formulas[0]?.[0] ?? "");
  const call = formula.startsWith("=")
    ? ourCalls(formula).find(({ fn }) => fn.draw !== undefined || fn.drawPieces !== undefined)
    : undefined;
  if (call === undefined) return undefined;
  const references = new Set<string>();
  argumentValues(call, (reference) => {
    references.add(reference);
    return undefined;
  });
  const values = argumentValues(call, await readReferences(host, outline, [...references], cell));
  if (values === undefined) return undefined;
  try {
    const pieces = call.fn.drawPieces?.(values);
    return { fn: call.fn, formula, balloons: call.fn.draw?.(values) ?? [], ...(pieces && { pieces }) };
  } catch {
    return { fn: call.fn, formula, balloons: [] };
  }
}

/** All pieces of the job whose tables the workbook holds, as a formula over them would describe them; undefined without such tables. */
export async function pieceOfTables(
  host: SheetHost,
  outline: Outline,
  at: SheetCell,
): Promise<PicturedPiece | undefined> {
  const fn = functionNamed("PART_PLAN");
  if (fn?.drawPieces === undefined) return undefined;
  const found = await findTables(host, outline, at);
  const { fields } = placedTables(
    found,
    fn.params.map(({ name }) => name),
  );
  const tables = [...fields.values()];
  if (!tables.some(({ sort }) => sort === "pieces")) return undefined;
  const references = tables.map(({ reference }) => reference);
  const read = await readReferences(host, outline, references, at);
  const pieces = fn.drawPieces(references.map((reference) => withNulls(read(reference) ?? [])));
  return { fn, formula: `the tables ${references.join(", ")}`, balloons: [], pieces };
}

export function pieceSvg(piece: PicturedPiece, look: PictureLook): string {
  const title = `${piece.formula} seen from the front`;
  if (piece.pieces === undefined) return pictureSvg(piece.balloons, { ...look, title });
  const pieces = chosenPieces(piece.pieces, look.piece ?? "");
  return eventSvg(pieces, { title, description: eventWords(pieces) });
}

function digestOf(text: string): string {
  let hash = 5381;
  for (let at = 0; at < text.length; at++) hash = (Math.imul(hash, 33) + text.charCodeAt(at)) | 0;
  return `${text.length}-${(hash >>> 0).toString(36)}`;
}

async function base64Of(png: Blob): Promise<string> {
  const bytes = new Uint8Array(await png.arrayBuffer());
  const pieces: string[] = [];
  // In parts: a call takes no million arguments.
  for (let at = 0; at < bytes.length; at += 8192)
    pieces.push(String.fromCharCode(...bytes.subarray(at, at + 8192)));
  return btoa(pieces.join(""));
}

/** Size of a picture in its own units. */
function sizeOf(svg: string): { readonly width: number; readonly height: number } {
  const side = (name: string): number =>
    Number(new RegExp(`<svg[^>]*\\s${name}="([0-9.]+)"`).exec(svg)?.[1] ?? 1);
  return { width: side("width"), height: side("height") };
}

async function place(
  host: SheetHost,
  name: string,
  beside: SheetCell,
  svg: string,
  text: string,
): Promise<void> {
  const { width, height } = sizeOf(svg);
  const png = await base64Of(await svgToPng(svg, PNG_WIDTH));
  await host.putPicture({
    name,
    beside,
    png,
    width: WIDTH_POINTS,
    height: (WIDTH_POINTS * height) / width,
    text,
  });
}

function isLinked(data: unknown): data is LinkedPicture {
  if (typeof data !== "object" || data === null) return false;
  const { name, colours, order, digest, piece } = data as Readonly<Record<string, unknown>>;
  return (
    typeof name === "string" &&
    name.startsWith(NAME_START) &&
    Array.isArray(colours) &&
    colours.every((colour) => typeof colour === "string") &&
    (order === "balloons" || order === "rows") &&
    (piece === undefined || typeof piece === "string") &&
    typeof digest === "string"
  );
}

async function readLinked(host: SheetHost): Promise<readonly LinkedPicture[]> {
  const xml = await host.readPart(NAMESPACE);
  const data = xml === undefined ? undefined : partData(NAMESPACE, xml);
  return Array.isArray(data) ? data.filter(isLinked) : [];
}

async function writeLinked(host: SheetHost, pictures: readonly LinkedPicture[]): Promise<void> {
  await host.writePart(NAMESPACE, pictures.length === 0 ? undefined : dataPart(NAMESPACE, pictures));
}

function cellOf(outline: Outline, name: string): SheetCell | undefined {
  const reference = outline.names.find((candidate) => candidate.name === name)?.reference;
  const area = reference === undefined ? undefined : resolveReference(outline, reference, NOWHERE);
  return area && { sheet: area.sheet, row: area.range.firstRow, column: area.range.firstColumn };
}

const NOWHERE: SheetCell = { sheet: "", row: 0, column: 0 };

/** Puts the picture of a cell's piece beside it; it follows the cell's numbers from then on. */
export async function putPieceBeside(host: SheetHost, cell: SheetCell, look: PictureLook): Promise<void> {
  const outline = await host.outline();
  const piece = await pieceAt(host, outline, cell);
  if (piece === undefined) return;
  const known = await readLinked(host);
  const before = known.find(({ name }) => {
    const linked = cellOf(outline, name);
    return linked?.sheet === cell.sheet && linked.row === cell.row && linked.column === cell.column;
  });
  const numbers = known.map(({ name }) => Number(name.slice(NAME_START.length)) || 0);
  const name = before?.name ?? `${NAME_START}${Math.max(0, ...numbers) + 1}`;
  const svg = pieceSvg(piece, look);
  await place(host, name, cell, svg, `${piece.formula}, seen from the front`);
  if (before === undefined) await host.nameCell(name, cell);
  const picture = { ...look, name, digest: digestOf(svg) };
  await writeLinked(host, [...known.filter((other) => other !== before), picture]);
}

/** Draws every linked picture anew whose numbers have changed; gives how many. */
export async function refreshPictures(host: SheetHost): Promise<number> {
  const known = await readLinked(host);
  if (known.length === 0) return 0;
  const outline = await host.outline();
  const kept: LinkedPicture[] = [];
  let drawn = 0;
  for (const picture of known) {
    const cell = cellOf(outline, picture.name);
    // Its row is gone; the picture stays as a picture, nobody asked to delete it.
    if (cell === undefined) continue;
    const piece = await pieceAt(host, outline, cell);
    const svg = piece && pieceSvg(piece, picture);
    const digest = svg === undefined ? picture.digest : digestOf(svg);
    if (piece !== undefined && svg !== undefined && digest !== picture.digest) {
      await place(host, picture.name, cell, svg, `${piece.formula}, seen from the front`);
      drawn += 1;
    }
    kept.push({ ...picture, digest });
  }
  if (drawn > 0 || kept.length < known.length) await writeLinked(host, kept);
  return drawn;
}
