import type { DependencyIdentifier, Workbook } from "@univerjs/core";
import { IRenderManagerService } from "@univerjs/engine-render";
import {
  getViewportByCell,
  SheetScrollManagerService,
  SheetSkeletonManagerService,
} from "@univerjs/sheets-ui";
import type { CellRange } from "../formula/address";

/** A rectangle in the window, in pixels. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

type Service = <T>(token: DependencyIdentifier<T>) => T;

/** Where a cell of the sheet in sight is drawn; undefined where it is scrolled out of sight or hidden. */
export function cellBox(workbook: Workbook, service: Service, row: number, column: number): Box | undefined {
  const render = service(IRenderManagerService).getRenderById(workbook.getUnitId());
  const sheet = workbook.getActiveSheet();
  const skeleton = render?.with(SheetSkeletonManagerService).getCurrentSkeleton();
  const viewport = render && getViewportByCell(row, column, render.scene, sheet);
  if (!render || !skeleton || !viewport) return undefined;
  const cell = skeleton.getCellWithCoordByIndex(row, column);
  const { startX, startY, endX, endY } = cell.isMerged || cell.isMergedMainCell ? cell.mergeInfo : cell;
  const { scaleX, scaleY } = render.scene.getAncestorScale();
  const canvas = render.engine.getCanvasElement().getBoundingClientRect();
  const [x, y] = [viewport.viewportScrollX, viewport.viewportScrollY];
  const box = {
    left: canvas.left + (startX - x) * scaleX,
    top: canvas.top + (startY - y) * scaleY,
    width: (endX - startX) * scaleX,
    height: (endY - startY) * scaleY,
  };
  const isAhead = (startX - x) * scaleX < viewport.left - 1 || (startY - y) * scaleY < viewport.top - 1;
  const isBeyond = box.left >= canvas.right || box.top >= canvas.bottom;
  return isAhead || isBeyond || box.width <= 0 || box.height <= 0 ? undefined : box;
}

/** The cells of the sheet in sight that are drawn; frozen panes show several ranges. */
export function drawnRanges(workbook: Workbook, service: Service): readonly CellRange[] {
  const render = service(IRenderManagerService).getRenderById(workbook.getUnitId());
  const ranges = render?.with(SheetSkeletonManagerService).getCurrentSkeleton()?.getVisibleRanges();
  return [...(ranges?.values() ?? [])].map(({ startRow, startColumn, endRow, endColumn }) => ({
    firstRow: startRow,
    firstColumn: startColumn,
    lastRow: endRow,
    lastColumn: endColumn,
  }));
}

/** Calls back whenever cells of a workbook come to stand elsewhere in the window. */
export function listenForScroll(workbook: Workbook, service: Service, moved: () => void): void {
  const render = service(IRenderManagerService).getRenderById(workbook.getUnitId());
  render?.with(SheetScrollManagerService).validViewportScrollInfo$.subscribe(() => {
    // The canvas is drawn in the next frame.
    requestAnimationFrame(moved);
  });
  render?.engine.onTransformChange$.subscribeEvent(() => {
    requestAnimationFrame(moved);
  });
}
