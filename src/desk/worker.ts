import { WorkbookError } from "../workbook/model";
import { Calculation } from "./calculation";
import type { Edit, Report, Request } from "./messages";

let calculation: Calculation | undefined;
let isReady = false;
/** Whether the last recalculation came to its end. */
let isComplete = false;
let stopping = new AbortController();
let pending: readonly Edit[] = [];
/** The last recalculation asked for; a file is written after it. */
let computing: Promise<void> | undefined;

function post(report: Report): void {
  // A page listens, not a frame of another origin.
  (self as unknown as { postMessage(report: Report): void }).postMessage(report);
}

function sentenceOf(error: unknown): string {
  if (error instanceof WorkbookError) return error.message;
  return `the page has a fault of its own, please report it: ${error instanceof Error ? error.message : String(error)}`;
}

async function computeUntilDone(current: Calculation): Promise<void> {
  do {
    const edits = pending;
    pending = [];
    await current.edit(edits);
    stopping = new AbortController();
    const { signal } = stopping;
    try {
      const outcome = await current.recalculate((share) => {
        post({ kind: "progress", share });
      }, signal);
      isComplete = true;
      post({ kind: "computed", outcome });
    } catch (error) {
      isComplete = false;
      if (!signal.aborted) throw error;
      post({ kind: "stopped" });
    }
  } while (pending.length > 0);
}

function compute(): void {
  if (computing || !calculation || !isReady) return;
  computing = computeUntilDone(calculation)
    .catch((error: unknown) => {
      post({ kind: "failed", sentence: sentenceOf(error) });
    })
    .finally(() => {
      computing = undefined;
    });
}

async function open(bytes: Uint8Array): Promise<void> {
  try {
    calculation = new Calculation(bytes);
    post({ kind: "opened", model: calculation.model, spills: calculation.filled });
    // The grid shows the stored values while the engine, most of the code, still loads.
    const { makeEngine } = await import("./make-engine");
    await calculation.load(makeEngine());
    isReady = true;
    compute();
  } catch (error) {
    post({ kind: "failed", sentence: sentenceOf(error) });
  }
}

async function write(id: number, writing: Extract<Request, { kind: "write" }>["writing"]): Promise<void> {
  try {
    await computing;
    // What was stopped is finished first: a file with half of its results would be wrong.
    if (!isComplete) compute();
    await computing;
    if (!calculation || !isComplete) throw new WorkbookError("the workbook is not computed");
    post({ kind: "written", id, ...calculation.written(writing) });
  } catch (error) {
    post({ kind: "refused", id, sentence: sentenceOf(error) });
  }
}

self.addEventListener("message", ({ data }: MessageEvent<Request>) => {
  switch (data.kind) {
    case "open":
      void open(data.bytes);
      break;
    case "edit":
      pending = [...pending, ...data.edits];
      compute();
      break;
    case "stop":
      stopping.abort();
      break;
    case "write":
      void write(data.id, data.writing);
  }
});
