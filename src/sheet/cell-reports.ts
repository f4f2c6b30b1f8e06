import type { ComputedCell, DifferingCell, Recalculation, UncomputedCell } from "./engine";
import type { FormulaCell } from "./sheet-cells";

/** A formula cell as a recalculation tells of it. */
function computedOf(cell: FormulaCell): ComputedCell {
  const { sheet, row, column, value, area, table, sentences } = cell;
  if (area === undefined && sentences === undefined) return { sheet, row, column, value };
  const own = sentences?.find((at) => at.row === row && at.column === column);
  return {
    sheet,
    row,
    column,
    value,
    ...(area !== undefined && table !== undefined ? { spill: area, spilled: table } : {}),
    ...(own === undefined ? {} : { sentence: own.sentence }),
    ...(sentences === undefined ? {} : { sentences }),
  };
}

/** A formula cell that keeps its stored value because it is not computed; none where it is. */
function uncomputedOf({ sheet, row, column, formula, why }: FormulaCell): UncomputedCell[] {
  return why === undefined ? [] : [{ sheet, row, column, formula: formula.text, why }];
}

/** A formula cell that keeps its stored value, from which ours differs; none where it does not. */
function differingOf({ sheet, row, column, formula, stored, differs }: FormulaCell): DifferingCell[] {
  if (differs === undefined) return [];
  return [{ sheet, row, column, formula: formula.text, stored: stored.value, ...differs }];
}

/** The outcome of a run that finished some formulas, of all those of the workbook. */
export function recalculationOf(
  finished: Iterable<FormulaCell>,
  formulas: readonly FormulaCell[],
): Recalculation {
  return {
    computed: [...finished].filter((cell) => cell.why === undefined).map(computedOf),
    uncomputed: formulas.filter((cell) => cell.why !== undefined).flatMap(uncomputedOf),
    differing: formulas.filter((cell) => cell.differs !== undefined).flatMap(differingOf),
  };
}
