import type { ICommandInfo, IRange } from "@univerjs/core";
import type {
  IMoveRangeMutationParams,
  IRemoveNumfmtMutationParams,
  ISetNumfmtMutationParams,
  ISetRangeValuesMutationParams,
} from "@univerjs/sheets";
import {
  MoveRangeMutation,
  RemoveNumfmtMutation,
  SetNumfmtMutation,
  SetRangeValuesMutation,
} from "@univerjs/sheets";
import type { GridReading } from "./grid-reading";
import type { Work } from "./messages";

/** What one step changed. */
export type GridChange = Partial<Work>;

interface SizeParams {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly ranges?: readonly IRange[];
}

const SIZES: Readonly<Record<string, "width" | "height" | "panes">> = {
  "sheet.mutation.set-worksheet-col-width": "width",
  "sheet.mutation.set-col-hidden": "width",
  "sheet.mutation.set-col-visible": "width",
  "sheet.mutation.set-worksheet-row-height": "height",
  "sheet.mutation.set-row-hidden": "height",
  "sheet.mutation.set-row-visible": "height",
  "sheet.mutation.set-frozen": "panes",
};

/** Whether a mutation of the grid changes widths, heights, or what is hidden or frozen. */
export function changesSizes(id: string): boolean {
  return SIZES[id] !== undefined;
}

/** What a mutation of the grid changed in the file's terms, read after it; undefined for what concerns no file. */
export function gridChanges(
  command: Readonly<ICommandInfo>,
  unit: string,
  reading: GridReading,
): GridChange | undefined {
  const { unitId } = (command.params ?? {}) as { readonly unitId?: string };
  if (unitId !== unit) return undefined;
  switch (command.id) {
    case SetRangeValuesMutation.id: {
      const { subUnitId, cellValue } = command.params as ISetRangeValuesMutationParams;
      if (!cellValue) return undefined;
      return {
        edits: reading.changedCells(subUnitId, cellValue),
        looks: reading.changedLooks(subUnitId, cellValue),
      };
    }
    case MoveRangeMutation.id: {
      const { from, to } = command.params as IMoveRangeMutationParams;
      const both = [from, to];
      return {
        edits: both.flatMap(({ subUnitId, value }) => reading.changedCells(subUnitId, value)),
        looks: both.flatMap(({ subUnitId, value }) => reading.changedLooks(subUnitId, value)),
      };
    }
    case SetNumfmtMutation.id: {
      const { subUnitId, values } = command.params as ISetNumfmtMutationParams;
      const ranges = Object.values(values).flatMap((value) => value.ranges);
      return { edits: ranges.flatMap((range) => reading.formattedCells(subUnitId, range)) };
    }
    case RemoveNumfmtMutation.id: {
      const { subUnitId, ranges } = command.params as IRemoveNumfmtMutationParams;
      return { edits: ranges.flatMap((range) => reading.formattedCells(subUnitId, range)) };
    }
    default: {
      const what = SIZES[command.id];
      if (what === undefined) return undefined;
      const { subUnitId, ranges = [] } = command.params as SizeParams;
      return { layouts: [reading.layout(subUnitId, ranges, what)] };
    }
  }
}
