import { withoutPrefix } from "../formula/tokens";
import type { DefinedName, TableModel } from "../workbook/model";
import type { Lookup } from "./reference-reader";
import type { FormulaContext, Place, Translation } from "./translation";
import { TranslationWork } from "./translation-work";

/** Writes formulas for the engine: names and table areas become ranges, marks and signs become what it understands. */
export class FormulaTranslator {
  private readonly names = new Map<string, DefinedName>();
  private readonly tables = new Map<string, TableModel>();
  private readonly sheets = new Map<string, number>();
  readonly lookup: Lookup = {
    name: (name, sheet) => this.names.get(nameKey(name, sheet)) ?? this.names.get(nameKey(name, undefined)),
    table: (name) => this.tables.get(name.toLowerCase()),
    sheet: (name) => this.sheets.get(name.toLowerCase()),
  };

  constructor(private readonly context: FormulaContext) {
    for (const name of context.names) this.names.set(nameKey(name.name, name.sheet), name);
    for (const table of context.tables) this.tables.set(table.name.toLowerCase(), table);
    context.sheetNames.forEach((name, sheet) => this.sheets.set(name.toLowerCase(), sheet));
  }

  translate(formula: string, place: Place): Translation {
    const work = new TranslationWork(this.context, place, this.lookup);
    work.write(formula, { depth: 0 });
    return work.result();
  }
}

function nameKey(name: string, sheet: number | undefined): string {
  return `${sheet === undefined ? "" : String(sheet)}!${withoutPrefix(name).toLowerCase()}`;
}
