import { describe, expect, it } from "vitest";
import type { PieceCells } from "../../../../src/core/event/cells";
import { careLines, loadingTopics, workTopics } from "../../../../src/core/event/papers/care-lines";
import { inches, type Row } from "../job-builder";
import { plannedOf } from "../planned";

const part = (cells: Row<PieceCells>): Row<PieceCells> => ({
  name: "Piece",
  printed: inches(11),
  colour: "White",
  ...cells,
});
const work = (cells: Row<PieceCells>): readonly string[] => workTopics(plannedOf({ pieces: [part(cells)] }));
const loading = (cells: Row<PieceCells>): readonly string[] =>
  loadingTopics(plannedOf({ pieces: [part(cells)] }));

describe("workTopics", () => {
  it("says nothing about a small centrepiece indoors", () => {
    expect(work({ kind: "count", balloons: 12 })).toEqual([]);
  });

  it.each([
    ["a ladder above 2 m", { kind: "column", height: 2.4 }, ["ladder"]],
    ["none at 1.8 m", { kind: "column", height: 1.8 }, []],
    ["a ladder for what hangs", { kind: "garland", length: 1 }, ["ladder"]],
    ["helium and its cylinders", { kind: "bouquet", balloons: 5 }, ["helium", "cylinders"]],
    ["foil near power lines", { kind: "foil" }, ["helium", "cylinders", "foil"]],
    [
      "wind and electricity outdoors",
      { kind: "count", balloons: 12, where: "outdoors" },
      ["outdoor", "electric"],
    ],
    ["bursts from 0.6 m on", { kind: "count", balloons: 1, printed: inches(36) }, ["bursting"]],
  ] as const)("asks for %s", (_, cells, topics) => {
    expect(work(cells)).toEqual(topics);
  });

  it("says nothing about a parked row", () => {
    expect(work({ kind: "bouquet", balloons: 5, quantity: 0 })).toEqual([]);
  });
});

describe("loadingTopics", () => {
  it("always minds backs, the road where pieces go built, cylinders where helium goes", () => {
    expect(loading({ kind: "count", balloons: 12 })).toEqual(["lifting"]);
    expect(loading({ kind: "count", balloons: 12, built: "shop" })).toEqual(["driving", "lifting"]);
    expect(loading({ kind: "bouquet", balloons: 5 })).toEqual(["cylinders", "lifting"]);
  });
});

describe("careLines", () => {
  it("says once, last, that local rules come first", () => {
    const lines = careLines(["helium", "ladder"]);
    const deferring = lines.filter(({ line }) => /local codes/i.test(line));
    expect(deferring).toEqual([lines.at(-1)]);
    expect(new Set(lines.slice(0, -1).map(({ note }) => note))).toEqual(new Set(["helium", "ladder"]));
    expect(lines.every(({ section }) => section === "care")).toBe(true);
  });

  it("is no section without topics", () => {
    expect(careLines([])).toEqual([]);
  });
});
