import "../ui/styles.css";
import "./desk.css";
import { cellAddress, quoteSheet, rangeAddress } from "../formula/address";
import { pointForm } from "../formula/comma-form";
import { resolveReference } from "../formula/resolve";
import type { CellPlace } from "../sheet/engine";
import { saveFile } from "../ui/picture";
import { createWorkbook } from "../workbook/create";
import { listAround } from "../workbook/filter-rows";
import type { Restructuring } from "../workbook/restructure";
import { scopeOf } from "../workbook/scope";
import { ask } from "./ask";
import { makeBar } from "./bar";
import { Book } from "./book";
import { rowFilter } from "./row-filter";
import { readClipboard } from "./clipboard-reading";
import { Drafts } from "./drafts";
import { listenForFiles, workbookBlob } from "./file-intake";
import { openFindDialog } from "./find-dialog";
import { foundTables } from "./found-tables";
import { makeFunctionsView } from "./functions-view";
import { Grid, type WrittenCell } from "./grid";
import { keepAccessible } from "./grid-accessibility";
import { listenForKeys } from "./keys";
import type { Outcome, Writing } from "./messages";
import { makePanel } from "./panel";
import { makePiecesPage, type PiecesHost } from "./pieces-page";
import { makePrinting } from "./printing";
import { makeProblemsView } from "./problems";
import { Refusal, Session } from "./session";
import { sortedOrder } from "./sorting";
import { makeStatusLine } from "./status";
import { makeTableView } from "./table-view";
import { takenFile } from "./text-file";
import { makeTools } from "./tools";
import { listenForTouch } from "./touch";
import { readerLocale, readTyped } from "./typed-value";
import { undrawnFeatures } from "./undrawn";

const SAMPLE = "regatta-evening.xlsx";
/** Below this width the panel covers the sheet, so it is closed at first. */
const WIDE = "(min-width: 900px)";
const DARK = "(prefers-color-scheme: dark)";
const LANGUAGE = "desk-language";
/** How long after a change a draft is kept, in milliseconds. */
const DRAFT_DELAY = 700;

const EMPTY_WORKBOOK = {
  author: "",
  generator: "Balloon desk",
  date: "2026-01-01T00:00:00Z",
  sheets: [{ name: "Sheet1", cells: {} }],
};
const ENDINGS: Readonly<Record<Writing, string>> = {
  workbook: "",
  "partner copy": " (values)",
  "put back": "",
};

function part(selector: string): HTMLElement {
  const found = document.querySelector<HTMLElement>(selector);
  if (!found) throw new Error(`the page has no ${selector}`);
  return found;
}

function sentenceOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** The page: one open workbook in the grid, with bar, tools, panel and status line around it. */
class Desk {
  private book: Book | undefined;
  /** The file that is being read, until it is shown or given up. */
  private reading: Session | undefined;
  /** What is said once about a file when it is open. */
  private welcome: string | undefined;
  private shownSheet = 0;
  private drafting: ReturnType<typeof setTimeout> | undefined;
  private locale = readerLocale(localStorage.getItem(LANGUAGE) ?? navigator.language);
  private readonly drafts = new Drafts();
  private readonly status = makeStatusLine();
  private readonly grid = new Grid(
    part(".desk-grid"),
    {
      changed: (change) => {
        if (this.book?.change(change)) this.computing();
        this.noteChange();
      },
      restructured: (change) => {
        // The grid's command ends first.
        queueMicrotask(() => void this.restructure(change));
      },
      selected: (place) => {
        if (place.sheet !== this.shownSheet) {
          this.shownSheet = place.sheet;
          this.table.show(() => this.grid.table);
        }
        this.describe(place);
      },
      history: (undos, redos) => {
        this.book?.history(undos, redos);
        this.showHistory();
      },
      refused: (sentence) => {
        this.status.say(sentence, "error");
      },
      typed: (text) => {
        const read = readTyped(text, this.locale);
        if (read && "sentence" in read)
          queueMicrotask(() => {
            this.status.say(read.sentence, "error");
          });
        return read;
      },
      typedFormula: (formula) => {
        const point = this.locale.decimal === "," ? pointForm(formula.replace(/^=/, "")) : undefined;
        return point === undefined ? undefined : `=${point}`;
      },
    },
    matchMedia(DARK).matches,
  );
  private readonly chooseFile = listenForFiles((file) => this.openFile(file));
  private readonly bar = makeBar(part(".desk-bar"), {
    open: this.chooseFile,
    save: () => void this.write("workbook"),
    print: () => void this.print(),
    undo: () => {
      this.undo();
    },
    redo: () => {
      this.redo();
    },
    partnerCopy: () => void this.write("partner copy"),
    putBack: () => void this.write("put back"),
    togglePanel: () => {
      this.panel.toggle();
    },
    reference: () => (this.locale.decimal === "," ? "reference-comma.html" : "reference.html"),
  });
  private readonly sheets: PiecesHost = {
    findTables: () => Promise.resolve(this.book ? foundTables(this.book, this.grid) : []),
    resolve: (reference) => {
      if (!this.book) return undefined;
      const names = this.book.sheetNames;
      const at = { ...this.grid.place, sheet: names[this.grid.place.sheet] ?? "" };
      const area = resolveReference(scopeOf(this.book.model), reference, at);
      return area && Promise.resolve(this.grid.values(names.indexOf(area.sheet), area.range));
    },
  };
  private readonly functions = makeFunctionsView({
    ...this.sheets,
    pickReference: () => {
      const { sheet, range } = this.grid.selection;
      return Promise.resolve(`${quoteSheet(this.book?.sheetNames[sheet] ?? "")}!${rangeAddress(range)}`);
    },
    onInsert: (formula) => this.insert(formula),
    decimal: () => this.locale.decimal,
  });
  private readonly problems = makeProblemsView((place) => {
    if (!matchMedia(WIDE).matches) this.panel.toggle(false);
    this.grid.goTo(place);
  });
  private readonly pieces = makePiecesPage(this.sheets);
  private readonly printing = makePrinting();
  private readonly table = makeTableView();
  private readonly panel = makePanel(part(".desk-panel"), [
    { title: "Functions", element: this.functions.element },
    { title: "Problems", element: this.problems.element },
    { title: "Pieces", element: this.pieces.element },
    { title: "Table", element: this.table.element },
  ]);

  async start(): Promise<void> {
    part(".desk-status").append(this.status.element);
    const tools = makeTools(this.grid, {
      sort: (isAscending) => {
        this.sort(isAscending);
      },
      filter: (isSet) => {
        this.filter(isSet);
      },
      find: () => {
        this.find();
      },
      language: this.locale.tag,
      speak: (language) => {
        localStorage.setItem(LANGUAGE, language);
        this.locale = readerLocale(language);
      },
    });
    part(".desk-toolbar").append(tools.element);
    this.panel.toggle(matchMedia(WIDE).matches);
    listenForTouch(part(".desk-grid"));
    keepAccessible();
    listenForKeys({
      grid: this.grid,
      panel: this.panel,
      bar: part(".desk-bar"),
      gridElement: part(".desk-grid"),
      save: () => void this.write("workbook"),
      print: () => void this.print(),
      open: this.chooseFile,
      undo: () => {
        this.undo();
      },
      redo: () => {
        this.redo();
      },
      find: () => {
        this.find();
      },
      paste: (html, text) => {
        this.paste(html, text);
      },
    });
    matchMedia(DARK).addEventListener("change", ({ matches }) => {
      this.grid.setDark(matches);
    });
    addEventListener("beforeunload", (event) => {
      if (this.book?.isChanged) event.preventDefault();
    });
    // Without https or localhost there is no service worker, and the page works all the same.
    if ("serviceWorker" in navigator)
      void navigator.serviceWorker.register("offline.js").catch(() => undefined);
    const lost = this.drafts.takeLost().catch(() => undefined);
    const response = await fetch(SAMPLE).catch(() => undefined);
    if (response?.ok) await this.open(new Uint8Array(await response.arrayBuffer()), SAMPLE);
    else await this.open(createWorkbook(EMPTY_WORKBOOK), "New workbook.xlsx");
    const draft = await lost;
    if (!draft) return;
    const when = new Date(draft.time).toLocaleString();
    const question = `${draft.name} had changes that were not saved when its page closed (${when}).`;
    if (await ask(question, "Go on with them", "Discard them")) await this.recover(draft);
  }

  /** Opens a workbook; `note` says what was done to it since it was a file. */
  private async open(bytes: Uint8Array, name: string, note?: string): Promise<void> {
    this.reading?.close();
    const session = this.makeSession();
    this.reading = session;
    this.busy(true);
    this.status.working(`Opening ${name}`, undefined, () => {
      session.close();
    });
    try {
      const opened = await session.open(bytes);
      const before = this.book;
      this.book = new Book(
        this.grid,
        session,
        name,
        bytes,
        opened,
        note === undefined,
        () => this.locale.decimal,
      );
      before?.close();
      this.noteChange();
      this.showHistory();
      this.welcome = note ?? undrawnFeatures(opened.model);
      this.computing();
      this.reading = undefined;
      await this.grid.drawn();
      performance.mark("desk-shown");
      // Whoever types elsewhere already is not drawn away.
      if (document.activeElement === document.body) this.grid.focus();
    } catch (error) {
      session.close();
      this.status.rest();
      this.busy(false);
      this.notOpened(name, error);
    } finally {
      if (this.reading === session) this.reading = undefined;
    }
  }

  private notOpened(name: string, error: unknown): void {
    const kept = this.book ? `; ${this.book.name} is still open` : "";
    this.status.say(`${name} was not opened: ${sentenceOf(error)}${kept}`, "error");
  }

  private makeSession(): Session {
    return new Session({
      progressed: (share, doing) => {
        const stop = doing === "Opening" ? () => this.reading?.close() : () => this.book?.stop();
        this.status.working(doing, share, stop);
      },
      computed: (outcome) => {
        this.showOutcome(outcome);
      },
      stopped: () => {
        this.rest();
        this.status.say(
          "computing was stopped: formulas show what they held before, until you change or save; nothing typed is lost",
          "error",
        );
      },
      failed: (sentence) => {
        this.rest();
        this.status.say(sentence, "error");
      },
    });
  }

  private async openFile(file: File): Promise<void> {
    const { book } = this;
    if (book?.isChanged && !(await ask(`${book.name} has changes that are not saved.`, `Open ${file.name}`)))
      return;
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const taken = takenFile(bytes, file.name, new Date().toISOString());
      await this.open(taken.bytes, taken.name, taken.note);
    } catch (error) {
      this.notOpened(file.name, error);
    }
  }

  /** Brings back the file of a draft with the work that was done to it. */
  private async recover({
    bytes,
    name,
    work,
  }: Awaited<ReturnType<Drafts["takeLost"]>> & object): Promise<void> {
    const session = this.makeSession();
    try {
      session.resume(bytes, work);
      const file = await session.write("workbook");
      await this.open(file.bytes, name, "your changes are back; save them to keep them in a file");
    } catch (error) {
      this.status.say(`${name} could not be brought back: ${sentenceOf(error)}`, "error");
    } finally {
      session.close();
    }
  }

  private async write(writing: Writing): Promise<void> {
    const { book } = this;
    if (!book) return;
    const { name } = book;
    this.status.working("Saving", undefined, () => {
      book.stop();
    });
    try {
      const { bytes, note } = await book.write(writing);
      if (writing === "put back") {
        await this.open(bytes, name, note);
        return;
      }
      const ending = ENDINGS[writing];
      const named = name.replace(/(\.[a-z]+)?$/i, (old) => `${ending}${old === "" ? ".xlsx" : old}`);
      saveFile(workbookBlob(bytes), named);
      this.noteChange();
      this.status.say(`saved as ${named}${note === "" ? "" : `: ${note}`}`);
    } catch (error) {
      this.status.say(`${name} was not saved: ${sentenceOf(error)}`, "error");
    }
    this.status.rest();
  }

  private async print(): Promise<void> {
    const { book } = this;
    if (!book) return;
    this.status.working("Laying out the paper", undefined, () => {
      book.stop();
    });
    try {
      this.printing.print(await book.paper(this.grid.place.sheet));
    } catch (error) {
      this.status.say(`nothing was printed: ${sentenceOf(error)}`, "error");
    }
    this.status.rest();
  }

  private async restructure(change: Restructuring): Promise<void> {
    const { book } = this;
    if (!book) return;
    this.busy(true);
    this.status.working("Changing the workbook", undefined, () => {
      book.stop();
    });
    try {
      await book.restructure(change, this.placeAfter(change));
      this.computing();
      this.noteChange();
      this.showHistory();
      this.grid.focus();
    } catch (error) {
      this.rest();
      const why = error instanceof Refusal ? error.message : sentenceOf(error);
      this.status.say(`nothing was changed: ${why}`, "error");
    }
  }

  /** Where to go once the workbook is shown again. */
  private placeAfter(change: Restructuring): CellPlace {
    const { place } = this.grid;
    if (change.kind === "addSheet" || change.kind === "moveSheet") return { ...place, sheet: change.to };
    return change.kind === "copySheet" ? { ...place, sheet: change.sheet + 1 } : place;
  }

  private undo(): void {
    this.book?.undo();
    this.noteChange();
    this.showHistory();
  }

  private redo(): void {
    this.book?.redo();
    this.noteChange();
    this.showHistory();
  }

  private async insert(formula: string): Promise<string> {
    const { place } = this.grid;
    const address = cellAddress(place.row, place.column);
    const held = this.grid.text(place);
    if (held !== "" && !(await ask(`${address} holds ${held}.`, "Replace it")))
      return `${address} stays as it is`;
    if (!this.grid.write(place, [[{ content: formula }]])) return "it was not put into the sheet";
    return `put into ${address}`;
  }

  private paste(html: string, text: string): void {
    const cells = readClipboard(html, text, this.locale);
    if (!cells) {
      this.status.say("nothing was pasted: the clipboard holds no text and no cells", "error");
      return;
    }
    const { sheet, range } = this.grid.selection;
    const place = { sheet, row: range.firstRow, column: range.firstColumn };
    const rows = this.repeated(
      cells.rows,
      range.lastRow - range.firstRow + 1,
      range.lastColumn - range.firstColumn + 1,
    );
    if (this.grid.write(place, rows)) this.status.say(`${String(rows.length)} rows were pasted`);
  }

  /** One cell fills the whole selection, as in Excel. */
  private repeated(
    rows: readonly (readonly WrittenCell[])[],
    height: number,
    width: number,
  ): readonly (readonly WrittenCell[])[] {
    const [only, ...more] = rows.flat();
    if (!only || more.length > 0 || height * width > 100_000) return rows;
    return Array.from({ length: height }, () => Array<WrittenCell>(width).fill(only));
  }

  private sort(isAscending: boolean): void {
    const { sheet, range } = this.grid.selection;
    const column = this.grid.place.column - range.firstColumn;
    if (range.firstRow === range.lastRow) {
      this.status.say("select the rows to sort, headings left out", "error");
      return;
    }
    const values = this.grid.values(sheet, range);
    const inputs = this.grid.inputs(sheet, range);
    if (
      inputs.some((cells) =>
        cells.some((cell) => typeof cell.content === "string" && cell.content.startsWith("=")),
      )
    ) {
      this.status.say(
        "rows with formulas are not sorted here: their references would point elsewhere",
        "error",
      );
      return;
    }
    const order = sortedOrder(
      values.map((cells) => cells[column] ?? null),
      isAscending,
    );
    const rows = order.map((at) => inputs[at] ?? []);
    const place = { sheet, row: range.firstRow, column: range.firstColumn };
    if (this.grid.write(place, rows)) this.status.say(`${String(rows.length)} rows were sorted`);
  }

  private filter(isSet: boolean): void {
    const { book, grid } = this;
    if (!book) return;
    const { place } = grid;
    const { sheet } = place;
    const { filter, isProtected = false } = book.model.sheets[sheet] ?? {};
    if (isProtected) {
      this.status.say("this sheet is protected: its rows stay as they are", "error");
      return;
    }
    const range = listAround(book.model.tables, filter, place, grid.selection.range);
    void this.restructure({ kind: "filter", ...rowFilter(grid, place, range, isSet) });
  }

  private find(): void {
    const { sheet } = this.grid.place;
    openFindDialog(this.grid, (row, column) => this.grid.formula({ sheet, row, column }) !== undefined);
  }

  private describe(place: CellPlace): void {
    const said = this.book?.describe(place);
    if (!said) return;
    const { sentence, isFault, suggestion } = said;
    this.status.say(
      sentence,
      isFault ? "error" : "plain",
      suggestion === undefined
        ? undefined
        : {
            label: `Did you mean ${suggestion}`,
            run: () => {
              this.grid.write(place, [[{ content: suggestion }]]);
              this.grid.focus();
            },
          },
    );
  }

  private showOutcome(outcome: Outcome): void {
    const { book } = this;
    if (!book) return;
    book.showOutcome(outcome);
    this.problems.show(book.outcome, book.sheetNames);
    const { failing, statuses, uncomputed } = book.outcome;
    this.panel.count("Problems", failing.length + statuses.length + uncomputed.length);
    this.functions.refresh();
    this.pieces.refresh();
    this.status.rest();
    this.table.show(() => this.grid.table);
    if (this.welcome === undefined) this.describe(this.grid.place);
    else this.status.say(this.welcome);
    this.welcome = undefined;
    void this.grid.drawn().then(() => {
      this.busy(false);
    });
  }

  /** Shows whether the workbook differs from its file, and keeps a draft where it does. */
  private noteChange(): void {
    const { book } = this;
    if (!book) return;
    this.bar.name(book.name, book.isChanged);
    clearTimeout(this.drafting);
    this.drafting = setTimeout(() => {
      const kept = book.isChanged
        ? this.drafts.keep({ ...book.draft, time: Date.now() })
        : this.drafts.drop();
      kept.catch(() => undefined);
    }, DRAFT_DELAY);
  }

  private showHistory(): void {
    this.bar.history(this.book?.canUndo ?? false, this.book?.canRedo ?? false);
  }

  private computing(): void {
    this.busy(true);
    this.status.working("Computing", undefined, () => this.book?.stop());
  }

  private rest(): void {
    this.busy(false);
    this.status.rest();
  }

  /** Says to assistive software whether the sheet is about to change by itself. */
  private busy(isBusy: boolean): void {
    part(".desk-grid").setAttribute("aria-busy", String(isBusy));
  }
}

void new Desk().start();
