import { describe, expect, it } from "vitest";
import type { DrawnPiece } from "../../src/functions/definition";
import { eventSvg, eventWords } from "../../src/ui/event-picture";

const ball = (x: number, y: number, radius: number, colour: string): DrawnPiece["balls"][number] => ({
  x,
  y,
  z: 0,
  radius,
  row: 1,
  colour,
  isFoil: false,
});

const piece = (name: string, balls: DrawnPiece["balls"], more: Partial<DrawnPiece> = {}): DrawnPiece => ({
  event: "",
  option: "",
  name,
  quantity: 1,
  isFromAbove: false,
  size: undefined,
  balls,
  lines: [],
  notes: [],
  ...more,
});

interface Circle {
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

/** The circles of pieces, without those of the legend. */
function circles(svg: string): readonly Circle[] {
  const number = (tag: string, name: string): number =>
    Number(new RegExp(`\\s${name}="([-0-9.]+)"`).exec(tag)?.[1] ?? NaN);
  return [...svg.matchAll(/<circle [^>]*>/g)]
    .map(([tag]) => ({ x: number(tag, "cx"), y: number(tag, "cy"), r: number(tag, "r") }))
    .filter(({ r }) => r !== 7);
}

const texts = (svg: string): readonly string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map((match) => match[1] ?? "");

describe("a picture of pieces", () => {
  it("draws all at one scale on one ground, beside a bar of 1.7 m", () => {
    const svg = eventSvg(
      [piece("Large", [ball(0, 1, 1, "Navy")]), piece("Small", [ball(5, 0.25, 0.25, "Sky")])],
      { title: "Both" },
    );
    const [large, small] = circles(svg);
    if (large === undefined || small === undefined) throw new Error("two circles");
    expect(large.r / small.r).toBeCloseTo(4, 1);
    expect(large.y + large.r).toBeCloseTo(small.y + small.r, 1);
    const bar = /<rect x="[^"]*" y="([^"]*)" width="[^"]*" height="([^"]*)"/.exec(svg);
    expect(Number(bar?.[2]) / large.r).toBeCloseTo(1.7, 1);
    expect(Number(bar?.[1]) + Number(bar?.[2])).toBeCloseTo(large.y + large.r, 1);
    // Side by side: neither covers the other.
    expect(small.x - small.r).toBeGreaterThan(large.x + large.r);
  });

  it("writes name, number, finished size, colours, and marks a stand-in tint", () => {
    const svg = eventSvg(
      [
        piece("Arch & gate", [ball(0, 1, 1, "Navy"), ball(0, 1, 0.5, "Zanzibar")], {
          quantity: 3,
          size: [2.2, 2.5],
          option: "B",
        }),
      ],
      { title: "One", width: 400 },
    );
    expect(texts(svg).join(" ")).toContain("3 x Arch &#38; gate (option B)");
    expect(texts(svg)).toContain("2.20 x 2.50 m");
    expect(texts(svg)).toEqual(expect.arrayContaining(["Navy", "Zanzibar *", "* a stand-in tint"]));
  });

  it("draws a garland longer than a row in lengths, each balloon once", () => {
    const balls = Array.from({ length: 200 }, (_, index) => ball(index * 0.1 - 10, 0.15, 0.15, "Peach"));
    const svg = eventSvg([piece("Rail", balls)], { title: "Garland" });
    expect(circles(svg)).toHaveLength(200);
    // 19.9 + 0.3 m in lengths of at most 8 m: three.
    expect(texts(svg).filter((text) => text.endsWith(" of 20.2 m"))).toEqual([
      "0 to 6.7 of 20.2 m",
      "6.7 to 13.5 of 20.2 m",
      "13.5 to 20.2 of 20.2 m",
    ]);
    const across = circles(svg)
      .map(({ x, r }) => [x - r, x + r])
      .flat();
    expect(Math.min(...across)).toBeGreaterThan(0);
    expect(Math.max(...across)).toBeLessThan(960);
  });

  it("keeps lines: a pole in its colour behind what is before it, a ribbon thin", () => {
    const svg = eventSvg(
      [
        piece("Stand", [{ ...ball(0, 2, 0.5, "Rose"), z: 0.2 }], {
          lines: [
            { what: "pole", from: [0, 0, 0], to: [0, 2, 0], width: 0.05, colour: "Black" },
            { what: "ribbon", from: [0, 2, 0.2], to: [0, 1, 0], width: 0.01, colour: "" },
          ],
        }),
      ],
      { title: "Stand" },
    );
    const marks = [...svg.matchAll(/<(?:path|circle) [^>]*>/g)].map(([mark]) => mark);
    const circle = marks.findIndex((mark) => mark.startsWith("<circle") && !mark.includes('r="7"'));
    expect(marks.findIndex((mark) => mark.includes('stroke="#2a2a2c"'))).toBeLessThan(circle);
    expect(marks.findIndex((mark) => mark.includes('stroke-width="0.8"'))).toBeLessThan(circle);
    expect(texts(svg)).toContain("Black");
  });

  it("says in words what it shows, and that there is nothing", () => {
    const words = eventWords([
      piece("Door", [ball(0, 1, 1, "Navy"), ball(0, 1, 1, ""), ball(1, 1, 1, "Navy")]),
    ]);
    expect(words).toBe("1 x Door: 2 Navy, 1 of unknown colour");
    expect(texts(eventSvg([], { title: "None" }))).toEqual(["Nothing to draw yet"]);
  });
});
