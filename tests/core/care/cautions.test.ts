import { describe, expect, it } from "vitest";
import { CAUTION_TOPICS } from "../../../src/core/care/caution-rows";
import { cautionLine, cautionsAbout } from "../../../src/core/care/cautions";

const all = cautionsAbout("all");
const text = (topic: string): string =>
  cautionsAbout(topic)
    .map((row) => `${row.whatCanHappen} ${row.whatToDo}`)
    .join(" ");

describe("cautions", () => {
  it("say what can happen and what to do, and end with local codes and licensed practice", () => {
    for (const row of all) {
      expect(row.whatCanHappen).toMatch(/^[A-Z].*\.$/);
      expect(row.whatToDo).toMatch(/ Local codes, the venue's rules and licensed practice come first\.$/);
      expect(row.whatToDo.length).toBeGreaterThan(100);
    }
  });

  it.each(CAUTION_TOPICS)("cover %s", (topic) => {
    const rows = cautionsAbout(topic);
    expect(rows.length).toBeGreaterThan(0);
    expect(rows.every((row) => row.topic === topic)).toBe(true);
    expect(cautionsAbout(` ${topic.toUpperCase()} `)).toEqual(rows);
  });

  it("come all together under all, each once", () => {
    expect(CAUTION_TOPICS.flatMap((topic) => cautionsAbout(topic))).toEqual(all);
    expect(new Set(all.map((row) => row.whatCanHappen)).size).toBe(all.length);
  });

  it.each([
    ["helium", /breathe/],
    ["helium", /19\.5 %/],
    ["cylinders", /upright/],
    ["cylinders", /vehicle/],
    ["latex", /allergy/],
    ["children", /under eight/],
    ["children", /supervis|adult watches/],
    ["foil", /power line/],
    ["outdoor", /gust/],
    ["outdoor", /thunder/],
    ["ladder", /top step/],
    ["release", /Do not release/],
    ["exits", /sprinkler/],
    ["exits", /exits/],
    ["heat", /pop/],
    ["helium", /never with hydrogen/],
    ["helium", /second victim/],
    ["cylinders", /Nobody rides in a lift/],
    ["children", /button cells/],
    ["foil", /uphill/],
    ["bursting", /eye protection/],
    ["bursting", /ear protection/],
    ["electric", /residual-current/],
    ["electric", /generator/],
    ["sprays", /slippery/],
    ["sprays", /Rubber cement/],
    ["lifting", /sandbags/],
    ["driving", /mirrors/],
    ["net", /drop/],
    ["animals", /horses/],
  ])("on %s mention %s", (topic, words) => {
    expect(text(topic)).toMatch(words);
  });

  it("name only publications of standing beside a row", () => {
    for (const { source } of all)
      if (source !== undefined) {
        expect(source).toMatch(/CFR|NIOSH|OSHA|ISO|Regulation \(EC\)|Penal Code|Statutes/);
      }
  });

  it("refuse another topic and list the words", () => {
    expect(() => cautionsAbout("fire")).toThrow(
      'topic must be one of all, helium, cylinders, latex, children, foil, outdoor, ladder, release, exits, heat, bursting, electric, sprays, lifting, driving, net, animals, found "fire"',
    );
  });

  it("have one short line for every function whose result can hurt", () => {
    for (const topic of [...CAUTION_TOPICS, "tether", "wind", "anchor", "oxygen"] as const) {
      const line = cautionLine(topic);
      expect(line).toMatch(/local codes and licensed practice come first$/);
      expect(line.length).toBeLessThan(170);
    }
  });
});
