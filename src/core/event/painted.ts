import type { Placement } from "../geometry/drawing";
import type { GroupedPlacement } from "../geometry/loose-drawing";
import { entryAt } from "../numeric/entry-at";
import { PER_CLUSTER } from "../practice";
import { mixedColours, patternColours } from "./mixed-colours";
import type { PlacedRow } from "./part-places";
import type { PlannedPart } from "./plan-parts";

/** A balloon of a piece, m; its colour as the tables name it, empty where it is not known. */
export interface DrawnBall extends Placement {
  readonly colour: string;
  readonly isFoil: boolean;
}

/** A row of pieces that is drawn. */
export interface PaintedRow extends PlacedRow {
  readonly planned: PlannedPart;
}

/**
 * Places in the colours of their rows, clusters by their pattern where it is whole, others mixed.
 *
 * @param places of one drawing; where there are several rows each says which one it is of
 * @param rows whose balloons they are, as many of each as its places
 * @returns balloons row by row, each colour as often as counted
 */
export function painted(
  places: readonly (Placement | GroupedPlacement)[],
  rows: readonly PaintedRow[],
): readonly DrawnBall[] {
  const byRow = rows.map((): Placement[] => []);
  for (const place of places) byRow["group" in place ? place.group : 0]?.push(place);
  return byRow.flatMap((own, index) => {
    const row = entryAt(rows, index);
    const { part, colours } = row.planned;
    const seen = colours.colours.filter((colour) => colour.places > 0);
    const counts = seen.map((colour) => colour.places);
    const perCluster = part.cells["per cluster"] ?? PER_CLUSTER.value;
    const pattern = part.clusters === 0 ? undefined : patternColours(own.length / perCluster, counts);
    const labels = seen.length === 0 ? [] : (pattern ?? mixedColours(own, counts));
    return own.map(({ x, y, z, radius, row: inRow }, at): DrawnBall => {
      const colour = labels.length === 0 ? "" : entryAt(seen, entryAt(labels, at)).colour;
      return { x, y, z, radius, row: inRow, colour, isFoil: part.type === "foil" };
    });
  });
}
