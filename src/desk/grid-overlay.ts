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
import type { ConditionalCell } from "./conditional-looks";
import { sheetOf } from "./grid-data";
import { GridPictures } from "./grid-pictures";
import { drawnBar, drawnIcon, filterMark } from "./grid-marks";
import { gridStyle } from "./grid-style";
import { placeNumber } from "../sheet/place-number";

/** The ink of a number that a bar or an icon stands for: the sheet has it, and says it. */
const UNSEEN = { rgb: "rgba(0, 0, 0, 0)" };

type Decoration = Pick<ICellDataForSheetInterceptor, "interceptorStyle" | "markers" | "customRender">;

/** The corner that says a cell has a note, as spreadsheets draw it. */
const NOTE = { tr: { color: "#c0392b", size: 6 } };
/** What the grid draws on cells beside what they hold: looks under conditions, bars, corners of notes, pictures, marks of filters. */
export class GridOverlay {
  /** By workbook and by the number of a place. */
  private readonly shaded = new Map<string, ReadonlyMap<number, Decoration>>();
  private readonly noted = new Map<string, ReadonlySet<number>>();
  private readonly headings = new Map<string, ReadonlyMap<number, ICellCustomRender>>();
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
      handler: (cell, { unitId, subUnitId, row, col: column }, next) => {
        const key = placeNumber({ sheet: sheetOf(subUnitId), row, column });
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
        return place ? [placeNumber({ sheet, ...place })] : [];
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
          return [placeNumber({ sheet, row: range.firstRow, column }), filterMark(isSet, press)] as const;
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
        cells.map(({ sheet, row, column, look, bar, icon, hidesNumber }) => {
          const marks = [...(bar ? [drawnBar(bar)] : []), ...(icon ? [drawnIcon(icon)] : [])];
          const decoration: Decoration = {
            ...(Object.keys(look).length > 0 && { interceptorStyle: conditionalStyle(look) }),
            ...(hidesNumber === true && { interceptorStyle: { ...conditionalStyle(look), cl: UNSEEN } }),
            ...(marks.length > 0 && { customRender: marks }),
          };
          return [placeNumber({ sheet, row, column }), decoration];
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
