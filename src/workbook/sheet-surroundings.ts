import { type AxisShift, movedIndex, movedRange, movedSpan } from "../formula/axis-shift";
import { MAX_COLUMNS, parseCell, parseRange, rangeAddress } from "../formula/address";
import { parseFormula, shiftFormula } from "../formula/shift";
import { movedFormula, type SheetShift } from "./moved-formula";
import { escapeText, type XmlEdit, type XmlElement } from "./xml";
import { encodeXstring } from "./xstring";

/** Elements that vanish with the cells they speak of. */
const BOUND_TO_CELLS = new Set(
  `mergeCell conditionalFormatting dataValidation protectedRange ignoredError sortCondition sortState autoFilter
  cellWatch`.split(/\s+/),
);
/** Elements that name their cell in an attribute `r`. */
const NAMED_BY_R = new Set(["cellWatch", "inputCells"]);
/** Lists that must not be left empty; some say how many entries they have. */
const LISTS = new Set(
  `mergeCells dataValidations hyperlinks protectedRanges ignoredErrors cellWatches conditionalFormattings sparklines
  sparklineGroup sparklineGroups sortState`.split(/\s+/),
);
/** Elements with formulas that are written for the first cell of the range they apply to. */
const FORMULA_OWNERS = new Set(["conditionalFormatting", "dataValidation"]);
const FORMULAS = new Set(["f", "formula", "formula1", "formula2"]);

/** What stands around the rows of a sheet's part, after rows or columns moved: collects the edits. */
export class SheetSurroundings {
  private readonly found: XmlEdit[] = [];
  private readonly removed = new Set<XmlElement>();
  private readonly children = new Map<XmlElement, XmlElement[]>();
  private readonly formulas = new Map<XmlElement, XmlElement[]>();
  private readonly ranges = new Map<XmlElement, string>();
  private readonly columns: XmlElement[] = [];

  constructor(
    private readonly home: string,
    private readonly change: SheetShift,
    private readonly isHere: boolean,
  ) {}

  open(element: XmlElement): void {
    if (!element.parent || !LISTS.has(element.parent.local)) return;
    const siblings = this.children.get(element.parent) ?? [];
    siblings.push(element);
    this.children.set(element.parent, siblings);
  }

  close(element: XmlElement): void {
    const { local } = element;
    if (FORMULAS.has(local)) this.keepFormula(element);
    else if (local === "sqref") this.ranges.set(ownerOf(element), element.text);
    if (local === "hyperlink") this.moveLocation(element);
    // Excel keeps a formula under the type `num` too.
    if (local === "cfvo") this.moveAttributeFormula(element, "val");
    if (FORMULA_OWNERS.has(local) || local === "sparkline") this.closeOwner(element);
    if (!this.isHere) return;
    if (local === "sqref") this.moveRangeText(element);
    else if (local === "col") this.columns.push(element);
    else if (local === "cols") this.moveColumns(element);
    else if (local === "brk") this.moveBreak(element);
    else if (local === "pane") this.movePane(element);
    else if (local === "filterColumn") this.moveFilterColumn(element);
    else if (local !== "hyperlink") this.moveAttributes(element);
    if (LISTS.has(local)) this.closeList(element);
  }

  /** All edits, those inside removed elements left out. */
  edits(xml: string): readonly XmlEdit[] {
    const gone = [...this.removed];
    const isInside = (edit: XmlEdit): boolean =>
      gone.some((element) => edit.start >= element.start && edit.end <= element.end);
    const outer = gone.filter(
      (element) =>
        !gone.some((other) => other !== element && other.start <= element.start && other.end >= element.end),
    );
    return [
      ...this.found.filter((edit) => !isInside(edit) && xml.slice(edit.start, edit.end) !== edit.text),
      ...outer.map(({ start, end }) => ({ start, end, text: "" })),
    ];
  }

  private moved(formula: string): string {
    return movedFormula(this.change, formula, this.home);
  }

  private keepFormula(element: XmlElement): void {
    const owner = ownerOf(element);
    if (FORMULA_OWNERS.has(owner.local))
      this.formulas.set(owner, [...(this.formulas.get(owner) ?? []), element]);
    else this.replaceText(element, this.moved(element.text));
  }

  private closeOwner(element: XmlElement): void {
    const before = element.get("sqref") ?? this.ranges.get(element);
    if (before === undefined) return;
    const first = parseRange(before.trim().split(/\s+/)[0] ?? "");
    const after = this.isHere ? this.movedRanges(before) : before;
    if (after === undefined) {
      this.removed.add(element);
      return;
    }
    const anchor = parseCell((after.split(" ")[0] ?? "").split(":")[0] ?? "");
    for (const formula of this.formulas.get(element) ?? []) {
      const { text } = formula;
      // Written for the old first cell; read from where the new first cell was.
      const based =
        this.isHere && first && anchor
          ? shiftFormula(
              parseFormula(text),
              this.preimage("row", anchor.row) - first.firstRow,
              this.preimage("column", anchor.column) - first.firstColumn,
            )
          : text;
      this.replaceText(formula, this.moved(based));
    }
  }

  /** The row or column that is at `index` after the shift. */
  private preimage(axis: AxisShift["axis"], index: number): number {
    const { shift } = this.change;
    if (shift.axis !== axis) return index;
    if (shift.kind === "insert") return index >= shift.at + shift.count ? index - shift.count : index;
    if (shift.kind === "delete") return index >= shift.at ? index + shift.count : index;
    for (let step = -shift.count; step <= shift.count; step++) {
      if (movedIndex(shift, index + step) === index) return index + step;
    }
    return shift.at + index - (shift.to <= shift.at ? shift.to : shift.to - shift.count);
  }

  private movedRanges(list: string): string | undefined {
    const moved = list
      .trim()
      .split(/\s+/)
      .flatMap((text) => {
        const range = parseRange(text);
        const next = range === undefined ? undefined : movedRange(this.change.shift, range);
        return next === undefined ? [] : [rangeAddress(next)];
      });
    return moved.length === 0 ? undefined : moved.join(" ");
  }

  private moveRangeText(element: XmlElement): void {
    const moved = this.movedRanges(element.text);
    if (moved !== undefined) this.replaceText(element, moved);
    else if (element.parent !== undefined) this.removed.add(element.parent);
  }

  private moveAttributes(element: XmlElement): void {
    const changes: Record<string, string | null> = {};
    for (const name of ["ref", "sqref", "topLeftCell", "activeCell", "r"]) {
      const value = element.get(name);
      if (value === undefined || (name === "r" && !NAMED_BY_R.has(element.local))) continue;
      const moved = this.movedRanges(value);
      if (moved === undefined && BOUND_TO_CELLS.has(element.local)) {
        this.removed.add(element);
        return;
      }
      if (moved === undefined && element.local === "inputCells") changes["deleted"] = "1";
      // What has no cell left begins at the first one that took its place.
      else changes[name] = moved ?? (name === "topLeftCell" || element.local === "scenarios" ? null : "A1");
    }
    if (element.local === "mergeCell" && !(changes["ref"] ?? "").includes(":")) this.removed.add(element);
    else this.replaceOpenTag(element, changes);
  }

  private moveLocation(element: XmlElement): void {
    if (!this.isHere) this.moveAttributeFormula(element, "location");
    else {
      const location = element.get("location");
      const changes: Record<string, string | null> =
        location === undefined ? {} : { location: this.moved(location) };
      const ref = this.movedRanges(element.get("ref") ?? "");
      if (ref === undefined) this.removed.add(element);
      else this.replaceOpenTag(element, { ...changes, ref });
    }
  }

  private moveAttributeFormula(element: XmlElement, name: string): void {
    const value = element.get(name);
    if (value !== undefined) this.replaceOpenTag(element, { [name]: this.moved(value) });
  }

  /** A page break stands before a row or column; where that is deleted, before the one that takes its place. */
  private moveBreak(element: XmlElement): void {
    const { shift } = this.change;
    const axis = element.parent?.local === "rowBreaks" ? "row" : "column";
    const before = element.number("id");
    if (before === undefined || axis !== shift.axis) return;
    this.replaceOpenTag(element, { id: String(movedIndex(shift, before) ?? shift.at) });
  }

  private movePane(element: XmlElement): void {
    const { shift } = this.change;
    const name = shift.axis === "row" ? "ySplit" : "xSplit";
    const frozen = (element.get("state") ?? "").startsWith("frozen") ? (element.number(name) ?? 0) : 0;
    const span = frozen > 0 ? movedSpan(shift, [0, frozen - 1]) : undefined;
    // Rows that come in front of frozen headings are frozen with them.
    const count =
      span && shift.kind !== "move" ? span[1] + 1 : frozen > 0 && shift.kind === "delete" ? 1 : frozen;
    const top = this.movedRanges(element.get("topLeftCell") ?? "");
    this.replaceOpenTag(element, {
      ...(frozen > 0 && { [name]: String(count) }),
      ...(element.get("topLeftCell") !== undefined && { topLeftCell: top ?? null }),
    });
  }

  private moveFilterColumn(element: XmlElement): void {
    const range = parseRange(element.parent?.get("ref") ?? "");
    const column = element.number("colId");
    if (range === undefined || column === undefined || this.change.shift.axis !== "column") return;
    const moved = movedIndex(this.change.shift, range.firstColumn + column);
    const first = movedRange(this.change.shift, range)?.firstColumn;
    if (moved === undefined || first === undefined) this.removed.add(element);
    else this.replaceOpenTag(element, { colId: String(moved - first) });
  }

  private moveColumns(list: XmlElement): void {
    const { shift } = this.change;
    if (shift.axis !== "column") return;
    const cuts = [shift.at, shift.at + shift.count, ...(shift.kind === "move" ? [shift.to] : [])];
    const pieces: { first: number; last: number; element: XmlElement }[] = [];
    for (const element of this.columns) {
      let first = (element.number("min") ?? 1) - 1;
      const last = (element.number("max") ?? 1) - 1;
      for (const cut of [...cuts, last + 1].sort((a, b) => a - b)) {
        if (cut <= first || cut > last + 1) continue;
        const moved = movedIndex(shift, first);
        // What reaches to the sheet's end goes on doing so.
        const end = cut === MAX_COLUMNS ? MAX_COLUMNS : (moved ?? 0) + cut - first;
        if (moved !== undefined) pieces.push({ first: moved, last: Math.min(MAX_COLUMNS, end) - 1, element });
        first = cut;
      }
      // New columns are as wide as the one on their left.
      if (
        shift.kind === "insert" &&
        (element.number("min") ?? 0) <= shift.at &&
        (element.number("max") ?? 0) >= shift.at
      )
        pieces.push({ first: shift.at, last: shift.at + shift.count - 1, element });
    }
    const kept = pieces.filter(({ first }) => first < MAX_COLUMNS).sort((a, b) => a.first - b.first);
    if (kept.length === 0) {
      this.removed.add(list);
      return;
    }
    const text = kept
      .map(({ first, last, element }) =>
        element.openTag({ min: String(first + 1), max: String(last + 1) }, true),
      )
      .join("");
    this.found.push({ start: list.contentStart, end: list.contentEnd, text });
  }

  private closeList(list: XmlElement): void {
    const children = this.children.get(list) ?? [];
    const left = children.filter((child) => !this.removed.has(child)).length;
    if (children.length > 0 && left === 0) this.removed.add(list);
    else if (list.get("count") !== undefined && left < children.length)
      this.replaceOpenTag(list, { count: String(left) });
  }

  private replaceText(element: XmlElement, text: string): void {
    if (text === element.text) return;
    this.found.push({
      start: element.contentStart,
      end: element.contentEnd,
      text: escapeText(encodeXstring(text)),
    });
  }

  private replaceOpenTag(element: XmlElement, changes: Readonly<Record<string, string | null>>): void {
    const isSame = Object.entries(changes).every(([name, value]) => (element.get(name) ?? null) === value);
    if (isSame) return;
    const { start, contentStart, isSelfClosing } = element;
    this.found.push({ start, end: contentStart, text: element.openTag(changes, isSelfClosing) });
  }
}

/** The element that a formula or range inside it belongs to: the nearest that is bound to cells, else its parent. */
function ownerOf(element: XmlElement): XmlElement {
  let owner = element.parent ?? element;
  while (!FORMULA_OWNERS.has(owner.local) && owner.local !== "sparkline" && owner.parent)
    owner = owner.parent;
  return FORMULA_OWNERS.has(owner.local) || owner.local === "sparkline" ? owner : (element.parent ?? element);
}
