import type { CellValue } from "../workbook/model";
import type { Restructuring } from "../workbook/restructure";
import type { CellPlace } from "../sheet/engine";
import type { SheetRange } from "../sheet/rectangles";
import type { ConditionalCell } from "./conditional-looks";
import type { Paper } from "../paper/markup";
import type {
  Doing,
  Dressing,
  Edit,
  OpenedWorkbook,
  CalculationOutcome,
  PaperRequest,
  Report,
  Request,
  ShownCell,
  Work,
  Writing,
} from "./messages";
import { unpackModel } from "./model-transfer";

/** What an open workbook tells the page. */
export interface SessionEvents {
  progressed(share: number, doing: Doing): void;
  /** New values of cells in sight, while the rest is still computed. */
  glanced(cells: readonly ShownCell[]): void;
  computed(outcome: CalculationOutcome): void;
  /** How cells look under conditions, all of them anew. */
  shaded(cells: readonly ConditionalCell[]): void;
  /** Computing was stopped before its end: nothing new is shown, and the next edit goes on with the rest. */
  stopped(): void;
  /** A fault of the page's own; the workbook stays as shown. */
  failed(sentence: string): void;
}

/** A file that was written, with a sentence about it. */
export interface WrittenFile {
  readonly bytes: Uint8Array;
  readonly note: string;
}

/** A workbook with another structure, as a file and as read from it. */
export interface RestructuredWorkbook extends OpenedWorkbook {
  readonly bytes: Uint8Array;
}

/** Why something was not done, as a sentence for a person. */
export class SessionRefusal extends Error {}

interface Waiting<T> {
  readonly resolve: (value: T) => void;
  readonly reject: (refusal: SessionRefusal) => void;
}

/** How long a stopped worker may take to answer before it is replaced, in milliseconds. */
const PATIENCE = 600;

/** One open workbook, held and computed by a worker of its own, so that the page never waits for it. */
export class Session {
  /** Ends with the worker, which may still report that its end cut something short. */
  private listening = new AbortController();
  private worker = this.makeWorker();
  /** Who waits for which answer, by the id of the request. */
  private readonly waiting = new Map<number, Waiting<never>>();
  private opening: Waiting<OpenedWorkbook> | undefined;
  private nextId = 1;
  private impatience: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly events: SessionEvents) {}

  private makeWorker(): Worker {
    const worker = new Worker(new URL("./worker.ts", import.meta.url), { name: "workbook" });
    const { signal } = this.listening;
    worker.addEventListener("message", ({ data }: MessageEvent<Report>) => this.receive(data), { signal });
    worker.addEventListener(
      "error",
      (event) => {
        event.preventDefault();
        this.fail(event.message === "" ? "the part of the page that computes did not start" : event.message);
      },
      { signal },
    );
    return worker;
  }

  /** Opens a file; rejects with a Refusal for one that cannot be read. */
  open(bytes: Uint8Array): Promise<OpenedWorkbook> {
    return new Promise((resolve, reject) => {
      this.opening = { resolve, reject };
      this.send({ kind: "open", bytes });
    });
  }

  /** Goes back to a file and what was done to it, and computes it. */
  resume(bytes: Uint8Array, work: Work): void {
    this.restart(bytes, work);
    this.send({ kind: "compute" });
  }

  /** `inSight`: what a person looks at, which is computed and shown first. */
  edit(edits: readonly Edit[], inSight: readonly SheetRange[]): void {
    this.send({ kind: "edit", edits, inSight });
  }

  dress(dressing: Dressing): void {
    this.send({ kind: "dress", ...dressing });
  }

  /**
   * Ends the recalculation under way; cells not reached keep their values. A worker that does not answer is replaced
   * by one that holds the same file and work.
   */
  stop(bytes: Uint8Array, work: () => Work): void {
    this.send({ kind: "stop" });
    this.impatience ??= setTimeout(() => {
      this.restart(bytes, work());
      this.events.stopped();
    }, PATIENCE);
  }

  /** The file as it stands once everything is computed; rejects with a Refusal where it cannot be written. */
  write(writing: Writing): Promise<WrittenFile> {
    return this.ask((id) => ({ kind: "write", id, writing }));
  }

  /** What a formula gives in a cell once everything is computed; undefined where that cannot be told. */
  values(place: CellPlace, formula: string): Promise<readonly CellValue[] | undefined> {
    return this.ask((id) => ({ kind: "evaluate", id, place, formula }));
  }

  /** A sheet on paper once everything is computed; rejects with a Refusal where there is nothing to print. */
  layOut(request: PaperRequest): Promise<Paper> {
    return this.ask((id) => ({ kind: "lay out", id, ...request }));
  }

  /** Inserts, deletes, moves or merges in the file itself, and goes on with the new file. */
  restructure(change: Restructuring): Promise<RestructuredWorkbook> {
    return this.ask((id) => ({ kind: "restructure", id, change }));
  }

  /** Ends the worker, whatever it is doing. */
  close(): void {
    this.abandon("it was stopped");
  }

  private restart(bytes: Uint8Array, work: Work): void {
    this.abandon("it was stopped");
    this.listening = new AbortController();
    this.worker = this.makeWorker();
    this.send({ kind: "open", bytes, resumed: work });
  }

  private abandon(why: string): void {
    clearTimeout(this.impatience);
    this.impatience = undefined;
    this.listening.abort();
    this.worker.terminate();
    const refusal = new SessionRefusal(why);
    for (const { reject } of this.waiting.values()) reject(refusal);
    this.waiting.clear();
    this.opening?.reject(refusal);
    this.opening = undefined;
  }

  private ask<T>(request: (id: number) => Request): Promise<T> {
    const id = this.nextId++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.send(request(id));
    });
  }

  private answer(id: number, settle: (waiting: Waiting<never>) => void): void {
    const waiting = this.waiting.get(id);
    this.waiting.delete(id);
    if (waiting) settle(waiting);
  }

  private send(request: Request): void {
    this.worker.postMessage(request);
  }

  private receive(report: Report): void {
    if (["computed", "stopped", "written"].includes(report.kind)) {
      clearTimeout(this.impatience);
      this.impatience = undefined;
    }
    switch (report.kind) {
      case "opened":
        this.opening?.resolve({ ...report, model: unpackModel(report.model) });
        this.opening = undefined;
        break;
      case "restructured":
        this.answer(report.id, ({ resolve }) => {
          resolve({ ...report, model: unpackModel(report.model) } as never);
        });
        break;
      case "written":
        this.answer(report.id, ({ resolve }) => {
          resolve(report as never);
        });
        break;
      case "evaluated":
        this.answer(report.id, ({ resolve }) => {
          resolve(report.values as never);
        });
        break;
      case "laid out":
        this.answer(report.id, ({ resolve }) => {
          resolve(report.paper as never);
        });
        break;
      case "progress":
        this.events.progressed(report.share, report.doing);
        break;
      case "glanced":
        this.events.glanced(report.cells);
        break;
      case "computed":
        this.events.computed(report.outcome);
        break;
      case "shaded":
        this.events.shaded(report.cells);
        break;
      case "stopped":
        this.events.stopped();
        break;
      case "refused":
        this.answer(report.id, ({ reject }) => {
          reject(new SessionRefusal(report.sentence));
        });
        break;
      case "failed":
        this.fail(report.sentence);
    }
  }

  private fail(sentence: string): void {
    if (this.opening) this.opening.reject(new SessionRefusal(sentence));
    else this.events.failed(sentence);
    this.opening = undefined;
  }
}
