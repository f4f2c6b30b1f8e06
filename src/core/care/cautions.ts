import { invalid } from "../calc-error";

/** Words that `CAUTIONS` takes, beside `all`. */
export const CAUTION_TOPICS = [
  "helium",
  "cylinders",
  "latex",
  "children",
  "foil",
  "outdoor",
  "ladder",
  "release",
  "exits",
  "heat",
] as const;

/** One topic of `CAUTIONS`. */
export type CautionTopic = (typeof CAUTION_TOPICS)[number];

/** One danger in plain words. `source` names a publication only where its text was read. */
export interface Caution {
  readonly topic: CautionTopic;
  readonly whatCanHappen: string;
  readonly whatToDo: string;
  readonly source?: string;
}

/** What closes every caution: none of this replaces the rules of the place or a qualified person. */
const DEFER = "Local codes, the venue's rules and licensed practice come first.";

const caution = (topic: CautionTopic, whatCanHappen: string, whatToDo: string, source?: string): Caution => {
  const row = { topic, whatCanHappen, whatToDo: `${whatToDo} ${DEFER}` };
  return source === undefined ? row : { ...row, source };
};

const CAUTIONS: readonly Caution[] = [
  caution(
    "helium",
    "Helium pushes the air out of the lungs. A person who breathes it can pass out within seconds, " +
      "without warning, and die.",
    "Never breathe helium, not even for a joke, and never let guests or children near the filling " +
      "station. If somebody collapses, get them into fresh air and call the emergency number.",
  ),
  caution(
    "helium",
    "Gas straight from a cylinder or inflator comes with a force that tears lungs and drives bubbles " +
      "into the blood.",
    "Keep mouths away from valve, hose and nozzle. Lock or remove the inflator whenever nobody stands " +
      "beside it.",
  ),
  caution(
    "helium",
    "A leak in a small or closed room thins the oxygen, first under the ceiling. Nobody can see or smell it.",
    "Fill where air moves: open doors and windows, run the ventilation. Leave at once if the room could " +
      "fall under 19.5 % oxygen, and do not climb a ladder into the gas. OXYGEN_PERCENT estimates the " +
      "worst case, it does not measure.",
    "29 CFR 1910.134(d)(2)(iii): an atmosphere under 19.5 % oxygen counts as oxygen-deficient (OSHA " +
      "letter of 2 April 2007)",
  ),
  caution(
    "cylinders",
    "A cylinder that falls can break its valve off and shoot through walls and people.",
    "Chain or strap it upright to something that holds, cap on until it stands, move it on a cylinder " +
      "trolley, never by rolling, dragging or lifting by the cap.",
    "29 CFR 1910.101(b), which points to CGA P-1 for handling in the workplace (OSHA letter of 5 June 1992)",
  ),
  caution(
    "cylinders",
    "In a car or van a leaking cylinder can make the driver pass out, and in a crash a loose one becomes " +
      "a projectile.",
    "Let the gas supplier deliver where you can. Otherwise: valve closed, inflator off, cap on, strapped " +
      "so that it cannot move, load space ventilated and apart from the people, out of the vehicle as " +
      "soon as you arrive, never left in it overnight or in the sun. Rules for carrying dangerous goods " +
      "may apply.",
  ),
  caution(
    "cylinders",
    "Heat raises the pressure in a cylinder until its safety device lets the gas go.",
    "Keep cylinders out of the sun and away from heaters, kitchens and flames. Use only the supplier's " +
      "regulator and fittings, and never refill or transfer gas yourself.",
  ),
  caution(
    "latex",
    "Balloons of natural rubber can set off an allergy, from itching to asthma and, rarely, shock, also " +
      "through powder in the air of a room.",
    "Ask the client about latex allergy before you quote. Where anybody is at risk, and in hospitals and " +
      "schools that ask for it, use foil or other materials. Wash hands after work; see a doctor about " +
      "rashes or wheezing.",
    "NIOSH publication 97-135, on natural rubber latex in the workplace",
  ),
  caution(
    "children",
    "Uninflated balloons and pieces of popped ones can block a child's airway. Children under eight are " +
      "most at risk, and it can be over in minutes.",
    "Keep uninflated balloons, scraps, valves and ribbon ends away from children. Pick up every popped " +
      "piece at once. An adult watches wherever children and balloons are together; keep balloons out of " +
      "mouths.",
    "16 CFR 1500.19 and the Child Safety Protection Act of 1994 (Federal Register of 1 July 1994) on " +
      "warnings for balloons",
  ),
  caution(
    "children",
    "Ribbon and line can wind round a neck or a finger; a small child can be tugged off balance by a " +
      "large bouquet.",
    "No balloons or ribbon on cots, beds, prams or wrists of small children. Cut ribbon short or keep it " +
      "above their reach.",
  ),
  caution(
    "foil",
    "Foil balloons and metallic ribbon carry electricity. On a power line they can cause a flash, a fire " +
      "and a blackout.",
    "Weight every foil balloon, each on its own line that does not conduct, never tied foil to foil " +
      "outdoors, and never near overhead lines. Do not try to fetch one from a line or a substation: " +
      "keep everybody away and call the power company.",
    "California Penal Code 653.1 as of 2016, an example of a law on conductive balloons; others differ",
  ),
  caution(
    "foil",
    "Foil does not stretch: it bursts at the seam when it warms up and sags when it cools down.",
    "Fill foil a little less than taut for a warm place, and let it out before you carry it into the sun.",
  ),
  caution(
    "outdoor",
    "Wind pulls far harder than helium lifts, and twice the wind pulls four times as hard. A falling " +
      "arch or column can hurt people.",
    "Plan for the gust in the forecast, not the average. Weight every base (ANCHOR_KILOGRAMS is an " +
      "estimate), keep people a full height away from tall pieces, watch them while they stand and take " +
      "them down before the gust comes.",
  ),
  caution(
    "outdoor",
    "Tall pieces, poles and long lines of balloons reach power lines, and thunderstorms reach them.",
    "Look up before you build. Stay well clear of overhead lines, more than the piece could reach if it " +
      "fell or tore loose. Stop at the first thunder.",
  ),
  caution(
    "outdoor",
    "Stakes and drills can hit cables and pipes in the ground; weights on a slope slide.",
    "Ask the venue before you drive anything into the ground. Set weights on level, rough ground and tie " +
      "them together.",
  ),
  caution(
    "ladder",
    "A fall of two metres can kill. Carrying balloons blocks the view of the rungs and leaves no hand " +
      "for the ladder.",
    "Use a sound ladder on level ground with a second person, hand the balloons up, keep three points on " +
      "the ladder and do not stand on its top or top step. For longer work at height use a platform or a " +
      "trained rigger.",
    "29 CFR 1926.1053(b)(13) on the top of a stepladder",
  ),
  caution(
    "ladder",
    "What hangs overhead can come down on guests.",
    "Hang only from points that the venue names and rates. Use a second line on frames and nets, and " +
      "clear the floor while you rig or strike.",
  ),
  caution(
    "release",
    "Balloons let go come down as litter that animals swallow, and reach power lines and aircraft. Many " +
      "places forbid it and fine for it.",
    "Do not release balloons outdoors. Weight everything that floats, pop and bin it after the event, " +
      "and offer the client something else: a drop from a net indoors, bubbles, flags.",
    "Hawaii Revised Statutes 339-12, an example of a law that forbids releases; others differ",
  ),
  caution(
    "exits",
    "In a fire or a panic people need every door, sign and aisle that a decoration covers or narrows.",
    "Keep exits, their signs, aisles and stairs completely free, and ask the venue for the plan before " +
      "you place anything. Ask for its rules on flammable decorations; keep balloons away from candles, " +
      "lamps and pyrotechnics.",
    "29 CFR 1910.37(a)(3) on exit routes",
  ),
  caution(
    "exits",
    "Balloons under sprinklers, smoke detectors or air vents can stop them from working, or set off an " +
      "alarm.",
    "Leave at least 18 in (46 cm) free under every sprinkler and keep detectors, alarms, hoses and " +
      "extinguishers clear. Tether ceiling balloons where there are beams that detect smoke by light: a " +
      "loose balloon sets them off.",
    "29 CFR 1910.159(c)(10) on the space under sprinklers (OSHA letter of 29 September 2008)",
  ),
  caution(
    "heat",
    "Sun and hot lamps expand the gas and weaken the rubber: balloons pop, startle people and scatter " +
      "pieces. Hot cars do the same.",
    "Fill less for sun and heat (INFLATE_INCHES), choose light colours and shade, keep clear of lamps " +
      "and heaters, and pick up the pieces.",
  ),
  caution(
    "heat",
    "Crews who build in heat tire, faint and fall.",
    "Plan shade, water and breaks, start early, and never let anyone build alone.",
  ),
];

/**
 * CAUTIONS: what can go wrong and what to do, for one topic or all.
 * Source: the publication beside a row where its text was read, otherwise common practice.
 *
 * @param topic a word of `CAUTION_TOPICS` or `all`, any case
 * @returns one row or more, in a fixed order
 * @throws `#VALUE!` for another word
 */
export function cautionsAbout(topic: string): readonly Caution[] {
  const word = topic.trim().toLowerCase();
  const rows = word === "all" ? CAUTIONS : CAUTIONS.filter((row) => row.topic === word);
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
