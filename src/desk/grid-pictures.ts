import type { DependencyIdentifier, Workbook } from "@univerjs/core";
import { DRAWING_OBJECT_LAYER_INDEX, Image, IRenderManagerService } from "@univerjs/engine-render";
import { SheetSkeletonManagerService } from "@univerjs/sheets-ui";
import type { WorkbookModel } from "../workbook/model";
import type { PictureCorner, SheetPicture } from "../workbook/pictures";
import { sheetOf } from "./grid-data";

/** A workbook's pictures as the grid draws them. */
interface Hung {
  readonly model: WorkbookModel;
  /** Addresses of the pictures' bytes within the page. */
  readonly urls: Map<SheetPicture, string>;
  shown: readonly Image[];
}

/** The pictures that lie on the sheets. They are looked at and not moved. */
export class GridPictures {
  private readonly hung = new Map<string, Hung>();

  constructor(private readonly service: <T>(token: DependencyIdentifier<T>) => T) {}

  open(unit: string, model: WorkbookModel): void {
    if (model.features?.some((sheet) => sheet && sheet.pictures.length > 0))
      this.hung.set(unit, { model, urls: new Map(), shown: [] });
  }

  /** Hangs the pictures of the sheet in sight where its rows and columns are now. */
  place(workbook: Workbook): void {
    const hung = this.hung.get(workbook.getUnitId());
    const render = this.service(IRenderManagerService).getRenderById(workbook.getUnitId());
    const skeleton = render?.with(SheetSkeletonManagerService).getCurrentSkeleton();
    if (!hung || !render || !skeleton) return;
    for (const image of hung.shown) image.dispose();
    const sheet = sheetOf(workbook.getActiveSheet().getSheetId());
    const point = ({ row, column, right, down }: PictureCorner): readonly [x: number, y: number] => {
      const { startX, startY, endX, endY } = skeleton.getNoMergeCellWithCoordByIndex(row, column);
      return [Math.min(startX + right, endX), Math.min(startY + down, endY)];
    };
    hung.shown = (hung.model.features?.[sheet]?.pictures ?? []).map((picture, index) => {
      const url = hung.urls.get(picture) ?? URL.createObjectURL(blobOf(picture));
      hung.urls.set(picture, url);
      const [left, top] = point(picture.from);
      const { to } = picture;
      const [right, bottom] = "row" in to ? point(to) : [left + to.width, top + to.height];
      const size = { left, top, width: Math.max(1, right - left), height: Math.max(1, bottom - top) };
      const image = new Image(`picture-${String(index)}`, {
        url,
        ...size,
        evented: false,
        success: () => {
          image.makeDirty(true);
        },
      });
      render.scene.addObject(image, DRAWING_OBJECT_LAYER_INDEX);
      return image;
    });
    render.scene.makeDirty(true);
  }

  forget(unit: string): void {
    for (const url of this.hung.get(unit)?.urls.values() ?? []) URL.revokeObjectURL(url);
    this.hung.delete(unit);
  }
}

function blobOf({ bytes, type }: SheetPicture): Blob {
  return new Blob([bytes as Uint8Array<ArrayBuffer>], { type });
}
