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
  "bursting",
  "electric",
  "sprays",
  "lifting",
  "driving",
  "net",
  "animals",
] as const;

/** One topic of `CAUTIONS`. */
export type CautionTopic = (typeof CAUTION_TOPICS)[number];

/** One danger in plain words. `source` names a publication: its text was read, unless it says from memory. */
export interface Caution {
  readonly topic: CautionTopic;
  readonly whatCanHappen: string;
  readonly whatToDo: string;
  readonly source?: string;
}

/** What closes every caution: none of this replaces the rules of the place or a qualified person. */
export const DEFER = "Local codes, the venue's rules and licensed practice come first.";

const caution = (topic: CautionTopic, whatCanHappen: string, whatToDo: string, source?: string): Caution => {
  const row = { topic, whatCanHappen, whatToDo: `${whatToDo} ${DEFER}` };
  return source === undefined ? row : { ...row, source };
};

/** The rows of `CAUTIONS`, by topic in the order of `CAUTION_TOPICS`. */
export const CAUTION_ROWS: readonly Caution[] = [
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
    "helium",
    "Hydrogen and other gases that burn lift as well and cost less. One spark, cigarette or candle, or rubbing alone, " +
      "sets a whole bouquet on fire in people's faces.",
    "Fill with helium or air, never with hydrogen or another gas that burns, whatever is offered. Read the label and " +
      "the colour of every cylinder, and send back what is not marked as helium.",
    "Regulation (EC) 1272/2008: hydrogen is classed as an extremely flammable gas, from memory",
  ),
  caution(
    "helium",
    "Whoever runs in to help somebody who collapsed in a closed room falls beside them: the air that felled the first " +
      "fells the second.",
    "Do not become the second victim. Shout, call the emergency number, open doors and windows from outside and shut " +
      "the valve if you can reach it without going in. Go in only once the room has been aired, and not alone.",
    "29 CFR 1910.146 on rescue from spaces without enough oxygen, from memory",
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
    "cylinders",
    "A lift that stops with a leaking cylinder is a closed box without enough air.",
    "Nobody rides in a lift with a cylinder. Send it alone with a sign on it, keep people off at every floor, and meet " +
      "it at the top; or use the stairs with two people and a small cylinder.",
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
    "children",
    "Small lights inside balloons run on button cells. A swallowed one burns through a child's gullet within two hours.",
    "Use lights whose battery lid needs a tool, count them out and back in, and keep them and spare cells away from " +
      "children. If one may have been swallowed, go to a hospital at once, without waiting for signs.",
    "16 CFR 1263 on products with button cells, as proposed in the Federal Register of 9 February 2023",
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
    "foil",
    "Driven uphill or over a pass, full foil balloons burst: a thousand metres up the air presses a tenth less.",
    "Fill foil on site where the venue lies higher, or leave it slack: INFLATE_INCHES shows how much a balloon grows " +
      "between two altitudes.",
    "ISO 2533: 898.7 hPa at 1000 m, 1013.25 hPa at sea level",
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
  caution(
    "bursting",
    "A large balloon that bursts throws rubber at faces and is as loud as a shot beside the ear.",
    "Wear eye protection when you fill balloons above 24 in, and ear protection where many are filled or popped. Keep " +
      "faces away from the neck, warn people before you pop anything, and let air out of large balloons instead.",
    "29 CFR 1910.95: 140 dB peak as the limit for impact noise, from memory",
  ),
  caution(
    "electric",
    "Inflators, cables and generators in rain, wet grass or puddles give shocks that kill.",
    "Outdoors use a residual-current device (ground-fault interrupter), cables and plugs made for outdoors, off the wet " +
      "ground and without damage. Cover cables where people walk, and stop when it rains on the equipment.",
    "29 CFR 1910.304(b)(3)(ii) and 1926.404(b)(1) on ground-fault protection of temporary wiring and extension cords " +
      "(OSHA letter of 18 April 1991)",
  ),
  caution(
    "electric",
    "A generator's exhaust kills without smell, in a tent, a garage or beside an open door.",
    "Run generators outdoors only, well away from tents, doors and air intakes, downwind of people, and let them cool " +
      "before you fill in fuel.",
    "OSHA fact sheet on portable generators and carbon monoxide, from memory",
  ),
  caution(
    "sprays",
    "Spray shine hangs in the air, burns like any aerosol, and makes the floor under it as slippery as ice.",
    "Spray outdoors or with windows open, away from flames, hot lamps and running inflators, over a sheet that you take " +
      "away with you. Wipe the floor before anybody walks there, and follow the can's label.",
  ),
  caution(
    "sprays",
    "Rubber cement, spray glue and hot glue give off fumes or burn, and many of them eat into latex until it bursts.",
    "Work where air moves, without flames or cigarettes, in gloves; keep lids on; try every adhesive on one balloon " +
      "first. Glue that holds natural rubber can set off a latex allergy too.",
    "29 CFR 1910.106 on flammable liquids, from memory",
  ),
  caution(
    "lifting",
    "Cylinders and sandbags hurt backs, feet and fingers, most of all when they are set down or lifted over a tailgate.",
    "Use a trolley and a ramp, fill sandbags half (several small weights instead of one), and share loads of more than " +
      "20 kg. Wear closed shoes, bend the knees, and do not twist under the load.",
    "NIOSH lifting recommendation: 51 lb (23 kg) at most, in the best posture only (as OSHA gives it)",
  ),
  caution(
    "driving",
    "Inflated pieces block mirrors and windows, drift over the driver in the first bend, and pop behind his ear.",
    "Keep balloons behind a net or partition, mirrors and every window free, doors shut on the whole load. Strap " +
      "frames, poles and weights: they fly first. Mark what stands out behind, and never drive with a door held open.",
    "49 CFR 392.9: a load must not block the driver's view, from memory",
  ),
  caution(
    "net",
    "Under a drop people rush, look up and fall over each other, children first; a net that hangs up makes them wait " +
      "under it.",
    "Drop over a floor that the venue has agreed to, with room and ways out round it, nobody on steps or with glasses, " +
      "and helpers beside small children. Only air in the balloons, no prizes worth a fight, and a second pull line.",
  ),
  caution(
    "animals",
    "Dogs, cats, horses and farm animals swallow scraps and ribbon and choke; a bang can make a horse bolt.",
    "Ask for animals at the venue. Keep balloons out of reach of pets and away from horses and stock, and pick up " +
      "every scrap and ribbon end, on grass too.",
  ),
];
