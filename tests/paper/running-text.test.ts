import { expect, it } from "vitest";
import { runningSides } from "../../src/paper/running-text";

const running = { file: "job.xlsx", sheet: "Offer", date: "1/3/2027", time: "12:00" };

// Codes as ECMA-376 part 1, 18.3.1.46 lists them; strings and counters as CSS Generated Content 3.
it.each([
  ["&LOffer&CPage &P of &N&R&D", ['"Offer"', '"Page " counter(page) " of " counter(pages)', '"1/3/2027"']],
  ["plain & simple", ["", '"plain " "simple"', ""]],
  ["Fish && chips", ["", '"Fish " "&" " chips"', ""]],
  ['&R&"Arial,Bold"&12&K01+000&A', ["", "", '"Offer"']],
  ['&L"</style>\\', ['"\\22 \\3c /style\\3e \\5c "', "", ""]],
])("gives the codes %j as contents", (codes, [left, center, right]) => {
  expect(runningSides(codes, running)).toEqual({ left, center, right });
});
