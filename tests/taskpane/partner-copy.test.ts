import { beforeEach, describe, expect, it } from "vitest";
import { readContents } from "../../src/taskpane/contents";
import { makeCopy, planWorkbookCopy, planPutBack, putBack, readKept } from "../../src/taskpane/partner-copy";
import { KEPT_NAMESPACE } from "../../src/partner/kept-formulas";
import { KEPT_SHEET } from "../../src/partner/kept-sheet";
import { FakeHost, at } from "./fake-host";

const NOW = "2027-06-19T10:00:00.000Z";
const ignore = (): void => undefined;

let host: FakeHost;

/** A plan with one of everything that a copy must get right. */
beforeEach(() => {
  host = new FakeHost()
    .addSheet("Plan")
    .addSheet("Locked")
    .addSheet("Behind", { isHidden: true })
    .fill("Plan!A1", [
      ["Piece", "Height", "Balloon", "Count"],
      ["Column", 1.8, 10, "=BLN.COUNT_COLUMN([@Height], [@Balloon])"],
      ["Column", 2.4, 11, 0],
    ])
    .table("Pieces", "Plan!A1:D3")
    .fill("Plan!D2", [
      ["=BLN.COUNT_COLUMN([@Height], [@Balloon])"],
      ["=BLN.COUNT_COLUMN([@Height], [@Balloon])"],
    ])
    .fill("Plan!F1", [["=BLN.BAG_PLAN(200, {50,100}, {8,14})"]])
    .show("Plan!A20", "=SUM(D2:D3)", 84)
    .show("Plan!A21", "=ROWS(F1#)", 3)
    .fill("Behind!A1", [['=BLN.METRES("6 ft")']])
    .fill("Locked!A1", [["=BLN.METRES(2)"]])
    .fill("Plan!A30", [["=BLN.COUNT_COLUMN(-1, 10)"]])
    .show("Plan!A31", "=BLN.METRES(3)", "#NAME?")
    .protect("Locked");
});

const plan = async () => planWorkbookCopy(await readContents(host, ignore));

describe("planning a partner copy", () => {
  it("takes our formulas and those that need their spill, and nothing else", async () => {
    const { formulas, left } = await plan();
    const places = formulas.map(({ sheet, formula }) => `${sheet} ${formula}`);
    expect(places).toEqual([
      "Plan =BLN.BAG_PLAN(200, {50,100}, {8,14})",
      "Plan =BLN.COUNT_COLUMN([@Height], [@Balloon])",
      "Plan =BLN.COUNT_COLUMN([@Height], [@Balloon])",
      "Plan =ROWS(F1#)",
      "Plan =BLN.COUNT_COLUMN(-1, 10)",
      'Behind =BLN.METRES("6 ft")',
    ]);
    expect(left).toEqual([
      { ...at("Plan!A31"), why: "it shows #NAME?: repair or recalculate it first" },
      { ...at("Locked!A1"), why: "its sheet is protected" },
    ]);
  });

  it("changes nothing", async () => {
    const before = host.snapshot();
    await plan();
    expect(host.snapshot()).toEqual(before);
  });
});

describe("a partner copy", () => {
  it("holds the same values, and all that is not ours is as it was", async () => {
    const shown = ["Plan!D2", "Plan!D3", "Plan!F1", "Plan!F2", "Plan!J3", "Plan!A21", "Behind!A1"];
    const values = shown.map((cell) => host.valueOf(cell));
    await makeCopy(host, await plan(), NOW, ignore);
    expect(shown.map((cell) => host.valueOf(cell))).toEqual(values);
    expect(shown.map((cell) => host.contentOf(cell))).toEqual(values);
    expect(host.contentOf("Plan!A20")).toBe("=SUM(D2:D3)");
    expect(host.contentOf("Locked!A1")).toBe("=BLN.METRES(2)");
    expect(host.sheetNames()).toEqual(["Plan", "Locked", "Behind", KEPT_SHEET]);
    expect(host.valueOf(`${KEPT_SHEET}!D6`)).toBe("=BLN.COUNT_COLUMN([@Height], [@Balloon])");
  });

  it("goes back to exactly what it was", async () => {
    const before = host.snapshot();
    await makeCopy(host, await plan(), NOW, ignore);
    const kept = await readKept(host);
    if (kept === undefined) throw new Error("nothing kept");
    expect(kept.taken).toBe(NOW);
    await putBack(host, kept, await planPutBack(host, kept, ignore), ignore);
    // A formula of Excel's own shows what the fake sets; Excel would compute it.
    host.show("Plan!A21", "=ROWS(F1#)", 3);
    expect(host.snapshot()).toEqual(before);
  });

  it("is refused a second time", async () => {
    const first = await plan();
    await makeCopy(host, first, NOW, ignore);
    await expect(makeCopy(host, first, NOW, ignore)).rejects.toThrow("is a partner copy already");
  });

  it("is refused where a sheet of that name is somebody's own", async () => {
    host.addSheet("kept FORMULAS");
    await expect(makeCopy(host, await plan(), NOW, ignore)).rejects.toThrow("rename it first");
  });

  it("is refused where a cell has changed since the preview", async () => {
    const first = await plan();
    host.fill("Plan!D3", [[99]]);
    const before = host.snapshot();
    await expect(makeCopy(host, first, NOW, ignore)).rejects.toThrow("Plan!D3 has changed since the preview");
    expect(host.snapshot()).toEqual(before);
  });
});

describe("a failure half way", () => {
  for (const moment of ["beforeCall", "afterCall"] as const) {
    it(`leaves the workbook as it was, whichever call of making a copy fails (${moment})`, async () => {
      const first = await plan();
      const before = JSON.stringify(host.snapshot());
      const start = host.calls.length;
      await makeCopy(host, first, NOW, ignore);
      const made = host.calls.length - start;
      const kept = await readKept(host);
      if (kept === undefined) throw new Error("nothing kept");
      await putBack(host, kept, await planPutBack(host, kept, ignore), ignore);
      host.show("Plan!A21", "=ROWS(F1#)", 3);
      for (let failing = 1; failing <= made; failing++) {
        const from = host.calls.length;
        host[moment] = (_, count) => {
          if (count === from + failing) throw new Error("Excel went away");
        };
        await expect(makeCopy(host, first, NOW, ignore), `call ${failing}`).rejects.toThrow(
          "Excel went away",
        );
        host[moment] = ignore;
        host.show("Plan!A21", "=ROWS(F1#)", 3);
        expect(JSON.stringify(host.snapshot()), `call ${failing} ${host.calls[from + failing - 1]}`).toBe(
          before,
        );
      }
    });

    it(`leaves the copy as it was, whichever call of putting back fails (${moment})`, async () => {
      await makeCopy(host, await plan(), NOW, ignore);
      const kept = await readKept(host);
      if (kept === undefined) throw new Error("nothing kept");
      const back = await planPutBack(host, kept, ignore);
      const before = JSON.stringify(host.snapshot());
      let failing = 0;
      for (let isDone = false; !isDone;) {
        failing += 1;
        const from = host.calls.length;
        host[moment] = (_, count) => {
          if (count === from + failing) throw new Error("Excel went away");
        };
        const outcome = await putBack(host, kept, back, ignore).then(
          () => "done",
          (error: unknown) => String(error),
        );
        host[moment] = ignore;
        isDone = outcome === "done";
        if (!isDone) expect(JSON.stringify(host.snapshot()), `call ${failing}: ${outcome}`).toBe(before);
      }
      expect(failing).toBeGreaterThan(3);
    });
  }

  it("says so where going back fails as well, and where the formulas are", async () => {
    const first = await plan();
    host.afterCall = (name) => {
      if (name === "freeze" || name === "enter") throw new Error("Excel went away");
    };
    await expect(makeCopy(host, first, NOW, ignore)).rejects.toThrow(
      `every formula is on the sheet "${KEPT_SHEET}"`,
    );
    expect(host.parts.has(KEPT_NAMESPACE)).toBe(true);
  });
});

describe("putting back", () => {
  const kept = async () => {
    await makeCopy(host, await plan(), NOW, ignore);
    const found = await readKept(host);
    if (found === undefined) throw new Error("nothing kept");
    return found;
  };

  it("leaves cells that hold something else now, and keeps their formulas", async () => {
    const all = await kept();
    host.fill("Plan!D2", [[41]]).fill("Behind!A1", [["=1+1"]]);
    const back = await planPutBack(host, all, ignore);
    expect(back.left).toEqual([
      { ...at("Plan!D2"), why: "it holds another value now, or rows have moved" },
      { ...at("Behind!A1"), why: "another formula stands there now" },
    ]);
    await putBack(host, all, back, ignore);
    expect(host.contentOf("Plan!D2")).toBe(41);
    expect((await readKept(host))?.formulas.map(({ sheet, row }) => [sheet, row])).toEqual([
      ["Plan", 1],
      ["Behind", 0],
    ]);
    expect(host.sheetNames()).toContain(KEPT_SHEET);
  });

  it("leaves a sheet that is gone or protected", async () => {
    const all = await kept();
    await host.removeSheet("Behind");
    host.protect("Plan");
    const back = await planPutBack(host, all, ignore);
    expect(back.formulas).toEqual([]);
    expect(new Set(back.left.map(({ why }) => why))).toEqual(
      new Set(["its sheet is gone or has another name", "its sheet is protected"]),
    );
  });

  it("takes the formulas from the sheet where the part is gone or damaged", async () => {
    const all = await kept();
    for (const part of [undefined, `<data xmlns="${KEPT_NAMESPACE}">{"taken":1}</data>`]) {
      await host.writePart(KEPT_NAMESPACE, part);
      expect((await readKept(host))?.formulas.map(({ formula }) => formula)).toEqual(
        all.formulas.map(({ formula }) => formula),
      );
    }
  });

  it("refuses what is damaged on the sheet too, and names the sheet where the formulas are", async () => {
    await kept();
    host.parts.set(KEPT_NAMESPACE, `<data xmlns="${KEPT_NAMESPACE}">{"taken":1}</data>`);
    host.fill(`${KEPT_SHEET}!F6`, [["{"]]);
    await expect(readKept(host)).rejects.toThrow(`copy them from the sheet "${KEPT_SHEET}"`);
  });
});
