import { LookTable } from "./cell-looks";
import type { CellChange, CellStyle } from "./model";
import { NumberFormats } from "./number-formats";
import type { WorkbookPackage } from "./package";
import { readStyles } from "./styles";

/** Styles that changes of cells add to those of a file. */
export class NewStyles {
  private readonly formats: NumberFormats;
  /** Looks that are not written yet. */
  private looks: LookTable | undefined;

  constructor(
    private readonly parts: WorkbookPackage,
    private readonly workbookPart: string,
    private readonly known: readonly CellStyle[],
  ) {
    // A number format is written at once, on top of all looks so far.
    this.formats = new NumberFormats(parts, workbookPart, () => {
      this.write();
    });
  }

  /** Index of the style that a cell of one style has once it is changed; the same one where nothing of it changes. */
  styleWith(old: number, { style = old, numberFormat, look }: CellChange): number {
    const isFormatted = numberFormat === undefined || this.known[style]?.numberFormat === numberFormat;
    const formatted = isFormatted ? style : this.formats.styleWith(style, numberFormat);
    if (look === undefined) return formatted;
    this.looks ??= this.lookTable();
    return this.looks?.styleWith(formatted, look) ?? formatted;
  }

  /** Writes into the package what it lacks. */
  write(): void {
    this.looks?.write(this.parts);
    this.looks = undefined;
  }

  private lookTable(): LookTable | undefined {
    const [part] = this.parts.linked(this.workbookPart, "styles");
    if (part === undefined || !this.parts.has(part)) return undefined;
    return new LookTable(this.parts.readText(part), part, readStyles(this.parts, this.workbookPart));
  }
}
