import "../ui/styles.css";
import "./desk.css";
import { quoteSheet, rangeAddress } from "../formula/address";
import { pointForm } from "../formula/comma-form";
import { createWorkbook } from "../workbook/create";
import { makeBar } from "./bar";
import { makeCellFeatures } from "./cell-features";
import { Drafts } from "./drafts";
import { type FileActions, makeFileActions } from "./file-actions";
import { listenForFiles } from "./file-intake";
import { type FilterActions, makeFilterActions } from "./filter-actions";
import { foundTables } from "./found-tables";
import { makeFunctionsView } from "./functions-view";
import { Grid } from "./grid";
import { keepAccessible } from "./grid-accessibility";
import { listenForKeys } from "./keys";
import { listenForLinks } from "./link-clicks";
import { OpenBook } from "./open-book";
import { makePanel } from "./panel";
import { makePiecesPage, type PiecesHost } from "./pieces-page";
import { makeProblemsView } from "./problems";
import { makeSheetActions, type SheetActions } from "./sheet-actions";
import { makeStatusLine } from "./status";
import { makeTableView } from "./table-view";
import { makeTools } from "./tools";
import { listenForTouch } from "./touch";
import { readerLocale, readTyped } from "./typed-value";

const SAMPLE = "regatta-evening.xlsx";
/** Below this width the panel covers the sheet, so it is closed at first. */
const WIDE = "(min-width: 900px)";
const DARK = "(prefers-color-scheme: dark)";
const LANGUAGE = "desk-language";

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

/** The page: one open workbook in the grid, with bar, tools, panel and status line around it. */
class Desk {
  private shownSheet = 0;
  private locale = readerLocale(localStorage.getItem(LANGUAGE) ?? navigator.language);
  private readonly drafts = new Drafts();
  private readonly status = makeStatusLine();
  private readonly grid = new Grid(
    part(".desk-grid"),
    {
      changed: (change) => {
        this.open.change(change);
      },
      restructured: (change) => {
        // The grid's command ends first.
        queueMicrotask(() => void this.open.restructure(change));
      },
      selected: (place) => {
        if (place.sheet !== this.shownSheet) {
          this.shownSheet = place.sheet;
          this.table.show(() => this.grid.table);
        }
        this.open.describe(place);
        this.features.selected(place);
      },
      filterPressed: () => void this.filters.choose(),
      moved: () => {
        this.features.dropDown.moved();
      },
      fault: (place, value) => this.features.fault(place, value),
      history: (undos, redos) => {
        this.open.steps(undos, redos);
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
  private readonly open = new OpenBook({
    grid: this.grid,
    status: this.status,
    drafts: this.drafts,
    decimal: () => this.locale.decimal,
    busy: (isBusy) => {
      part(".desk-grid").setAttribute("aria-busy", String(isBusy));
    },
    named: (name, isChanged) => {
      this.bar.name(name, isChanged);
    },
    history: (canUndo, canRedo) => {
      this.bar.history(canUndo, canRedo);
    },
    hint: (place) => this.features.hint(place),
    offer: (place) => this.features.offer(place),
    computed: ({ outcome, sheetNames }) => {
      this.problems.show(outcome, sheetNames);
      const { failing, statuses, uncomputed } = outcome;
      this.panel.count("Problems", failing.length + statuses.length + uncomputed.length);
      this.functions.refresh();
      this.pieces.refresh();
      this.table.show(() => this.grid.table);
    },
  });
  private readonly files: FileActions = makeFileActions(this.open, this.grid, this.status);
  private readonly actions: SheetActions = makeSheetActions(
    this.open,
    this.grid,
    this.status,
    () => this.locale,
  );
  private readonly filters: FilterActions = makeFilterActions(this.open, this.grid, this.status);
  private readonly features = makeCellFeatures(this.open, this.grid, this.status, this.filters);
  /** What keys and buttons do alike. */
  private readonly commands = {
    open: listenForFiles((file) => this.files.openFile(file)),
    save: () => void this.files.write("workbook"),
    print: () => void this.files.print(),
    undo: () => {
      this.open.undo();
    },
    redo: () => {
      this.open.redo();
    },
  };
  private readonly bar = makeBar(part(".desk-bar"), {
    ...this.commands,
    partnerCopy: () => void this.files.write("partner copy"),
    putBack: () => void this.files.write("put back"),
    togglePanel: () => {
      this.panel.toggle();
    },
    reference: () => (this.locale.decimal === "," ? "reference-comma.html" : "reference.html"),
  });
  private readonly sheets: PiecesHost = {
    findTables: () => Promise.resolve(this.open.book ? foundTables(this.open.book, this.grid) : []),
    resolve: (reference) => {
      const { book } = this.open;
      if (!book) return undefined;
      const area = book.area(reference, this.grid.place);
      return area && Promise.resolve(this.grid.values(area.sheet, area));
    },
  };
  private readonly functions = makeFunctionsView({
    ...this.sheets,
    pickReference: () => {
      const { sheet, range } = this.grid.selection;
      const name = this.open.book?.sheetNames[sheet] ?? "";
      return Promise.resolve(`${quoteSheet(name)}!${rangeAddress(range)}`);
    },
    onInsert: (formula) => this.actions.insert(formula),
    decimal: () => this.locale.decimal,
  });
  private readonly problems = makeProblemsView((place) => {
    if (!matchMedia(WIDE).matches) this.panel.toggle(false);
    this.grid.goTo(place);
  });
  private readonly pieces = makePiecesPage(this.sheets);
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
      ...this.actions,
      filter: this.filters.filter,
      choose: () => void this.filters.choose(),
      language: this.locale.tag,
      speak: (language) => {
        localStorage.setItem(LANGUAGE, language);
        this.locale = readerLocale(language);
      },
    });
    part(".desk-toolbar").append(tools.element);
    this.panel.toggle(matchMedia(WIDE).matches);
    document.body.append(this.features.dropDown.element);
    listenForTouch(part(".desk-grid"));
    listenForLinks(part(".desk-grid"), this.grid, () => this.features.follow());
    keepAccessible();
    listenForKeys({
      ...this.commands,
      ...this.actions,
      grid: this.grid,
      panel: this.panel,
      bar: part(".desk-bar"),
      gridElement: part(".desk-grid"),
      choose: () => this.features.dropDown.open() || this.features.follow(),
    });
    matchMedia(DARK).addEventListener("change", ({ matches }) => {
      this.grid.setDark(matches);
    });
    addEventListener("beforeunload", (event) => {
      if (this.open.book?.isChanged) event.preventDefault();
    });
    // Without https or localhost there is no service worker, and the page works all the same.
    if ("serviceWorker" in navigator)
      void navigator.serviceWorker.register("offline.js").catch(() => undefined);
    const lost = this.drafts.takeLost().catch(() => undefined);
    const response = await fetch(SAMPLE).catch(() => undefined);
    if (response?.ok) await this.open.open(new Uint8Array(await response.arrayBuffer()), SAMPLE);
    else await this.open.open(createWorkbook(EMPTY_WORKBOOK), "New workbook.xlsx");
    const draft = await lost;
    if (draft) await this.files.offer(draft);
  }
}

void new Desk().start();
