import { cellAddress } from "../formula/address";
import { typedFormula } from "../formula/names";
import { resolveReference } from "../formula/resolve";
import type { Paper } from "../paper/markup";
import type { CellPlace } from "../sheet/engine";
import type { SheetRange } from "../sheet/rectangles";
import type { WorkbookModel } from "../workbook/model";
import { scopeOf } from "../workbook/scope";
import type { Restructuring } from "../workbook/restructure";
import type { Grid } from "./grid";
import type { GridChange } from "./grid-changes";
import { gridStyle, lookOf } from "./grid-style";
import { Journal } from "./journal";
import type { Edit, OpenedWorkbook, CalculationOutcome, Work, Writing } from "./messages";
import { failureSentence } from "./problems";
import { resultFormat } from "./result-format";
import type { Session, WrittenFile } from "./session";
import { type CellRemark, editedFormula, TypedFormulas } from "./typed-formulas";

/** States of a workbook's structure that are kept for going back. */
const MOST_VERSIONS = 10;

/** The workbook between two changes of its structure. */
interface Version {
  /** By which the grid shows it again. */
  readonly key: string;
  readonly bytes: Uint8Array;
  readonly model: WorkbookModel;
  readonly journal: Journal;
  readonly typed: TypedFormulas;
}

function isAt(place: CellPlace): (cell: CellPlace) => boolean {
  return ({ sheet, row, column }) => sheet === place.sheet && row === place.row && column === place.column;
}

function lookAs(style: WorkbookModel["styles"][number] | undefined): ReturnType<typeof lookOf> {
  return lookOf(style && gridStyle(style));
}

/** An open workbook: what the grid shows of it, what was done to it, and the way back. */
export class Book {
  private versions: Version[] = [];
  private at = 0;
  private saved = 0;
  private steps = { undos: 0, redos: 0 };
  private isGoing = false;
  outcome: Pick<CalculationOutcome, "failing" | "statuses" | "uncomputed"> = {
    failing: [],
    statuses: [],
    uncomputed: [],
  };

  constructor(
    private readonly grid: Grid,
    readonly session: Session,
    readonly name: string,
    bytes: Uint8Array,
    opened: OpenedWorkbook,
    isSaved: boolean,
    private readonly decimal: () => string = () => ".",
  ) {
    this.push(bytes, opened);
    if (!isSaved) this.saved = -1;
  }

  get model(): WorkbookModel {
    return this.now.model;
  }

  get sheetNames(): readonly string[] {
    return this.model.sheets.map((sheet) => sheet.name);
  }

  /** The cells that a reference means where it stands in a cell; undefined for what is no reference. */
  area(reference: string, place: CellPlace): SheetRange | undefined {
    const names = this.sheetNames;
    const at = { ...place, sheet: names[place.sheet] ?? "" };
    const area = resolveReference(scopeOf(this.model), reference, at);
    return area && { ...area.range, sheet: names.indexOf(area.sheet) };
  }

  /** What to keep of it so that nothing is lost. */
  get draft(): { readonly name: string; readonly bytes: Uint8Array; readonly work: Work } {
    return { name: this.name, bytes: this.now.bytes, work: this.now.journal.work };
  }

  get isChanged(): boolean {
    return this.saved !== this.at || !this.now.journal.isMarked;
  }

  get canUndo(): boolean {
    return this.steps.undos > 0 || this.at > 0;
  }

  get canRedo(): boolean {
    return this.steps.redos > 0 || this.at < this.versions.length - 1;
  }

  history(undos: number, redos: number): void {
    this.steps = { undos, redos };
  }

  /** Gets ready for the first edit while nobody waits. */
  prepare(): void {
    this.now.journal.prepare();
    this.grid.rehearse();
  }

  /** Takes up what the grid reports; true where something has to be computed. */
  change({ edits = [], looks = [], layouts = [] }: GridChange): boolean {
    const { journal } = this.now;
    if (looks.length > 0 || layouts.length > 0) {
      journal.dress({ looks, layouts });
      this.session.dress({ looks, layouts });
    }
    const taken = journal.edit(edits.map((edit) => this.checked(edit)));
    if (taken.length > 0) {
      this.session.edit(taken, this.grid.inSight);
      this.grid.awaitResults();
    }
    // A step forward from an earlier state leaves the later ones behind.
    if (!this.isGoing && taken.length > 0) this.dropLater();
    return taken.length > 0;
  }

  /** Changes rows, columns, merges or sheets. Rejects with a Refusal where the file does not allow it. */
  async restructure(change: Restructuring, place: CellPlace): Promise<void> {
    const { bytes, ...opened } = await this.session.restructure(change);
    this.dropLater();
    this.push(bytes, opened);
    this.at = this.versions.length - 1;
    if (this.versions.length > MOST_VERSIONS) {
      const oldest = this.versions.shift();
      if (oldest) this.grid.forget(oldest.key);
      this.at--;
      this.saved--;
    }
    this.grid.goTo(this.within(place));
  }

  undo(): void {
    this.go(() => {
      if (this.steps.undos > 0) this.grid.undo();
      else if (this.at > 0) this.show(this.at - 1);
    });
  }

  redo(): void {
    this.go(() => {
      if (this.steps.redos > 0) this.grid.redo();
      else if (this.at < this.versions.length - 1) this.show(this.at + 1);
    });
  }

  showOutcome(outcome: CalculationOutcome): void {
    this.grid.show(outcome.changed);
    this.grid.showSpills(outcome.spills);
    this.grid.showFormats(outcome.formats.filter((place) => this.grid.format(place) === "General"));
    this.outcome = { ...outcome, failing: [...this.now.typed.failing, ...outcome.failing] };
    this.grid.show(this.now.typed.shown);
  }

  /** What a cell shows, and what is wrong with it: the sheet is a picture to those who do not see it. */
  describe(place: CellPlace): CellRemark {
    const address = cellAddress(place.row, place.column);
    const remark = this.now.typed.remark(place, this.grid.text(place));
    if (remark) return remark;
    const failing = this.outcome.failing.find(isAt(place));
    if (failing)
      return { sentence: `${address} shows ${failing.error}: ${failureSentence(failing)}`, isFault: true };
    const kept = this.outcome.uncomputed.find(isAt(place));
    if (kept) return { sentence: `${address} keeps its stored value: ${kept.why}`, isFault: false };
    const note = this.model.sheets[place.sheet]?.notes.get(address);
    const text = `${address} ${this.grid.text(place)}${note === undefined ? "" : ` (note: ${note})`}`;
    return { sentence: text, isFault: false };
  }

  async write(writing: Writing): Promise<WrittenFile> {
    const file = await this.session.write(writing);
    if (writing === "workbook") {
      this.now.journal.mark();
      this.saved = this.at;
    }
    return file;
  }

  /** A sheet as it goes on paper. */
  paper(sheet: number): Promise<Paper> {
    const now = new Date();
    const [date, time] = [now.toLocaleDateString(), now.toLocaleTimeString()];
    return this.session.layOut({ sheet, file: this.name, date, time });
  }

  /** Ends computing, and keeps every edit. */
  stop(): void {
    const { bytes, journal } = this.now;
    this.session.stop(bytes, () => journal.work);
  }

  close(): void {
    this.session.close();
    for (const { key } of this.versions) this.grid.forget(key);
  }

  private get now(): Version {
    const version = this.versions[this.at];
    if (!version) throw new Error("the workbook has no such state");
    return version;
  }

  private push(bytes: Uint8Array, { model, spills }: OpenedWorkbook): void {
    const key = this.grid.open(model, this.name, typedFormula);
    this.versions.push({
      key,
      bytes,
      model,
      journal: new Journal(model, lookAs),
      typed: new TypedFormulas(),
    });
    this.steps = { undos: 0, redos: 0 };
    this.grid.showSpills(spills);
  }

  private go(step: () => void): void {
    this.isGoing = true;
    try {
      step();
    } finally {
      this.isGoing = false;
    }
  }

  private show(at: number): void {
    const { place } = this.grid;
    this.at = at;
    const { key, model, bytes, journal } = this.now;
    this.steps = { undos: 0, redos: 0 };
    this.grid.showAgain(key, model);
    this.session.resume(bytes, journal.work);
    this.grid.goTo(this.within(place));
  }

  private dropLater(): void {
    for (const { key } of this.versions.splice(this.at + 1)) this.grid.forget(key);
    if (this.saved > this.at) this.saved = -1;
  }

  /** The place, or one on the sheet that took the place of a sheet that is gone. */
  private within(place: CellPlace): CellPlace {
    const { sheets } = this.model;
    const last = sheets.length - 1;
    const sheet = Math.min(place.sheet, last);
    if (sheets[sheet]?.state === "visible") return { ...place, sheet };
    return {
      ...place,
      sheet: Math.max(
        0,
        sheets.findIndex(({ state }) => state === "visible"),
      ),
    };
  }

  private checked(edit: Edit): Edit {
    const names = [...this.model.names, ...this.model.tables].map(({ name }) => name);
    const fault = this.now.typed.take(edit, names, this.decimal());
    const text = editedFormula(edit);
    if (text === undefined) return edit;
    if (!fault) return this.formatted(edit, text);
    if (!fault.isBroken) return edit;
    const { sheet, row, column } = edit;
    queueMicrotask(() => {
      this.grid.showText({ sheet, row, column }, text);
    });
    return { ...edit, input: text };
  }

  /** An unformatted cell takes the format of what its function gives, as with Excel's own functions. */
  private formatted(edit: Edit, formula: string): Edit {
    const numberFormat = resultFormat(formula);
    const { sheet, row, column } = edit;
    const place = { sheet, row, column };
    if (numberFormat === undefined || this.isGoing || this.grid.format(place) !== "General") return edit;
    queueMicrotask(() => {
      this.grid.showFormats([{ ...place, numberFormat }]);
    });
    return { ...edit, numberFormat };
  }
}
