/**
 * The forms in which hosts hand over a cell. Excel sends an entity with its basic value where a cell holds more than a plain
 * value, and has never documented how it sends an error: every form seen is taken.
 */

/** An error that arrived in a cell, in the one form that the readers know. */
export interface ErrorCell {
  readonly error: string;
}

const ERROR_TEXT =
  /^#(?:N\/A|VALUE!|REF!|DIV\/0!|NUM!|NAME\?|NULL!|SPILL!|CALC!|GETTING_DATA|BUSY!|FIELD!|BLOCKED!|CONNECT!|UNKNOWN!|EXTERNAL!|PYTHON!)$/i;

const text = (value: unknown): string | undefined =>
  typeof value === "string" && ERROR_TEXT.test(value.trim()) ? value.trim().toUpperCase() : undefined;

/** Tells an error cell, as `plainCell` gives it, from every other value. */
export function holdsError(cell: unknown): cell is ErrorCell {
  return typeof cell === "object" && cell !== null && !Array.isArray(cell) && "error" in cell;
}

/** A cell in its plain form: a number, text, boolean or blank, or an `ErrorCell` whatever form the error had. */
export function plainCell(cell: unknown): unknown {
  if (typeof cell === "string") {
    if (!cell.includes("#")) return cell;
    const code = text(cell);
    return code === undefined ? cell : { error: code };
  }
  if (typeof cell !== "object" || cell === null || Array.isArray(cell)) return cell;
  const { error, type, basicValue, code } = cell as Readonly<Record<string, unknown>>;
  const known = text(error) ?? (type === "Error" ? (text(basicValue) ?? "#VALUE!") : text(code));
  if (known !== undefined) return { error: known };
  if (type === "Empty") return null;
  return basicValue === undefined ? cell : plainCell(basicValue);
}
