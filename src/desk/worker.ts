import { sheetPaper } from "../paper/markup";
import { WorkbookError } from "../workbook/model";
import { openWorkbook } from "../workbook/read";
import { restructured } from "../workbook/restructure";
import type { SheetRange } from "../sheet/rectangles";
import { Calculation } from "./calculation";
import { formulaValues } from "./formula-values";
import { Journal } from "./journal";
import type { Doing, Edit, Report, Request, Writing } from "./messages";
import { packModel, transferred } from "./model-transfer";
import { rehearse } from "./rehearsal";
import { shadedCells } from "./shading";
import { messageOf } from "../ui/message-of";

let calculation: Calculation | undefined;
/** Looks and widths that changed; they are written into the file and never computed with. */
let dressing: Journal | undefined;
/** The engine taking up the workbook; nothing is computed before. */
let loading: Promise<void> | undefined;
/** Whether computing was asked for before the engine had the workbook. */
let isWanted = false;
/** Whether the last recalculation came to its end. */
let isComplete = false;
/** Whether what a change of a price runs has run before, for the workbook that is open. */
let isRehearsed = false;
let rehearsal = new AbortController();
let stopping = new AbortController();
let shading = new AbortController();
/** How often a person stopped what was under way; what waits since before gives up. */
let stops = 0;
let pending: readonly Edit[] = [];
/** What a person looked at when the last edit was made. */
let inSight: readonly SheetRange[] = [];
/** The last recalculation asked for; a file is written after it. */
let computing: Promise<void> | undefined;

/** Milliseconds that getting ready may take: formulas that are slow themselves gain nothing by it. */
const READY_WITHIN = 500;

/** `given`: buffers that the worker needs no more. */
function post(report: Report, given: readonly ArrayBufferLike[] = []): void {
  // A page listens, not a frame of another origin.
  const page = self as unknown as { postMessage(report: Report, given: readonly ArrayBufferLike[]): void };
  page.postMessage(report, given);
}

function progress(doing: Doing): (share: number) => void {
  return (share) => {
    post({ kind: "progress", doing, share });
  };
}

function sentenceOf(error: unknown): string {
  if (error instanceof WorkbookError) return error.message;
  return `the page has a fault of its own, please report it: ${messageOf(error)}`;
}

async function takeEdits(current: Calculation): Promise<void> {
  const edits = pending;
  pending = [];
  await current.edit(edits);
}

async function computeUntilDone(current: Calculation): Promise<void> {
  do {
    shading.abort();
    await takeEdits(current);
    stopping = new AbortController();
    const { signal } = stopping;
    try {
      const outcome = await current.recalculate(progress("Computing"), signal, {
        ranges: inSight,
        told: (cells) => {
          if (cells.length > 0) post({ kind: "glanced", cells });
        },
      });
      isComplete = true;
      post({ kind: "computed", outcome });
      current.prepare();
      void shade(current);
    } catch (error) {
      isComplete = false;
      if (!signal.aborted) throw error;
      post({ kind: "stopped" });
    }
  } while (pending.length > 0);
  // Whoever stopped computing wants no more of it.
  if (!isComplete || isRehearsed) return;
  isRehearsed = true;
  void getReady(current);
}

async function getReady({ model }: Calculation): Promise<void> {
  const own = new AbortController();
  rehearsal = own;
  const end = setTimeout(() => {
    own.abort();
  }, READY_WITHIN);
  try {
    const { makeRehearsalEngine } = await import("./make-engine");
    await rehearse(makeRehearsalEngine(), model, own.signal);
  } catch {
    // Whatever ended it: the first change is only slower.
  } finally {
    clearTimeout(end);
  }
}

/** Works out looks under conditions, after the values that they ask for. */
async function shade(current: Calculation): Promise<void> {
  shading = new AbortController();
  const { signal } = shading;
  const cells =
    current.cells && (await shadedCells(current.model, current.cells, signal).catch(() => undefined));
  if (cells && !signal.aborted && current === calculation) post({ kind: "shaded", cells });
}

function compute(): void {
  if (loading) isWanted = true;
  if (computing || !calculation || loading) return;
  computing = computeUntilDone(calculation)
    .catch((error: unknown) => {
      post({ kind: "failed", sentence: sentenceOf(error) });
    })
    .finally(() => {
      computing = undefined;
    });
}

/** Takes up a workbook; `isIdle`: nothing is computed until it is asked for. */
async function begin(next: Calculation, isIdle: boolean): Promise<void> {
  calculation = next;
  dressing = new Journal(next.model);
  isComplete = false;
  isRehearsed = false;
  isWanted = !isIdle;
  // The grid shows the stored values while the engine, most of the code, still loads.
  loading = import("./make-engine").then(({ makeEngine }) => next.load(makeEngine()));
  await loading;
  loading = undefined;
  if (isWanted) compute();
}

async function open({ bytes, resumed }: Extract<Request, { kind: "open" }>): Promise<void> {
  try {
    // What is taken up again is shown already.
    const onProgress = resumed === undefined ? progress("Opening") : undefined;
    const next = new Calculation(bytes, resumed !== undefined, onProgress);
    const model = packModel(next.model);
    post({ kind: "opened", model, spills: next.filled }, transferred(model));
    const begun = begin(next, resumed !== undefined);
    if (resumed) {
      dressing?.dress(resumed);
      pending = [...resumed.edits, ...pending];
    }
    await begun;
  } catch (error) {
    post({ kind: "failed", sentence: sentenceOf(error) });
  }
}

/** Settles once nothing is computed; throws where a person stopped it meanwhile. */
async function settled(): Promise<void> {
  const before = stops;
  await loading;
  await computing;
  if (stops !== before) throw new WorkbookError("it was stopped");
}

/** The file asked for with the looks and widths of now, and a sentence about it. */
function written(
  current: Calculation,
  writing: Writing,
  onProgress?: (share: number) => void,
): { bytes: Uint8Array; note: string } {
  return current.written(writing, dressing?.work, onProgress);
}

/** The workbook once everything in it is computed. */
async function computed(): Promise<Calculation> {
  await settled();
  // What was stopped is finished first: a file with half of its results would be wrong.
  if (!isComplete || pending.length > 0) compute();
  await settled();
  if (!calculation || !isComplete) throw new WorkbookError("the workbook is not computed");
  return calculation;
}

async function write(id: number, writing: Writing): Promise<void> {
  try {
    const file = written(await computed(), writing, progress("Saving"));
    post({ kind: "written", id, ...file }, [file.bytes.buffer]);
  } catch (error) {
    post({ kind: "refused", id, sentence: sentenceOf(error) });
  }
}

async function evaluate({ id, place, formula }: Extract<Request, { kind: "evaluate" }>): Promise<void> {
  try {
    const { cells } = await computed();
    post({ kind: "evaluated", id, values: cells && (await formulaValues(cells, place, formula)) });
  } catch (error) {
    post({ kind: "refused", id, sentence: sentenceOf(error) });
  }
}

async function layOut({ id, sheet, ...running }: Extract<Request, { kind: "lay out" }>): Promise<void> {
  try {
    const { bytes } = written(await computed(), "workbook");
    post({ kind: "laid out", id, paper: sheetPaper(openWorkbook(bytes), sheet, running) });
  } catch (error) {
    post({ kind: "refused", id, sentence: sentenceOf(error) });
  }
}

async function restructure({ id, change }: Extract<Request, { kind: "restructure" }>): Promise<void> {
  try {
    await settled();
    if (!calculation) throw new WorkbookError("the workbook is not open");
    await takeEdits(calculation);
    const bytes = restructured(written(calculation, "workbook").bytes, change);
    const next = new Calculation(bytes);
    const model = packModel(next.model);
    post({ kind: "restructured", id, bytes, model, spills: next.filled }, transferred(model));
    await begin(next, false);
  } catch (error) {
    post({ kind: "refused", id, sentence: sentenceOf(error) });
  }
}

self.addEventListener("message", ({ data }: MessageEvent<Request>) => {
  rehearsal.abort();
  switch (data.kind) {
    case "open":
      void open(data);
      break;
    case "edit":
      pending = [...pending, ...data.edits];
      ({ inSight } = data);
      compute();
      break;
    case "dress":
      dressing?.dress(data);
      break;
    case "compute":
      compute();
      break;
    case "stop":
      stops++;
      stopping.abort();
      break;
    case "restructure":
      void restructure(data);
      break;
    case "evaluate":
      void evaluate(data);
      break;
    case "lay out":
      void layOut(data);
      break;
    case "write":
      void write(data.id, data.writing);
  }
});
