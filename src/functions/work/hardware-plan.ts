import { hardwarePlan } from "../../core/work/hardware";
import { countedPieces } from "../../core/palette/event-needs";
import { wholeRows } from "../../core/stock/doubtful";
import { define } from "../define";
import { pieceRows, pieces } from "../event-tables";

export const hardwareItems = define({
  name: "HARDWARE_PLAN",
  category: "Work and transport",
  replacedBy: "GOODS_PLAN",
  text: "Poles, bases, line and fixings for all pieces, rounded up to what is sold.",
  asks: ["poles and bases", "framework list", "fixings to pack", "hardware for the event"],
  params: [
    pieces,
    {
      name: "recipes",
      kind: "table",
      doubtful: true,
      text: "What one piece of a kind takes.",
      columns: [
        { name: "kind", kind: "text", text: "Kind of piece." },
        { name: "item", kind: "text", text: "Item to bring." },
        { name: "unit", kind: "text", text: "Unit of the amounts: m, ft, kg may be cut; piece may not." },
        {
          name: "fixed",
          kind: "number",
          min: 0,
          max: 1e6,
          default: 0,
          aliases: ["per piece"],
          text: "Amount for each piece.",
        },
        { name: "per metre", kind: "number", min: 0, max: 1e6, default: 0, text: "Amount for each metre." },
        {
          name: "per cluster",
          kind: "number",
          min: 0,
          max: 1e6,
          default: 0,
          text: "Amount for each cluster.",
        },
        {
          name: "pack",
          kind: "number",
          above: 0,
          max: 1e6,
          optional: true,
          text: "Amount in one pack as sold.",
        },
      ],
    },
  ],
  keepsShape: true,
  result: {
    kind: "table",
    text: "One row for each item.",
    columns: [
      { name: "item", measure: "text", text: "Item to bring." },
      { name: "unit", measure: "text", text: "Its unit." },
      { name: "needed", measure: "number", text: "Amount that goes into the pieces." },
      { name: "pack", measure: "number", text: "Amount in one pack." },
      { name: "packs", measure: "count", text: "Packs to bring." },
      { name: "left", measure: "number", text: "Amount left over." },
      { name: "status", measure: "text", text: "What to look at." },
    ],
  },
  source: "Amounts of the recipes, pooled over all pieces, rounded up to whole packs",
  examples: [
    {
      args: [
        [
          ["name", "kind", "quantity", "height", "printed", "palette"],
          ["Door columns", "column", 2, 1.8, 11, "Door"],
        ],
        [
          ["kind", "item", "unit", "fixed", "per metre", "per cluster", "pack"],
          ["column", "base", "piece", 1, 0, 0, 1],
          ["column", "line", "m", 0.5, 2, 0, 50],
        ],
      ],
      gives: [
        ["base", "piece", 2, 1, 2, 0, "ok; GOODS_PLAN answers better"],
        ["line", "m", 8.2, 50, 1, 41.8, null],
      ],
      within: 1e-9,
      working: "two bases; 2 x (0.5 + 2 x 1.8) = 8.2 m of line from one roll of 50 m",
      source: "arithmetic",
    },
  ],
  failures: [
    {
      args: [[["column"]], [["column", "base", "piece"]]],
      gives: "#N/A",
      when: "the kind is missing",
      says: "pieces must",
    },
  ],
  compute: (rows, recipes) => {
    const { counted, uncounted } = countedPieces(pieceRows(rows));
    return hardwarePlan(
      counted.filter((piece) => piece.isFirst),
      wholeRows(recipes).map(({ "per metre": perMetre, "per cluster": perCluster, pack, ...recipe }) => ({
        ...recipe,
        perMetre,
        perCluster,
        ...(pack !== undefined && { pack }),
      })),
      {
        pieces: uncounted.map(({ kind, what }) => ({ of: kind, what })),
        recipes: recipes
          .filter(({ doubts }) => doubts.length > 0)
          .map(({ cells, doubts }) => ({ of: cells.item, what: doubts.join("; ") })),
      },
    ).map((row) => ({ ...row, status: `${row.status}; GOODS_PLAN answers better` }));
  },
});
