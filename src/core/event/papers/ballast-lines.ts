import { isWithheld, whenKnown } from "../../withheld";
import type { Piece } from "../part";
import { pieceBallast, pieceFeet } from "../standing";
import { termOf, type Terms } from "../terms";
import { paperLine, type PaperRow } from "./paper";

const upToTenths = (kg: number): number => Math.ceil(kg * 10) / 10;

/**
 * Ballast of one piece that stands outdoors, with the gust that it holds against.
 *
 * @param section heading that it stands under
 * @param piece counted
 * @param terms gust
 * @param name what comes before the words, such as the piece's name
 * @returns a line, or none for a piece that needs no ballast; `stop` in its status where it cannot be known
 */
export function ballastLines(section: string, piece: Piece, terms: Terms, name = ""): readonly PaperRow[] {
  const kg = pieceBallast(piece, terms);
  if (kg === undefined) return [];
  const feet = pieceFeet(piece);
  const where = feet === 1 ? "in the foot of one" : "of one, in both feet together";
  const gust = termOf(terms, "gust");
  const each = feet === 1 || isWithheld(kg) ? "" : `${upToTenths(kg / feet)} kg in each foot`;
  const wind = gust === undefined ? "" : `for gusts of ${Number(gust.toFixed(1))} m/s`;
  const note = [each, wind, "an estimate"].filter((text) => text !== "").join(", ");
  const row = paperLine(section, `${name}ballast ${where}`, whenKnown([kg], upToTenths), "kg", note);
  return [{ ...row, status: isWithheld(kg) ? `stop: ${kg.sentence}` : row.status }];
}
