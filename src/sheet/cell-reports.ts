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

type Uncomputed = FormulaCell & Required<Pick<FormulaCell, "why">>;
type Differing = FormulaCell & Required<Pick<FormulaCell, "differs">>;

const isUncomputed = (cell: FormulaCell): cell is Uncomputed => cell.why !== undefined;
const isDiffering = (cell: FormulaCell): cell is Differing => cell.differs !== undefined;

/** A formula cell that keeps its stored value because it is not computed. */
function uncomputedOf({ sheet, row, column, formula, why }: Uncomputed): UncomputedCell {
  return { sheet, row, column, formula: formula.text, why };
}

/** A formula cell that keeps its stored value, from which ours differs. */
function differingOf({ sheet, row, column, formula, stored, differs }: Differing): DifferingCell {
  return { sheet, row, column, formula: formula.text, stored: stored.value, ...differs };
}

/** The outcome of a run that finished some formulas, of all those of the workbook. */
export function recalculationOf(
  finished: Iterable<FormulaCell>,
  formulas: readonly FormulaCell[],
): Recalculation {
  return {
    computed: [...finished].filter((cell) => !isUncomputed(cell)).map(computedOf),
    uncomputed: formulas.filter(isUncomputed).map(uncomputedOf),
    differing: formulas.filter(isDiffering).map(differingOf),
  };
}
