import { expect, it } from "vitest";
import { isMereText } from "../../src/desk/mere-text";

it("tells texts from what may be a number, a date or a time", () => {
  for (const text of ["item 7", "Gold", "12 kg", "#VALUE!", "größer", "2 Märkte"])
    expect(isMereText(text)).toBe(true);
  for (const text of [
    "",
    "7",
    "1,234.5",
    "12 %",
    "€ 3",
    "1e5",
    "3 May 2027",
    "September 4",
    "5:30 PM",
    "5 p",
    "-",
  ])
    expect(isMereText(text)).toBe(false);
});
