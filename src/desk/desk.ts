import "../ui/styles.css";
import type { CellPlace } from "../sheet/engine";
import { typedFormula } from "../formula/names";
import { element } from "../ui/element";
import { saveFile } from "../ui/picture";
import { cellAddress, quoteSheet, rangeAddress } from "../formula/address";
import { resolveReference } from "../formula/resolve";
import { createWorkbook } from "../workbook/create";
import { scopeOf } from "../workbook/scope";
import type { WorkbookModel } from "../workbook/model";
import "./desk.css";
import { ask } from "./ask";
import { makeBar } from "./bar";
import { makeFunctionsView } from "./functions-view";
import { Grid } from "./grid";
import type { Outcome, Writing } from "./messages";
import { makePanel } from "./panel";
import { failureSentence, makeProblemsView } from "./problems";
import { Refusal, Session } from "./session";
import { makeStatusLine } from "./status";

const SAMPLE = "regatta-evening.xlsx";
const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
/** Below this width the panel covers the sheet, so it is closed at first. */
const WIDE = "(min-width: 900px)";
const DARK = "(prefers-color-scheme: dark)";

const EMPTY_WORKBOOK = {
  author: "",
  generator: "Balloon desk",
  date: "2026-01-01T00:00:00Z",
  sheets: [{ name: "Sheet1", cells: {} }],
};

function part(selector: string): HTMLElement {
  const found = document.querySelector<HTMLElement>(selector);
  if (!found) throw new Error(`the page has no ${selector}`);
  return found;
}

/** The workbook that the page shows. */
interface Shown {
  readonly session: Session;
  readonly name: string;
  readonly model: WorkbookModel;
  isChanged: boolean;
  outcome: Pick<Outcome, "failing" | "statuses" | "uncomputed">;
}

const chooser = element("input", { type: "file", accept: `.xlsx,.xlsm,.xltx,${XLSX}`, hidden: true });
const dark = matchMedia(DARK);
const status = makeStatusLine();
let shown: Shown | undefined;
/** The file that is being read, until it is shown or given up. */
let reading: Session | undefined;

const grid = new Grid(
  part(".desk-grid"),
  {
    edited(edits) {
      if (!shown) return;
      shown.isChanged = true;
      bar.name(shown.name, true);
      shown.session.edit(edits);
      busy(true);
      status.working("Computing", undefined, () => shown?.session.stop());
    },
    selected: describe,
    history(undos, redos) {
      bar.history(undos, redos);
    },
    refused(sentence) {
      status.say(sentence, "error");
    },
  },
  dark.matches,
);
const bar = makeBar(part(".desk-bar"), {
  open: () => {
    chooser.click();
  },
  save: () => void write("workbook"),
  undo: () => {
    grid.undo();
  },
  redo: () => {
    grid.redo();
  },
  partnerCopy: () => void write("partner copy"),
  putBack: () => void write("put back"),
  togglePanel: () => {
    panel.toggle();
  },
});
const functions = makeFunctionsView({
  resolve(reference) {
    if (!shown) return undefined;
    const names = namesOfSheets();
    const at = { ...grid.place, sheet: names[grid.place.sheet] ?? "" };
    const area = resolveReference(scopeOf(shown.model), reference, at);
    return area && Promise.resolve(grid.values(names.indexOf(area.sheet), area.range));
  },
  pickReference() {
    const { sheet, range } = grid.selection;
    return Promise.resolve(`${quoteSheet(namesOfSheets()[sheet] ?? "")}!${rangeAddress(range)}`);
  },
  onInsert(formula) {
    const { place } = grid;
    if (!grid.write(place, formula)) return "it was not put into the sheet";
    return `put into ${cellAddress(place.row, place.column)}`;
  },
});
const problems = makeProblemsView((place) => {
  if (!matchMedia(WIDE).matches) panel.toggle(false);
  grid.goTo(place);
});
const panel = makePanel(part(".desk-panel"), [
  { title: "Functions", element: functions.element },
  { title: "Problems", element: problems.element },
]);

function namesOfSheets(): readonly string[] {
  return shown?.model.sheets.map((sheet) => sheet.name) ?? [];
}

/** Says to assistive software whether the sheet is about to change by itself. */
function busy(isBusy: boolean): void {
  part(".desk-grid").setAttribute("aria-busy", String(isBusy));
}

function isAt(place: CellPlace): (cell: CellPlace) => boolean {
  return ({ sheet, row, column }) => sheet === place.sheet && row === place.row && column === place.column;
}

/** Says what a cell shows, and what is wrong with it: the sheet is a picture to those who do not see it. */
function describe(place: CellPlace): void {
  const failing = shown?.outcome.failing.find(isAt(place));
  const kept = shown?.outcome.uncomputed.find(isAt(place));
  const address = cellAddress(place.row, place.column);
  if (failing) status.say(`${address} shows ${failing.error}: ${failureSentence(failing)}`, "error");
  else if (kept) status.say(`${address} keeps its stored value: ${kept.why}`);
  else {
    const note = shown?.model.sheets[place.sheet]?.notes.get(address);
    status.say(`${address} ${grid.text(place)}${note === undefined ? "" : ` (note: ${note})`}`);
  }
}

function showOutcome(outcome: Outcome): void {
  if (!shown) return;
  grid.show(outcome.changed);
  grid.showSpills(outcome.spills);
  shown.outcome = outcome;
  problems.show(outcome, namesOfSheets());
  panel.count("Problems", outcome.failing.length + outcome.statuses.length + outcome.uncomputed.length);
  functions.refresh();
  status.rest();
  describe(grid.place);
  void grid.drawn().then(() => {
    busy(false);
  });
}

/** Opens a workbook; `note` says what was done to it since it was a file. */
async function open(bytes: Uint8Array, name: string, note?: string): Promise<void> {
  reading?.close();
  const session = new Session({
    progressed: (share) => {
      status.working("Computing", share, () => {
        session.stop();
      });
    },
    computed: showOutcome,
    stopped: () => {
      busy(false);
      status.rest();
      status.say(
        "computing was stopped: formulas show what they held before, until you change or save",
        "error",
      );
    },
    failed: (sentence) => {
      busy(false);
      status.rest();
      status.say(sentence, "error");
    },
  });
  reading = session;
  busy(true);
  status.working(`Opening ${name}`, undefined, () => {
    session.close();
  });
  try {
    const { model, spills } = await session.open(bytes);
    shown?.session.close();
    shown = {
      session,
      name,
      model,
      isChanged: note !== undefined,
      outcome: { failing: [], statuses: [], uncomputed: [] },
    };
    grid.open(model, name, typedFormula);
    grid.showSpills(spills);
    bar.name(name, shown.isChanged);
    bar.history(0, 0);
    status.say(note ?? "");
    status.working("Computing", undefined, () => {
      session.stop();
    });
    reading = undefined;
    await grid.drawn();
    performance.mark("desk-shown");
    // Whoever types elsewhere already is not drawn away.
    if (document.activeElement === document.body) grid.focus();
  } catch (error) {
    session.close();
    status.rest();
    busy(false);
    const kept = shown ? `; ${shown.name} is still open` : "";
    status.say(
      `${name} was not opened: ${error instanceof Refusal ? error.message : String(error)}${kept}`,
      "error",
    );
  } finally {
    if (reading === session) reading = undefined;
  }
}

async function openFile(file: File): Promise<void> {
  if (shown?.isChanged && !(await ask(`${shown.name} has changes that are not saved.`, `Open ${file.name}`)))
    return;
  await open(new Uint8Array(await file.arrayBuffer()), file.name);
}

const ENDINGS: Readonly<Record<Writing, string>> = {
  workbook: "",
  "partner copy": " (values)",
  "put back": "",
};

async function write(writing: Writing): Promise<void> {
  if (!shown) return;
  const { session, name } = shown;
  status.working("Saving", undefined, undefined);
  try {
    const { bytes, note } = await session.write(writing);
    if (writing === "put back") {
      await open(bytes, name, note);
      return;
    }
    const named = name.replace(
      /(\.[a-z]+)?$/i,
      (ending) => `${ENDINGS[writing]}${ending === "" ? ".xlsx" : ending}`,
    );
    saveFile(new Blob([bytes as Uint8Array<ArrayBuffer>], { type: XLSX }), named);
    if (writing === "workbook") {
      shown.isChanged = false;
      bar.name(name, false);
    }
    status.say(`saved as ${named}${note === "" ? "" : `: ${note}`}`);
  } catch (error) {
    status.say(`${name} was not saved: ${error instanceof Error ? error.message : String(error)}`, "error");
  }
  status.rest();
}

function listenForFiles(): void {
  document.body.append(chooser);
  chooser.addEventListener("change", () => {
    const [file] = chooser.files ?? [];
    // Emptied, so that choosing the same file again is a change too.
    if (file) void openFile(file).finally(() => (chooser.value = ""));
  });

  const hint = element("div", { class: "desk-drop", hidden: true }, "Drop the workbook here");
  document.body.append(hint);
  const isFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") === true;
  addEventListener("dragover", (event) => {
    if (!isFile(event)) return;
    event.preventDefault();
    hint.hidden = false;
  });
  addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) hint.hidden = true;
  });
  addEventListener("drop", (event) => {
    if (!isFile(event)) return;
    event.preventDefault();
    hint.hidden = true;
    const [file] = event.dataTransfer?.files ?? [];
    if (file) void openFile(file);
  });
}

function listenForKeys(): void {
  addEventListener(
    "keydown",
    (event) => {
      const key = event.ctrlKey || event.metaKey ? `Ctrl+${event.key.toLowerCase()}` : event.key;
      const run = {
        "Ctrl+s": () => void write("workbook"),
        "Ctrl+o": () => {
          chooser.click();
        },
        F6: changeSide,
      }[key];
      if (!run) return;
      event.preventDefault();
      event.stopPropagation();
      run();
    },
    { capture: true },
  );
}

/** Moves the keyboard between the sheet and the panel. */
function changeSide(): void {
  if (panel.element.contains(document.activeElement)) grid.focus();
  else {
    panel.toggle(true);
    panel.focus();
  }
}

async function start(): Promise<void> {
  part(".desk-status").append(status.element);
  panel.toggle(matchMedia(WIDE).matches);
  listenForFiles();
  listenForKeys();
  dark.addEventListener("change", ({ matches }) => {
    grid.setDark(matches);
  });
  addEventListener("beforeunload", (event) => {
    if (shown?.isChanged) event.preventDefault();
  });
  // Without https or localhost there is no service worker, and the page works all the same.
  if ("serviceWorker" in navigator)
    void navigator.serviceWorker.register("offline.js").catch(() => undefined);
  const response = await fetch(SAMPLE).catch(() => undefined);
  if (response?.ok) await open(new Uint8Array(await response.arrayBuffer()), SAMPLE);
  else await open(createWorkbook(EMPTY_WORKBOOK), "New workbook.xlsx");
}

void start();
