import { attempt } from "../attempt";
import { coloursOf, palettesOf, type PartColours } from "./colours";
import type { Job } from "./job";
import type { Problem } from "../problem";
import type { Part, Piece } from "./part";
import { partHelium } from "./part-gas";
import { partRibbon } from "./part-ribbon";
import { pieceOf } from "./parts";
import { pieceRowsOf } from "./piece-rows";
import type { EventScope, Scenario, JobScope } from "./scope";
import type { Known } from "../withheld";
import type { WorkTable } from "./work-table";

/** A part with what follows from its count. Lengths in m, volumes in m3. */
export interface PlannedPart {
  readonly part: Part;
  readonly colours: PartColours;
  /** For all pieces. */
  readonly helium: Known;
  readonly ribbon: Known;
}

/** A piece of a scenario. */
export interface PlannedPiece {
  readonly piece: Piece;
  readonly event: EventScope;
  readonly parts: readonly PlannedPart[];
  /** Problems of its rows and of their colours. */
  readonly problems: readonly Problem[];
}

/**
 * Counts and colours every piece that is built when each event has one option in force.
 *
 * @param job the tables
 * @param scope events and rows
 * @param inForce option of each event
 * @param work the decorator's own minutes
 * @returns pieces by event
 */
export function plannedPieces(
  job: Job,
  scope: JobScope,
  inForce: Scenario["inForce"],
  work: WorkTable,
): readonly PlannedPiece[] {
  const palettes = palettesOf(job);
  return pieceRowsOf(scope, inForce).map((rows) => {
    const piece = pieceOf(rows, work);
    const parts = piece.parts.map((part): PlannedPart => {
      const { terms } = rows.event;
      return {
        part,
        colours: coloursOf(part, palettes),
        helium: attempt(() => partHelium(part, terms), part.place),
        ribbon: attempt(() => (part.quantity === 0 ? 0 : partRibbon(part)), part.place),
      };
    });
    const colouring = parts.flatMap(({ colours }) => colours.problems);
    return {
      piece,
      event: rows.event,
      parts,
      problems: [...piece.problems, ...colouring],
    };
  });
}
