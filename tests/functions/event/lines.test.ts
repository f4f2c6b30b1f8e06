import { describe, expect, it } from "vitest";
import { functionNamed } from "../../../src/functions/catalogue";
import { evening, type Rows } from "./worked-jobs";

/** What READY_PLAN says of the corporate evening with one cell typed over, notes left out. */
function said(
  table: string,
  match: (row: Rows[number]) => boolean,
  column: string,
  value: unknown,
): readonly string[] {
  const job = Object.entries(evening).map(([name, rows]) => {
    const at = rows[0]?.indexOf(column) ?? -1;
    return rows.map((row) =>
      name === table && match(row) ? row.map((cell, index) => (index === at ? value : cell)) : row,
    );
  });
  const outcome = functionNamed("READY_PLAN")?.call(job);
  if (outcome?.kind !== "table") throw new Error(JSON.stringify(outcome));
  return outcome.rows.flatMap(([weight, , , what]) =>
    weight === "note" ? [] : [`${String(weight)}: ${String(what)}`],
  );
}

describe("cells that count as nothing", () => {
  it.each([null, "", 0])("a tax of %j is asked about, since it makes the offer cheaper", (blank) => {
    const sentence = "check: terms row 5: tax is blank or 0 and counts as none; type none if it is";
    expect(said("terms", ([term]) => term === "tax", "value", blank)).toContain(sentence);
    expect(said("terms", ([term]) => term === "tax", "value", "none")).not.toContain(sentence);
  });

  it.each([null, "", 0])("a cylinder whose return is %j is asked about on every host", (blank) => {
    const sentence =
      'check: goods row 9: returns of "cylinder" is blank, so only the helium that is used is paid';
    expect(said("goods", ([item]) => item === "cylinder", "returns", blank)).toContain(sentence);
    expect(said("goods", ([item]) => item === "cylinder", "returns", "no")).not.toContain(sentence);
    expect(said("goods", ([item]) => item === "cylinder", "returns", false)).not.toContain(sentence);
  });
});
