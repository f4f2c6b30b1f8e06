import type { CellPlace } from "../sheet/engine";
import type { Restructuring } from "../workbook/restructure";
import { Book } from "./book";
import type { Drafts } from "./drafts";
import type { Grid } from "./grid";
import type { GridChange } from "./grid-changes";
import type { CalculationOutcome } from "./messages";
import { Session } from "./session";
import type { OfferedAction, StatusLine } from "./status";
import { undrawnFeatures } from "./undrawn";
import { messageOf } from "../ui/message-of";

/** How long after a change a draft is kept, in milliseconds. */
const DRAFT_DELAY = 700;

/** How long after a workbook is shown it is got ready for edits, in milliseconds. */
const PREPARATION_DELAY = 200;

/** What stands around the open workbook and follows it. */
export interface BookSurroundings {
  readonly grid: Grid;
  readonly status: StatusLine;
  readonly drafts: Drafts;
  /** Between whole numbers and their fractions, as the reader writes them. */
  decimal(): string;
  /** Says to assistive software whether the sheet is about to change by itself. */
  busy(isBusy: boolean): void;
  named(name: string, isChanged: boolean): void;
  history(canUndo: boolean, canRedo: boolean): void;
  /** What a person can do with a cell beside typing, in words. */
  hint(place: CellPlace): string | undefined;
  /** Where a cell's link leads. */
  offer(place: CellPlace): OfferedAction | undefined;
  /** Something was computed and is shown. */
  computed(book: Book): void;
}

/** The one workbook that is open on the page, from its opening until another takes its place. */
export class OpenBook {
  private current: Book | undefined;
  /** The file that is being read, until it is shown or given up. */
  private reading: Session | undefined;
  /** What is said once about a file when it is open. */
  private welcome: string | undefined;
  private drafting: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly around: BookSurroundings) {}

  get book(): Book | undefined {
    return this.current;
  }

  /** Opens a workbook; `note` says what was done to it since it was a file. */
  async open(bytes: Uint8Array, name: string, note?: string): Promise<void> {
    const { grid, status, decimal } = this.around;
    this.reading?.close();
    const session = this.makeSession();
    this.reading = session;
    this.around.busy(true);
    status.working(`Opening ${name}`, undefined, () => {
      session.close();
    });
    try {
      const opened = await session.open(bytes);
      const before = this.current;
      this.current = new Book(grid, session, name, bytes, opened, note === undefined, decimal);
      before?.close();
      this.noteChange();
      this.showHistory();
      this.welcome = note ?? undrawnFeatures(opened.model);
      this.computing();
      this.reading = undefined;
      await grid.drawn();
      performance.mark("desk-shown");
      setTimeout(() => this.current?.prepare(), PREPARATION_DELAY);
      // Whoever types elsewhere already is not drawn away.
      if (document.activeElement === document.body) grid.focus();
    } catch (error) {
      session.close();
      this.rest();
      this.notOpened(name, error);
    } finally {
      if (this.reading === session) this.reading = undefined;
    }
  }

  notOpened(name: string, error: unknown): void {
    const kept = this.current ? `; ${this.current.name} is still open` : "";
    this.around.status.say(`${name} was not opened: ${messageOf(error)}${kept}`, "error");
  }

  /** Takes up what a person did in the grid. */
  change(change: GridChange): void {
    if (this.current?.change(change)) this.computing();
    this.noteChange();
  }

  async restructure(change: Restructuring): Promise<void> {
    const { current: book } = this;
    const { grid, status } = this.around;
    if (!book) return;
    this.around.busy(true);
    status.working("Changing the workbook", undefined, () => {
      book.stop();
    });
    try {
      await book.restructure(change, placeAfter(change, grid.place));
      this.computing();
      this.noteChange();
      this.showHistory();
      grid.focus();
    } catch (error) {
      this.rest();
      status.say(`nothing was changed: ${messageOf(error)}`, "error");
    }
  }

  /** How many steps the grid itself can go back and forth. */
  steps(undos: number, redos: number): void {
    this.current?.history(undos, redos);
    this.showHistory();
  }

  undo(): void {
    this.current?.undo();
    this.noteChange();
    this.showHistory();
  }

  redo(): void {
    this.current?.redo();
    this.noteChange();
    this.showHistory();
  }

  /** Says what a cell shows, what is wrong with it and what can be done about it. */
  describe(place: CellPlace): void {
    const { grid, status } = this.around;
    const said = this.current?.describe(place);
    if (!said) return;
    const { sentence, isFault, suggestion } = said;
    const hint = this.around.hint(place);
    status.say(
      hint === undefined ? sentence : `${sentence} (${hint})`,
      isFault ? "error" : "plain",
      suggestion === undefined
        ? this.around.offer(place)
        : {
            label: `Did you mean ${suggestion}`,
            run: () => {
              grid.write(place, [[{ content: suggestion }]]);
              grid.focus();
            },
          },
    );
  }

  /** Shows whether the workbook differs from its file, and keeps a draft where it does. */
  noteChange(): void {
    const { current: book } = this;
    const { drafts } = this.around;
    if (!book) return;
    this.around.named(book.name, book.isChanged);
    clearTimeout(this.drafting);
    this.drafting = setTimeout(() => {
      const kept = book.isChanged ? drafts.keep({ ...book.draft, time: Date.now() }) : drafts.drop();
      kept.catch(() => undefined);
    }, DRAFT_DELAY);
  }

  /** A worker for a workbook that reports to this page. */
  makeSession(): Session {
    const { status } = this.around;
    return new Session({
      progressed: (share, doing) => {
        const stop = doing === "Opening" ? () => this.reading?.close() : () => this.current?.stop();
        status.working(doing, share, stop);
      },
      glanced: (cells) => {
        this.around.grid.show(cells);
      },
      computed: (outcome) => {
        this.around.grid.afterResults(() => {
          this.showOutcome(outcome);
        });
      },
      shaded: (cells) => {
        this.around.grid.shade(cells);
      },
      stopped: () => {
        this.rest();
        status.say(
          "computing was stopped: formulas show what they held before, until you change or save; nothing typed is lost",
          "error",
        );
      },
      failed: (sentence) => {
        this.rest();
        status.say(sentence, "error");
      },
    });
  }

  private showOutcome(outcome: CalculationOutcome): void {
    const { current: book } = this;
    const { grid, status } = this.around;
    if (!book) return;
    book.showOutcome(outcome);
    this.around.computed(book);
    status.rest();
    if (this.welcome === undefined) this.describe(grid.place);
    else status.say(this.welcome);
    this.welcome = undefined;
    void grid.drawn().then(() => {
      this.around.busy(false);
    });
  }

  private showHistory(): void {
    this.around.history(this.current?.canUndo ?? false, this.current?.canRedo ?? false);
  }

  private computing(): void {
    this.around.busy(true);
    this.around.status.working("Computing", undefined, () => this.current?.stop());
  }

  private rest(): void {
    this.around.busy(false);
    this.around.status.rest();
  }
}

/** Where to go once a changed workbook is shown again. */
function placeAfter(change: Restructuring, place: CellPlace): CellPlace {
  if (change.kind === "addSheet" || change.kind === "moveSheet") return { ...place, sheet: change.to };
  return change.kind === "copySheet" ? { ...place, sheet: change.sheet + 1 } : place;
}
