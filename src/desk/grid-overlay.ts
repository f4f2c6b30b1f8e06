import type {
  DependencyIdentifier,
  ICellDataForSheetInterceptor,
  ICellCustomRender,
  Workbook,
} from "@univerjs/core";
import { InterceptorEffectEnum } from "@univerjs/core";
import { IRenderManagerService } from "@univerjs/engine-render";
import { INTERCEPTOR_POINT, SheetInterceptorService } from "@univerjs/sheets";
import { SheetSkeletonManagerService } from "@univerjs/sheets-ui";
import { parseCell } from "../formula/address";
import type { WorkbookModel } from "../workbook/model";
import type { CellBar, ConditionalCell } from "./conditional-looks";
import { sheetId } from "./grid-data";
import { GridPictures } from "./grid-pictures";
import { gridStyle } from "./grid-style";

type Decoration = Pick<ICellDataForSheetInterceptor, "interceptorStyle" | "markers" | "customRender">;

/** The corner that says a cell has a note, as spreadsheets draw it. */
const NOTE = { tr: { color: "#c0392b", size: 6 } };
/** Pixels along the edge of the mark of a filter. */
const MARK = 15;
/** How much of the cell shows through a bar, which is drawn over its number. */
const BAR_INK = 0.45;

function keyOf(subUnitId: string, row: number, column: number): string {
  return `${subUnitId}/${String(row)}/${String(column)}`;
}

function drawnBar({ share, color }: CellBar): ICellCustomRender {
  return {
    drawWith(ctx, { primaryWithCoord: { startX, startY, endX, endY } }) {
      ctx.save();
      ctx.globalAlpha = BAR_INK;
      ctx.fillStyle = color;
      ctx.fillRect(startX + 1, startY + 2, (endX - startX - 2) * share, endY - startY - 4);
      ctx.restore();
    },
  };
}

/** The mark of a filter in a heading: an arrow, and a full one in the accent where the column filters. */
function filterMark(isSet: boolean, press: () => void): ICellCustomRender {
  return {
    drawWith(ctx, { primaryWithCoord: { endX, endY } }) {
      const [x, y] = [endX - MARK, endY - MARK - 1];
      ctx.save();
      ctx.fillStyle = isSet ? "#2b5f75" : "#ffffff";
      ctx.strokeStyle = "#8c8476";
      ctx.beginPath();
      ctx.rect(x, y, MARK - 2, MARK - 2);
      ctx.fill();
      ctx.stroke();
      ctx.fillStyle = isSet ? "#ffffff" : "#2c2822";
      ctx.beginPath();
      ctx.moveTo(x + 3, y + 5);
      ctx.lineTo(x + MARK - 5, y + 5);
      ctx.lineTo(x + MARK / 2 - 1, y + MARK - 5);
      ctx.fill();
      ctx.restore();
    },
    isHit: ({ x, y }, { primaryWithCoord: { endX, endY } }) => x > endX - MARK - 2 && y > endY - MARK - 3,
    onPointerDown: press,
  };
}

/** What the grid draws on cells beside what they hold: looks under conditions, bars, corners of notes, pictures, marks of filters. */
export class GridOverlay {
  private readonly shaded = new Map<string, ReadonlyMap<string, Decoration>>();
  private readonly noted = new Map<string, ReadonlySet<string>>();

  private readonly headings = new Map<string, ReadonlyMap<string, ICellCustomRender>>();
  private readonly pictures: GridPictures;

  /** `filter` is called when the mark in a heading is pressed. */
  constructor(
    private readonly service: <T>(token: DependencyIdentifier<T>) => T,
    private readonly filter: () => void,
  ) {
    this.pictures = new GridPictures(service);
  }

  /** Begins to draw; once the grid has its services. */
  listen(): void {
    this.service(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
      effect: InterceptorEffectEnum.Style,
      handler: (cell, { unitId, subUnitId, row, col }, next) => {
        const key = keyOf(subUnitId, row, col);
        const look = this.shaded.get(unitId)?.get(key);
        const isNoted = this.noted.get(unitId)?.has(key) === true;
        const mark = this.headings.get(unitId)?.get(key);
        if (!look && !isNoted && !mark) return next(cell);
        const customRender = [...(look?.customRender ?? []), ...(mark ? [mark] : [])];
        return next({ ...cell, ...look, ...(isNoted && { markers: NOTE }), customRender });
      },
    });
  }

  /** Takes up a workbook's notes and pictures. */
  open(unit: string, model: WorkbookModel): void {
    this.pictures.open(unit, model);
    const noted = model.sheets.flatMap(({ notes }, sheet) =>
      [...notes.keys()].flatMap((address) => {
        const place = parseCell(address);
        return place ? [keyOf(sheetId(sheet), place.row, place.column)] : [];
      }),
    );
    this.noted.set(unit, new Set(noted));
    const press = (): void => {
      // The press selects the heading first.
      setTimeout(this.filter);
    };
    const headings = model.sheets.flatMap((_, sheet) =>
      (model.features?.[sheet]?.filters ?? []).flatMap(({ range, columns }) =>
        Array.from({ length: range.lastColumn - range.firstColumn + 1 }, (_column, across) => {
          const column = range.firstColumn + across;
          const isSet = columns.some((filter) => filter.column === column);
          return [keyOf(sheetId(sheet), range.firstRow, column), filterMark(isSet, press)] as const;
        }),
      ),
    );
    this.headings.set(unit, new Map(headings));
  }

  /** Draws looks under conditions, in place of all that were drawn before. */
  shade(unit: string, cells: readonly ConditionalCell[]): void {
    this.shaded.set(
      unit,
      new Map(
        cells.map(({ sheet, row, column, look, bar }) => {
          const decoration: Decoration = {
            ...(Object.keys(look).length > 0 && { interceptorStyle: conditionalStyle(look) }),
            ...(bar && { customRender: [drawnBar(bar)] }),
          };
          return [keyOf(sheetId(sheet), row, column), decoration];
        }),
      ),
    );
    const render = this.service(IRenderManagerService).getRenderById(unit);
    render?.with(SheetSkeletonManagerService).reCalculate();
    render?.mainComponent?.makeDirty();
  }

  /** Puts pictures where rows and columns are now. */
  place(workbook: Workbook): void {
    this.pictures.place(workbook);
  }

  forget(unit: string): void {
    this.pictures.forget(unit);
    this.shaded.delete(unit);
    this.noted.delete(unit);
    this.headings.delete(unit);
  }
}

/** Only what the condition says: the rest of the look stays the cell's own. */
function conditionalStyle(look: ConditionalCell["look"]): ReturnType<typeof gridStyle> {
  const style = gridStyle({ numberFormat: "General", ...look });
  delete style.vt;
  delete style.pd;
  return style;
}
