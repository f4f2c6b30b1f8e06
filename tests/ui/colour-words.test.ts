import { describe, expect, it } from "vitest";
import { screenColour } from "../../src/ui/colour-words";

const parts = (name: string): readonly number[] =>
  (/^#(..)(..)(..)$/.exec(screenColour(name).colour) ?? []).slice(1).map((part) => Number.parseInt(part, 16));
const light = (name: string): number => parts(name).reduce((sum, part) => sum + part, 0);

describe("a colour on the screen", () => {
  it("knows plain words in any case, with words before them and figures behind", () => {
    const { colour } = screenColour("navy");
    expect(screenColour("Navy")).toEqual({ colour, isKnown: true });
    expect(screenColour("Navy 5")).toEqual({ colour, isKnown: true });
    expect(screenColour("Satin Navy")).toEqual({ colour, isKnown: true });
    const [red = 0, green = 0, blue = 0] = parts("navy");
    expect(blue).toBeGreaterThan(Math.max(red, green));
  });

  it("takes two words before one, and shades", () => {
    expect(screenColour("Rose Gold").colour).not.toBe(screenColour("Gold").colour);
    expect(light("light blue")).toBeGreaterThan(light("blue"));
    expect(light("dark green")).toBeLessThan(light("green"));
    expect(screenColour("Lt. Blue")).toEqual(screenColour("light blue"));
    expect(screenColour("Gray")).toEqual(screenColour("grey"));
  });

  it("gives an unknown name a quiet tint that stays the same", () => {
    const first = screenColour("Zanzibar 9");
    expect(first.isKnown).toBe(false);
    expect(screenColour(" zanzibar 9 ")).toEqual(first);
    const [red = 0, green = 0, blue = 0] = parts("Zanzibar 9");
    expect(Math.max(red, green, blue) - Math.min(red, green, blue)).toBeLessThan(40);
  });

  it("takes a colour written as one", () => {
    expect(screenColour("#c8553d")).toEqual({ colour: "#c8553d", isKnown: true });
    expect(screenColour("")).toEqual(expect.objectContaining({ isKnown: false }));
  });
});
