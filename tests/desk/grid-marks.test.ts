import { expect, it } from "vitest";
import { drawnBar } from "../../src/desk/grid-marks";

type Drawing = Parameters<ReturnType<typeof drawnBar>["drawWith"]>;

it("draws a bar in the file's own colour, which the dark theme leaves alone", () => {
  const filled: unknown[] = [];
  const context = {
    fillStyle: "",
    save: () => undefined,
    restore: () => undefined,
    fillRect(...box: readonly number[]) {
      filled.push(this.fillStyle, box);
    },
  };
  const cell = { primaryWithCoord: { startX: 100, startY: 40, endX: 202, endY: 60 } };
  const bar = drawnBar({ from: 0.25, to: 0.75, color: "#ffb628" });
  bar.drawWith(context as unknown as Drawing[0], cell as Drawing[1], {} as Drawing[2], {} as Drawing[3]);
  // The form of a colour that is kept; a quarter and three quarters of the 100 pixels between the borders.
  expect(filled).toEqual(["rgba(255, 182, 40, 1)", [126, 42, 50, 16]]);
});
