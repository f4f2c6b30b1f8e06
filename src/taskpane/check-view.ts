import { labelOf, type SheetCell } from "../formula/scope";
import { button, element } from "../ui/element";
import { scrollingTable } from "../ui/result-view";
import { changesPreview, failingRows, planRows } from "../ui/workbook-views";
import { areaOf } from "../formula/resolve";
import { partsOf, readContents } from "./contents";
import { counted, MOST_ROWS_SHOWN, restSentence, type PaneView } from "./pane-view";
import type { FormulaEntry, SheetHost } from "./sheet-host";
import { checkWorkbook, type Findings } from "./workbook-check";
import { makeWorkLine } from "./work-line";

const MOST_ENTERED_AT_ONCE = 200;

/** Goes through the workbook: errors with their sentence, cells to repair, chains that make Excel slow. */
export function checkView(host: SheetHost): PaneView {
  const work = makeWorkLine();
  const found = element("div", { class: "pane-findings" });
  const jump = (place: SheetCell): void => {
    void work.run("Going there", () => host.select(areaOf(place)));
  };

  const repair = async (stuck: readonly FormulaEntry[]): Promise<void> => {
    const isDone = await work.run("Repairing", async (onProgress) => {
      const parts = partsOf(stuck, MOST_ENTERED_AT_ONCE);
      for (const [done, part] of parts.entries()) {
        await host.enter(part);
        onProgress((done + 1) / parts.length);
      }
      return true;
    });
    if (isDone === true) await check(`Entered ${counted(stuck.length, "formula")} anew.`);
  };

  const chains = (findings: Findings): readonly HTMLElement[] => {
    if (findings.chains.length === 0) return [];
    const rows = findings.chains.slice(0, MOST_ROWS_SHOWN).map((chain) => [
      button(labelOf(chain), "plain", () => {
        jump(chain);
      }),
      String(chain.levels),
      element("code", {}, chain.formula),
    ]);
    return [
      element("h2", { class: "bln-title" }, "Deep chains"),
      element(
        "p",
        { class: "bln-help" },
        "Each level of these functions costs Excel about half a second. Let a formula read the plain inputs instead of other results.",
      ),
      scrollingTable("Deep chains", ["cell", "levels", "formula"], rows, (column) => column === 1),
      element("p", { class: "bln-quiet" }, restSentence(findings.chains.length)),
    ];
  };

  const show = (findings: Findings): void => {
    const failures = findings.failures.map((failure) => ({
      place: failure,
      label: labelOf(failure),
      ...failure,
    }));
    const stuck = findings.stuck.map((entry) => ({
      place: entry,
      label: labelOf(entry),
      before: "#NAME?",
      after: entry.formula,
    }));
    const locked = findings.locked.map(labelOf).join(", ");
    const repairs = changesPreview("Cells to enter anew", stuck.slice(0, MOST_ROWS_SHOWN), {
      applyLabel: `Repair ${counted(stuck.length, "cell")}`,
      onApply: () => void repair(findings.stuck),
      onJump: jump,
    });
    const rows = findings.statuses.map((row) => ({ place: row, label: labelOf(row), status: row.status }));
    found.replaceChildren(
      failingRows(failures.slice(0, MOST_ROWS_SHOWN), jump).element,
      planRows(rows.slice(0, MOST_ROWS_SHOWN), jump).element,
      element("p", { class: "bln-quiet" }, restSentence(failures.length)),
      ...(stuck.length === 0 ? [] : [repairs.element]),
      ...(locked === ""
        ? []
        : [element("p", { class: "bln-view" }, `On protected sheets, to be unprotected first: ${locked}`)]),
      element("div", { class: "bln-view" }, ...chains(findings)),
    );
  };

  async function check(first = ""): Promise<void> {
    const findings = await work.run(
      "Reading the workbook",
      async (onProgress, signal) => checkWorkbook(await readContents(host, onProgress, signal)),
      "can stop",
    );
    if (findings === undefined) return;
    show(findings);
    const { cells, failures, stuck } = findings;
    work.say(
      `${first} ${counted(cells, "cell")} with these functions, ${counted(failures.length, "error")}, ${stuck.length} to repair.`.trim(),
    );
  }

  return {
    label: "Check",
    needs: "1.12",
    element: element(
      "div",
      { class: "pane-view" },
      element(
        "section",
        { class: "bln-view" },
        element("h2", { class: "bln-title" }, "Check this workbook"),
        element(
          "p",
          { class: "bln-help" },
          "Finds every cell with these functions: its error and why, cells that are stuck, chains that make Excel slow.",
        ),
        button("Check", "primary", () => void check()),
        work.element,
      ),
      found,
    ),
  };
}
