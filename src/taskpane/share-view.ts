import { labelOf, type SheetCell } from "../formula/scope";
import { button, element } from "../ui/element";
import { scrollingTable } from "../ui/result-view";
import { changesPreview } from "../ui/workbook-views";
import type { KeptFormula, KeptFormulas } from "../partner/kept-formulas";
import { KEPT_SHEET } from "../partner/kept-sheet";
import type { CopyPlan, LeftCell } from "../partner/rule";
import { areaOf } from "../formula/resolve";
import { readContents } from "./contents";
import { counted, MOST_ROWS_SHOWN, restSentence, type PaneView } from "./pane-view";
import { makeCopy, planWorkbookCopy, planPutBack, putBack, readKept } from "./partner-copy";
import type { SheetHost } from "./sheet-host";
import { makeWorkLine } from "./work-line";

function valueText({ values }: KeptFormula): string {
  const first = String(values[0]?.[0] ?? "");
  const cells = values.reduce((sum, row) => sum + row.length, 0);
  return cells === 1 ? first : `${first} and ${counted(cells - 1, "more cell")}`;
}

/** What is about to happen to the formulas of a workbook. */
interface Announcement {
  readonly title: string;
  readonly apply: string;
  readonly isPutBack: boolean;
  readonly onApply: () => void;
}

/** Cells that the rule leaves, with the reason. */
function leftTable(left: readonly LeftCell[], jump: (place: SheetCell) => void): readonly HTMLElement[] {
  if (left.length === 0) return [];
  const title = "Cells that stay as they are";
  const rows = left.slice(0, MOST_ROWS_SHOWN).map((cell) => [
    button(labelOf(cell), "plain", () => {
      jump(cell);
    }),
    cell.why,
  ]);
  return [
    element(
      "section",
      { class: "bln-view" },
      element("h2", { class: "bln-title" }, title),
      scrollingTable(title, ["cell", "because"], rows),
      element("p", { class: "bln-quiet" }, restSentence(left.length)),
    ),
  ];
}

/** Every change before it is made, and the button that makes it. */
function planView(
  plan: CopyPlan,
  told: Announcement,
  jump: (place: SheetCell) => void,
): readonly HTMLElement[] {
  const changes = plan.formulas.slice(0, MOST_ROWS_SHOWN).map((kept) => {
    const [formula, value] = [kept.formula, valueText(kept)];
    const [before, after] = told.isPutBack ? [value, formula] : [formula, value];
    return { place: kept, label: labelOf(kept), before, after };
  });
  const view = changesPreview<SheetCell>(told.title, changes, {
    applyLabel: told.apply,
    onApply: told.onApply,
    onJump: jump,
  });
  const rest = element("p", { class: "bln-quiet pane-rest" }, restSentence(plan.formulas.length));
  return [view.element, rest, ...leftTable(plan.left, jump)];
}

/** Makes a copy of values for a partner without the add-in, and puts the formulas back later. */
export function shareView(host: SheetHost, now: () => string): PaneView {
  const work = makeWorkLine();
  const stage = element("div", { class: "pane-stage" });
  const jump = (place: SheetCell): void => {
    void work.run("Going there", () => host.select(areaOf(place)));
  };

  const preview = (plan: CopyPlan, told: Announcement): void => {
    stage.replaceChildren(...planView(plan, told, jump));
  };

  const copy = async (plan: CopyPlan): Promise<void> => {
    const isDone = await work.run("Making the copy", async (onProgress) => {
      await makeCopy(host, plan, now(), onProgress);
      return true;
    });
    if (isDone !== true) return;
    await begin(
      `${counted(plan.formulas.length, "formula")} became values. Save the workbook under another name and send that file.`,
    );
  };
  const planTheCopy = async (): Promise<void> => {
    const plan = await work.run(
      "Reading the workbook",
      async (onProgress, signal) => planWorkbookCopy(await readContents(host, onProgress, signal)),
      "can stop",
    );
    if (plan === undefined) return;
    preview(plan, {
      title: "What would become values",
      apply: `Make the partner copy: ${counted(plan.formulas.length, "formula")}`,
      isPutBack: false,
      onApply: () => void copy(plan),
    });
  };

  const restore = async (kept: KeptFormulas, plan: CopyPlan): Promise<void> => {
    const isDone = await work.run("Putting back", async (onProgress) => {
      await putBack(host, kept, plan, onProgress);
      return true;
    });
    if (isDone === true) await begin(`${counted(plan.formulas.length, "formula")} put back.`);
  };
  const planTheReturn = async (kept: KeptFormulas): Promise<void> => {
    const plan = await work.run("Reading the workbook", (onProgress) => planPutBack(host, kept, onProgress));
    if (plan === undefined) return;
    preview(plan, {
      title: "What would be put back",
      apply: `Put back ${counted(plan.formulas.length, "formula")}`,
      isPutBack: true,
      onApply: () => void restore(kept, plan),
    });
  };

  async function begin(first = ""): Promise<void> {
    const kept = await work.run("Reading", async () => ({ found: await readKept(host) }));
    if (kept === undefined) return;
    work.say(first);
    const { found } = kept;
    stage.replaceChildren(
      element(
        "section",
        { class: "bln-view" },
        ...(found === undefined
          ? [
              element(
                "p",
                {},
                "Someone without this add-in sees the last values of its functions, and #NAME? once Excel computes them again. ",
                `A partner copy holds values instead; each formula is kept on the sheet "${KEPT_SHEET}".`,
              ),
              button("Show what would change", "primary", () => void planTheCopy()),
            ]
          : [
              element(
                "p",
                {},
                `This workbook is a partner copy of ${found.taken.slice(0, 10)}: it keeps ${counted(found.formulas.length, "formula")}.`,
              ),
              button("Show what would be put back", "primary", () => void planTheReturn(found)),
            ]),
      ),
    );
  }

  return {
    label: "Share",
    needs: "1.12",
    element: element(
      "div",
      { class: "pane-view" },
      element(
        "section",
        { class: "bln-view" },
        element("h2", { class: "bln-title" }, "Share with a partner"),
        work.element,
      ),
      stage,
    ),
    shown: () => void begin(),
  };
}
