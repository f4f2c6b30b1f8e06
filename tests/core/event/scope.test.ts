import { describe, expect, it } from "vitest";
import type { PieceCells } from "../../../src/core/event/cells";
import type { EventCells, TermCells } from "../../../src/core/event/term-cells";
import { chosenScenario, scenariosOf, jobScope, unsettledOption } from "../../../src/core/event/scope";
import { jobOf, type Row } from "./job-builder";

const piece = (event?: string, option?: string): Row<PieceCells> => ({
  name: "X",
  kind: "count",
  ...(event !== undefined && { event }),
  ...(option !== undefined && { option }),
});
const scope = (
  pieces: readonly Row<PieceCells>[],
  terms: Partial<TermCells> = {},
  events: readonly Row<EventCells>[] = [],
): ReturnType<typeof jobScope> => jobScope(jobOf({ pieces, terms, events }));

describe("scopeOf", () => {
  it("is one event without a name where none is named", () => {
    const { events, lines, problems } = scope([piece(), piece()]);
    expect(events.map(({ name }) => name)).toEqual([""]);
    expect(lines).toHaveLength(2);
    expect(problems).toEqual([]);
  });

  it("puts a blank into the only event, and a slip of its name nowhere quietly", () => {
    const one = scope([piece(), piece("friday ")], {}, [{ event: "Friday" }]);
    expect(one.lines.map(({ event }) => event)).toEqual(["Friday", "Friday"]);
    const slip = scope([piece("Firday")], {}, [{ event: "Friday" }]);
    expect(slip.problems.map(({ weight, what }) => `${weight}: ${what}`)).toContain(
      'stop: pieces row 2: event must be one of the events, found "Firday"; did you mean "Friday"',
    );
  });

  it("notes an event without pieces", () => {
    const { problems } = scope([piece("Friday")], {}, [{ event: "Friday" }, { event: "Sunday" }]);
    expect(problems.map(({ weight, what }) => `${weight}: ${what}`)).toEqual([
      'note: event "Sunday" has no pieces and costs nothing',
    ]);
  });
});

describe("scenariosOf", () => {
  it("builds every option of one event beside what is settled of the others", () => {
    const of = scope([piece("Friday", "A"), piece("Friday", "b"), piece("Sunday", "C"), piece("Sunday")]);
    expect(
      scenariosOf(of).map(({ event, option, inForce }) => [event, option, inForce.map(([, name]) => name)]),
    ).toEqual([
      ["Friday", "A", ["A", ""]],
      ["Friday", "b", ["b", ""]],
      ["Sunday", "C", ["", "C"]],
    ]);
    expect(unsettledOption(of)).toBe('option must be chosen in terms, one of "A", "b"');
  });

  it("builds only the option that the terms choose, in any case", () => {
    const of = scope([piece(undefined, "A"), piece(undefined, "b")], { option: "B" });
    expect(scenariosOf(of).map(({ option }) => option)).toEqual(["b"]);
    expect(chosenScenario(of)).toEqual([["", "b"]]);
    expect(unsettledOption(of)).toBeUndefined();
  });

  it("stops at a choice that no piece names", () => {
    const { problems } = scope([piece(undefined, "small"), piece(undefined, "large")], { option: "smal" });
    expect(problems.map(({ what }) => what)).toEqual([
      'option must be one of "small", "large", found "smal"; did you mean "small"',
    ]);
  });
});
