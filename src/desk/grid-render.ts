import type {
  ICellData,
  ICellDataForSheetInterceptor,
  ICellInterceptor,
  IDisposable,
  Nullable,
} from "@univerjs/core";
import { BooleanNumber, CellValueType, InterceptorEffectEnum } from "@univerjs/core";
import {
  CanvasColorService,
  DEFAULT_PADDING_DATA,
  Font,
  type IFontCacheItem,
  type UniverRenderingContext,
} from "@univerjs/engine-render";
import { INTERCEPTOR_POINT, type ISheetLocation, SheetInterceptorService } from "@univerjs/sheets";
import { ThemeSwitcherService } from "@univerjs/ui";
import type { Theme } from "@univerjs/themes";
import { fileColor, isKeptColor } from "./grid-colors";
import { isMereText } from "./mere-text";
import { fittedNumber } from "../paper/number-fit";

/** The theme's variables as a constructed style sheet: a style element would break the page's content security policy. */
export class ThemeSheet extends ThemeSwitcherService {
  private readonly sheet = new CSSStyleSheet();

  override injectThemeToHead(theme: Theme): void {
    const variables = (value: unknown, path: string): string =>
      typeof value === "object" && value !== null
        ? Object.entries(value)
            .map(([key, inner]) => variables(inner, `${path}-${key}`))
            .join("")
        : `${path}:${String(value)};`;
    this.sheet.replaceSync(`:root{${variables(theme, "--univer")}}`);
    if (!document.adoptedStyleSheets.includes(this.sheet)) document.adoptedStyleSheets.push(this.sheet);
  }
}

/** What the grid library's text drawing works on; it declares the method private. */
interface TextDrawing {
  readonly startX: number;
  readonly endX: number;
  readonly startY: number;
  readonly endY: number;
  fontCache: IFontCacheItem | null | undefined;
}
interface TextDrawer {
  _renderText(
    ctx: UniverRenderingContext,
    row: number,
    column: number,
    drawing: TextDrawing,
    overflow: { getValue(row: number, column: number): unknown },
  ): void;
}

/** Farther than any canvas reaches. */
const BEYOND = 100_000;

/**
 * Draws what of a text lies beyond its filled cell in the ink of the sheet: the ink that belongs on the fill may be
 * invisible there in the dark.
 */
function keepOverflowReadable(): void {
  const drawer = Font.prototype as unknown as TextDrawer;
  const draw = drawer._renderText;
  drawer._renderText = function (ctx, row, column, drawing, overflow) {
    const { fontCache, startX, endX, startY, endY } = drawing;
    const ink = fontCache?.style?.cl?.rgb;
    const isBeyond = overflow.getValue(row, column) !== undefined;
    if (!fontCache || !isBeyond || typeof ink !== "string" || !isKeptColor(ink)) {
      draw.call(this, ctx, row, column, drawing, overflow);
      return;
    }
    const [width, height] = [endX - startX, endY - startY];
    const within = (clip: () => void): void => {
      ctx.save();
      ctx.beginPath();
      clip();
      ctx.clip();
      draw.call(this, ctx, row, column, drawing, overflow);
      ctx.restore();
    };
    within(() => {
      ctx.rect(0, 0, width, height);
    });
    const sheetInk = { rgb: fileColor(ink) ?? null };
    drawing.fontCache = { ...fontCache, style: { ...fontCache.style, cl: sheetInk } } as IFontCacheItem;
    within(() => {
      ctx.rect(-BEYOND, 0, BEYOND, height);
      ctx.rect(width, 0, BEYOND, height);
    });
    drawing.fontCache = fontCache;
  };
}

/** Puts `#` signs in place of a number that does not fit, where the grid library would cut its digits. */
function fitNumbers(): void {
  const drawer = Font.prototype as unknown as TextDrawer;
  const draw = drawer._renderText;
  drawer._renderText = function (ctx, row, column, drawing, overflow) {
    const { fontCache, startX, endX } = drawing;
    const fitted = fontCache && fittedCell(ctx, fontCache, endX - startX);
    if (fitted === undefined || fitted === null) {
      draw.call(this, ctx, row, column, drawing, overflow);
      return;
    }
    drawing.fontCache = { ...fontCache, cellData: fitted } as IFontCacheItem;
    draw.call(this, ctx, row, column, drawing, overflow);
    drawing.fontCache = fontCache;
  };
}

/** The cell as it is to be drawn; undefined where nothing about it changes. */
function fittedCell(
  ctx: UniverRenderingContext,
  { cellData, fontString, style }: IFontCacheItem,
  cellWidth: number,
): ICellDataForSheetInterceptor | undefined {
  if (cellData?.v === undefined || cellData.v === null) return undefined;
  const { t: kind, v: value } = cellData;
  if (kind !== CellValueType.NUMBER && kind !== CellValueType.BOOLEAN) return undefined;
  const isGeneral = kind === CellValueType.NUMBER && typeof value === "number";
  const text =
    kind === CellValueType.BOOLEAN ? (value === BooleanNumber.TRUE ? "TRUE" : "FALSE") : String(value);
  const { l = DEFAULT_PADDING_DATA.l, r = DEFAULT_PADDING_DATA.r } = style?.pd ?? {};
  ctx.save();
  ctx.font = fontString;
  const fitted = fittedNumber(
    { text, ...(isGeneral && { general: value }) },
    cellWidth - (l ?? 0) - (r ?? 0),
    (part) => ctx.measureText(part).width,
  );
  ctx.restore();
  return fitted === text ? undefined : { ...cellData, v: fitted, t: CellValueType.NUMBER };
}

function keepFileColors(): void {
  const service = CanvasColorService.prototype;
  const themed = Object.getOwnPropertyDescriptor(service, "getRenderColor")?.value as (
    this: CanvasColorService,
    color: string,
  ) => string;
  service.getRenderColor = function (color) {
    return isKeptColor(color) ? color : themed.call(this, color);
  };
}

/** How the library asks of every text, at every drawing of its cell, whether it is a number kept as a text. */
const TEXT_MARK = { priority: 10, effect: InterceptorEffectEnum.Style };

type CellInterceptor = ICellInterceptor<
  ICellDataForSheetInterceptor,
  ISheetLocation & { readonly rawData?: Nullable<ICellData> }
>;
interface CellInterceptors {
  intercept(point: unknown, interceptor: CellInterceptor): IDisposable;
}

/** Lets the library ask that only of texts that may be numbers: reading all others as dates took a quarter of all drawing. */
function askFewerTexts(): void {
  const service = SheetInterceptorService.prototype as unknown as CellInterceptors;
  const { intercept } = service;
  service.intercept = function (point, interceptor) {
    const { handler, priority, effect } = interceptor;
    const isAsking = priority === TEXT_MARK.priority && effect === TEXT_MARK.effect;
    if (!isAsking || point !== INTERCEPTOR_POINT.CELL_CONTENT)
      return intercept.call(this, point, interceptor);
    return intercept.call(this, point, {
      ...interceptor,
      handler: (cell, place, next) => {
        const text = place.rawData?.v;
        return typeof text === "string" && isMereText(text) ? next(cell) : handler(cell, place, next);
      },
    });
  };
}

let isPrepared = false;

/** Mends once what the grid library draws otherwise than a spreadsheet has to. */
export function prepareDrawing(): void {
  if (isPrepared) return;
  isPrepared = true;
  askFewerTexts();
  fitNumbers();
  keepOverflowReadable();
  keepFileColors();
}
