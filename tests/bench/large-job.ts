/** Ranges of a large job as a worksheet sends them: 60 parts, 40 colours, 600 price rows from four suppliers. */
export function largeJob(seed: number): readonly (readonly (readonly (string | number | null)[])[])[] {
  const sizes = [5, 11, 12, 16, 18] as const;
  const colours = Array.from({ length: 40 }, (_, index) => `Colour ${index + 1}`);
  const pieces = Array.from({ length: 60 }, (_, index) => [
    `Piece ${index % 30}`,
    (["count", "column", "garland", "bouquet"] as const)[index % 4] ?? "count",
    sizes[index % sizes.length] ?? 11,
    index % 4 === 1 ? null : 20 + ((index * 7 + seed) % 90),
    2,
    3,
    `Palette ${index % 8}`,
    0.03 + (index % 3) * 0.02,
    index % 4 === 3 ? 1.5 : null,
  ]);
  const palettes = Array.from({ length: 8 }, (_, palette) =>
    colours
      .filter((__, index) => (index + palette) % 4 === 0)
      .map((colour, index) => [`Palette ${palette}`, colour, 1 + (index % 3)]),
  ).flat();
  const prices = colours.flatMap((colour, index) =>
    sizes.flatMap((size) =>
      ["Town", "Depot", "Harbour"].map((supplier, place) => [
        supplier,
        size,
        colour,
        [50, 100, 25][place] ?? 50,
        Math.round((8 + place * 7 + size * 0.4 + (index % 5) * 0.3) * 100) / 100,
      ]),
    ),
  );
  return [
    [["name", "kind", "printed", "balloons", "height", "length", "palette", "breakage", "ribbon"], ...pieces],
    [["palette", "colour", "share"], ...palettes],
    [["supplier", "printed", "colour", "bag", "price"], ...prices],
    [
      ["supplier", "charge", "free from"],
      ["Depot", 7.9, 200],
      ["Town", 5, 150],
      ["Harbour", 9.9, 400],
    ],
    [
      ["item", "per", "for", "pack", "price", "returns"],
      ["pole", "piece", "column", null, 1.5, "yes"],
      ["ties", "cluster", null, 100, 2.5, null],
      ["ribbon", "ribbon metre", null, 100, 4, null],
      ["cylinder", "helium litre", null, 3498.77, 95, "yes"],
    ],
    [
      ["term", "value"],
      ["pay", 19],
      ["crew", 3],
      ["margin", 0.45],
      ["travel", 30],
      ["distance", 20],
      ["per km", 0.45],
    ],
  ];
}
