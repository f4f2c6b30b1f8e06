import { SaxesParser } from "saxes";
import { describe, expect, it } from "vitest";
import type { DrawnBalloon } from "../../src/functions/definition";
import { pictureSvg } from "../../src/ui/picture";

interface Tag {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}

/** Every element of the picture; throws where it is not well-formed XML. */
function tags(svg: string): readonly Tag[] {
  const found: Tag[] = [];
  const parser = new SaxesParser();
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", ({ name, attributes }) => found.push({ name, attributes }));
  parser.write(svg).close();
  return found;
}

function numbers(tag: Tag | undefined, ...names: string[]): readonly number[] {
  return names.map((name) => Number(tag?.attributes[name]));
}

const ball = (x: number, y: number, z: number, radius = 0.15, row = 0): DrawnBalloon => ({
  x,
  y,
  z,
  radius,
  row,
});
const circles = (svg: string): readonly Tag[] => tags(svg).filter(({ name }) => name === "circle");
const person = (svg: string): Tag | undefined => tags(svg).filter(({ name }) => name === "rect")[1];

describe("pictureSvg", () => {
  it("draws to one scale: a balloon of 0.85 m radius is as high as a person of 1.7 m, and stands on the same ground", () => {
    const svg = pictureSvg([ball(0, 0.85, 0, 0.85)], { title: "One" });
    const [radius = 0, centre = 0] = numbers(circles(svg)[0], "r", "cy");
    const [height = 0, top = 0] = numbers(person(svg), "height", "y");
    expect(Math.abs(2 * radius - height)).toBeLessThan(0.05);
    expect(Math.abs(centre - radius - top)).toBeLessThan(0.05);
  });

  it("puts what is nearer on top, whatever the order", () => {
    const near = ball(0, 1, 0.2, 0.1);
    const far = ball(0, 1, -0.2, 0.3);
    for (const pair of [
      [near, far],
      [far, near],
    ]) {
      const [first = 0, second = 0] = circles(pictureSvg(pair, { title: "Two" })).map(({ attributes }) =>
        Number(attributes["r"]),
      );
      expect(first).toBeGreaterThan(second);
    }
  });

  it("has y up and x to the right", () => {
    const svg = pictureSvg([ball(-1, 2, 0), ball(1, 0.15, 0)], { title: "Two" });
    const [high, low] = circles(svg);
    expect(Number(high?.attributes["cy"])).toBeLessThan(Number(low?.attributes["cy"]));
    expect(Number(high?.attributes["cx"])).toBeLessThan(Number(low?.attributes["cx"]));
  });

  it("keeps everything inside the frame", () => {
    for (const balloons of [[ball(0, 0.15, 0)], [ball(-30, 40, 0, 2), ball(30, 1, 0)], [ball(5, -3, 0)]]) {
      const svg = pictureSvg(balloons, { title: "Inside" });
      const [frameWidth = 0, frameHeight = 0] = numbers(tags(svg)[0], "width", "height");
      for (const circle of circles(svg)) {
        const [x = 0, y = 0, r = 0] = numbers(circle, "cx", "cy", "r");
        expect(Math.min(x - r, y - r)).toBeGreaterThanOrEqual(0);
        expect(x + r).toBeLessThanOrEqual(frameWidth);
        expect(y + r).toBeLessThanOrEqual(frameHeight);
      }
    }
  });

  it("gives colours in turn, or row by row", () => {
    const balloons = [
      ball(0, 0.2, 0, 0.1, 0),
      ball(0, 0.4, 0, 0.1, 0),
      ball(0, 0.6, 0, 0.1, 1),
      ball(0, 0.8, 0, 0.1, 2),
    ];
    const fills = (order: "balloons" | "rows"): readonly (string | undefined)[] =>
      circles(pictureSvg(balloons, { title: "Colours", colours: ["red", "navy"], order })).map(
        ({ attributes }) => attributes["fill"],
      );
    expect(fills("balloons")).toEqual(["red", "navy", "red", "navy"]);
    expect(fills("rows")).toEqual(["red", "red", "navy", "red"]);
  });

  it("shades each hex colour by a gradient of its own", () => {
    const svg = pictureSvg([ball(0, 1, 0), ball(0, 2, 0)], { title: "Shades", colours: ["#c00", "#00CC00"] });
    const gradients = tags(svg).filter(({ name }) => name === "radialGradient");
    expect(gradients).toHaveLength(2);
    expect(circles(svg).map(({ attributes }) => attributes["fill"])).toEqual(
      gradients.map(({ attributes }) => `url(#${attributes["id"] ?? ""})`),
    );
  });

  it("says what it shows, and escapes it", () => {
    const svg = pictureSvg([ball(0, 1, 0)], {
      title: `<script>"a" & 'b'`,
      description: "1 balloon",
      colours: [`"/><script>`],
    });
    expect(tags(svg).map(({ name }) => name)).not.toContain("script");
    expect(tags(svg)[0]?.attributes["role"]).toBe("img");
    const labels = tags(svg)[0]?.attributes["aria-labelledby"]?.split(" ");
    const ids = tags(svg).flatMap(({ attributes }) => attributes["id"] ?? []);
    expect(labels?.every((id) => ids.includes(id))).toBe(true);
  });

  it("has a scale bar of a round length, in metres and feet", () => {
    // 1 m = 3.281 ft = 39.4 in (NIST SP 811)
    expect(pictureSvg([ball(0, 0.15, 0), ball(2.5, 0.15, 0)], { title: "Scale" })).toContain(
      "1 m = 3 ft 3 in",
    );
  });

  it("draws a plain frame for nothing, and leaves out what has no place", () => {
    expect(circles(pictureSvg([], { title: "Empty" }))).toHaveLength(0);
    expect(pictureSvg([], { title: "Empty" })).toContain("Nothing to draw yet");
    const broken = [ball(NaN, 0, 0), ball(0, Infinity, 0), ball(0, 1, 0, 0), ball(0, 1, 0, -1)];
    expect(circles(pictureSvg([...broken, ball(0, 1, 0)], { title: "One" }))).toHaveLength(1);
    expect(pictureSvg([ball(0, 1, 0)], { title: "Plain", colours: [] })).not.toContain("undefined");
  });

  it("draws two thousand", () => {
    const many = Array.from({ length: 2000 }, (_, index) =>
      ball((index % 50) * 0.2, Math.floor(index / 50) * 0.2, (index % 7) * 0.1, 0.14, index),
    );
    const svg = pictureSvg(many, { title: "Many" });
    expect(circles(svg)).toHaveLength(2000);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
    expect(pictureSvg(many, { title: "Many" })).toBe(svg);
  });
});
