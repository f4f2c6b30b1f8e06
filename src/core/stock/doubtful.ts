/**
 * A row of a table as it was read: whole, or with what is known of it and a sentence for each cell that could not be read. One
 * bad row never costs the others.
 */
export interface Doubtful<Row> {
  /** Row within its range from 1, header included. */
  readonly row: number;
  /** How sentences name the row: `price_list row 7`. */
  readonly place: string;
  /** What could be read, without defaults. */
  readonly cells: Partial<Row>;
  /** Sentences with the place in front; empty where the row is whole. */
  readonly doubts: readonly string[];
  /** The row with its defaults; undefined where there is a doubt. */
  readonly value: Row | undefined;
}

/**
 * The rows that could be read whole.
 *
 * @param rows rows of a table
 * @returns their values, in order
 */
export function wholeRows<Row>(rows: readonly Doubtful<Row>[]): readonly Row[] {
  return rows.flatMap(({ value }) => value ?? []);
}

/**
 * The rows of a table in another form.
 *
 * @param rows rows of a table
 * @param change gives a row, or the part of it that could be read, in the other form
 * @returns the same rows with the same doubts
 */
export function changedRows<Row, Other>(
  rows: readonly Doubtful<Row>[],
  change: (row: Partial<Row>) => Partial<Other>,
): readonly Doubtful<Other>[] {
  return rows.map(({ cells, value, ...rest }) => ({
    ...rest,
    cells: change(cells),
    // A whole row has every cell that the change asks for.
    value: value === undefined ? undefined : (change(value) as Other),
  }));
}
