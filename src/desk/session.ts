import type { WorkbookModel } from "../workbook/model";
import type { Edit, Outcome, Report, Request, Spill, Writing } from "./messages";

/** What an open workbook tells the page. */
export interface SessionEvents {
  progressed(share: number): void;
  computed(outcome: Outcome): void;
  /** Computing was stopped before its end: nothing new is shown, and the next edit goes on with the rest. */
  stopped(): void;
  /** A fault of the page's own; the workbook stays as shown. */
  failed(sentence: string): void;
}

/** A workbook as the worker read it. */
export interface OpenedWorkbook {
  readonly model: WorkbookModel;
  readonly spills: readonly Spill[];
}

/** A file that was written, with a sentence about it. */
export interface WrittenFile {
  readonly bytes: Uint8Array;
  readonly note: string;
}

/** Why something was not done, as a sentence for a person. */
export class Refusal extends Error {}

interface Waiting<T> {
  readonly resolve: (value: T) => void;
  readonly reject: (refusal: Refusal) => void;
}

/** One open workbook, held and computed by a worker of its own, so that the page never waits for it. */
export class Session {
  private readonly worker = new Worker(new URL("./worker.ts", import.meta.url), { name: "workbook" });
  private readonly writing = new Map<number, Waiting<WrittenFile>>();
  private opening: Waiting<OpenedWorkbook> | undefined;
  private nextId = 1;

  constructor(private readonly events: SessionEvents) {
    this.worker.addEventListener("message", ({ data }: MessageEvent<Report>) => {
      this.receive(data);
    });
    this.worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.fail(event.message === "" ? "the part of the page that computes did not start" : event.message);
    });
  }

  /** Opens a file once; rejects with a Refusal for one that cannot be read. */
  open(bytes: Uint8Array): Promise<OpenedWorkbook> {
    return new Promise((resolve, reject) => {
      this.opening = { resolve, reject };
      this.send({ kind: "open", bytes });
    });
  }

  edit(edits: readonly Edit[]): void {
    this.send({ kind: "edit", edits });
  }

  /** Ends the recalculation under way; cells not reached keep their values. */
  stop(): void {
    this.send({ kind: "stop" });
  }

  /** The file as it stands once everything is computed; rejects with a Refusal where it cannot be written. */
  write(writing: Writing): Promise<WrittenFile> {
    const id = this.nextId++;
    return new Promise((resolve, reject) => {
      this.writing.set(id, { resolve, reject });
      this.send({ kind: "write", id, writing });
    });
  }

  /** Ends the worker, whatever it is doing. */
  close(): void {
    this.worker.terminate();
    this.opening?.reject(new Refusal("opening was stopped"));
  }

  private send(request: Request): void {
    this.worker.postMessage(request);
  }

  private receive(report: Report): void {
    switch (report.kind) {
      case "opened":
        this.opening?.resolve(report);
        this.opening = undefined;
        break;
      case "progress":
        this.events.progressed(report.share);
        break;
      case "computed":
        this.events.computed(report.outcome);
        break;
      case "stopped":
        this.events.stopped();
        break;
      case "written":
        this.writing.get(report.id)?.resolve(report);
        this.writing.delete(report.id);
        break;
      case "refused":
        this.writing.get(report.id)?.reject(new Refusal(report.sentence));
        this.writing.delete(report.id);
        break;
      case "failed":
        this.fail(report.sentence);
    }
  }

  private fail(sentence: string): void {
    if (this.opening) this.opening.reject(new Refusal(sentence));
    else this.events.failed(sentence);
    this.opening = undefined;
  }
}
