import { invalid } from "../calc-error";
import { CAUTION_ROWS, CAUTION_TOPICS, type Caution, type CautionTopic } from "./caution-rows";

/**
 * CAUTIONS: what can go wrong and what to do, for one topic or all.
 * Source: the publication beside a row, read or marked from memory, otherwise common practice.
 *
 * @param topic a word of `CAUTION_TOPICS` or `all`, any case
 * @returns one row or more, in a fixed order
 * @throws `#VALUE!` for another word
 */
export function cautionsAbout(topic: string): readonly Caution[] {
  const word = topic.trim().toLowerCase();
  const rows = word === "all" ? CAUTION_ROWS : CAUTION_ROWS.filter((row) => row.topic === word);
  if (rows.length === 0) throw invalid("topic", `be one of all, ${CAUTION_TOPICS.join(", ")}`, topic);
  return rows;
}

const LINES: Readonly<Record<CautionTopic | "tether" | "wind" | "anchor" | "oxygen", string>> = {
  helium: "Never breathe helium: it can kill within seconds. Fill where air moves",
  cylinders: "Strap cylinders upright, keep them cool, never leave them in a closed vehicle",
  latex: "Ask about latex allergy before you quote",
  children: "Keep uninflated and popped balloons away from children: they choke",
  foil: "Weight every foil balloon and keep it away from power lines",
  outdoor: "Plan for gusts, watch the piece, stay away from power lines",
  ladder: "Work at height with sound gear, a second person and both hands free",
  release: "Do not release balloons outdoors",
  exits: "Keep exits, signs, sprinklers and detectors clear",
  heat: "Heat pops balloons: fill less and pick up the pieces",
  bursting: "Protect eyes and ears when large balloons are filled or popped",
  electric: "Use a residual-current device outdoors, and no generator near people",
  sprays: "Air the room, no flames, and wipe the floor after spraying or gluing",
  lifting: "Use a trolley, share loads and keep weights small",
  driving: "Keep mirrors and windows free and strap what is heavy",
  net: "Keep the floor under a drop clear and helpers beside children",
  animals: "Keep balloons, scraps and ribbon away from animals",
  tether: "An estimate: wind needs far more weight than lift does, so test by hand and watch",
  wind: "An estimate, not a structural design: take pieces down before the gust comes",
  anchor: "An estimate, not a structural design: have tall or public pieces checked by a qualified person",
  oxygen: "An estimate, not a measurement: never enter a room that could be short of oxygen",
};

/**
 * One short line for the help of a function whose result somebody can get hurt by.
 * Source: a summary of `cautionsAbout`.
 *
 * @param topic a caution topic, or the quantity that the function computes
 * @returns one sentence without full stop, which defers to local codes and licensed practice
 */
export function cautionLine(topic: keyof typeof LINES): string {
  return `${LINES[topic]}; local codes and licensed practice come first`;
}
