import type { Doubtful } from "../core/stock/doubtful";
import type { UnitSymbol } from "../core/units";

/** Kinds of quantity: the unit a bare number has, and the limits that hold unless a parameter narrows them. */
export const QUANTITY_KINDS = {
  length: { unit: "m", min: 0, max: 1000, noun: "a length", such: '1.8 or "6 ft"' },
  balloon: { unit: "in", min: 1, max: 120, noun: "an inflated size", such: '11 or "28 cm"' },
  altitude: { unit: "m", min: -430, max: 5000, noun: "a height above sea level", such: '250 or "5280 ft"' },
  mass: { unit: "g", min: 0, max: 1e9, noun: "a weight", such: '12 or "2 kg"' },
  volume: { unit: "L", min: 0, max: 1e9, noun: "a volume", such: '50 or "1.8 m3"' },
  pressure: { unit: "bar", min: 0, max: 400, noun: "a pressure", such: '200 or "2900 psi"' },
  speed: { unit: "m/s", min: 0, max: 60, noun: "a wind speed", such: '8 or "30 km/h"' },
  duration: { unit: "h", min: 0, max: 8760, noun: "a time in hours", such: '2.5 or "2 h 30 min"' },
} as const satisfies Record<
  string,
  {
    readonly unit: UnitSymbol;
    readonly min: number;
    readonly max: number;
    readonly noun: string;
    readonly such: string;
  }
>;

/** What sentences say of a duration whose bare numbers are minutes. */
const IN_MINUTES = { noun: "a time in minutes", such: '25 or "1 h 15 min"' } as const;

/** Kinds of plain number, with the limits that hold unless a parameter narrows them. */
export const NUMBER_KINDS = {
  count: { min: 0, max: 1e9, noun: "a whole number", such: "12" },
  share: { min: 0, max: 1, noun: "a share", such: '0.1 or "10%"' },
  ratio: { min: 0, max: 100, noun: "a ratio", such: "0.8" },
  weight: { min: 0, max: 1e9, noun: "a share or ratio", such: "0.5, 2 or 50%" },
  number: { min: -1e12, max: 1e12, noun: "a number", such: "12.5" },
  money: { min: 0, max: 1e9, noun: "an amount of money", such: "14.90" },
  temperature: { min: -40, max: 60, noun: "a temperature in C", such: '20 or "68 F"' },
  time: { min: 0, max: 1, noun: "a time of day", such: '8:00 or "14:30"' },
  moment: {
    min: 0,
    max: 2958465,
    noun: "a date and time or a time of day",
    such: '14:30 or "2027-06-19 14:30"',
  },
  datetime: { min: 1, max: 2958465, noun: "a date and time", such: 'a date cell or "2027-06-19 18:30"' },
} as const satisfies Record<
  string,
  { readonly min: number; readonly max: number; readonly noun: string; readonly such: string }
>;

export type QuantityKind = keyof typeof QUANTITY_KINDS;
export type NumberKind = keyof typeof NUMBER_KINDS;

interface Limits {
  /** Lowest value, in the unit of the parameter. */
  readonly min?: number;
  /** Highest value, in the unit of the parameter. */
  readonly max?: number;
  /** Values must lie above this one; wins over `min`. */
  readonly above?: number;
}

/** A quantity with a unit; core receives it in SI units. */
export interface QuantitySpec extends Limits {
  readonly kind: QuantityKind;
  /** Unit of a bare number where it differs from the kind's. */
  readonly unit?: UnitSymbol;
}

/** A plain number; a temperature reaches core in kelvin, everything else as it is. */
export interface NumberSpec extends Limits {
  readonly kind: NumberKind;
}

export interface FlagSpec {
  readonly kind: "flag";
}

export interface ChoiceSpec {
  readonly kind: "choice";
  readonly options: readonly string[];
}

export interface TextSpec {
  readonly kind: "text";
}

/** What one cell can hold. */
export type ScalarSpec = QuantitySpec | NumberSpec | FlagSpec | ChoiceSpec | TextSpec;

interface Named {
  readonly name: string;
  readonly text: string;
}

/** Optional arguments carry a default in the unit of the parameter, or `optional` where the default follows from others. */
interface Optional {
  readonly default?: number | string | boolean;
  readonly optional?: true;
  /**
   * What a bare 0 is, where `zeroMeans` does not tell it by the kind: some hosts send 0 for a blank cell. Text such as
   * `none` says zero everywhere.
   */
  readonly zero?: Zero;
}

/**
 * What a bare 0 is. `zero`: the number. `default`: not given, for what can never be 0, and in tables for what costs as much
 * or more by default. `refused`: neither reading is safe.
 */
export type Zero = "zero" | "default" | "refused";

export type ScalarParam = ScalarSpec & Named & Optional;

/** A row or column of cells of one kind. */
export interface ListParam extends Named {
  readonly kind: "list";
  readonly of: ScalarSpec;
  /** `skip`: blank cells are left out. `keep`: blank cells between filled ones count as 0 and keep their place. */
  readonly blanks: "skip" | "keep";
  /** Another list of the same length: a row where both are blank is skipped, where one is blank it is an error. */
  readonly pairedWith?: string;
  readonly optional?: true;
}

/** A column of a table, as its reader needs it. */
export type TableColumn = ScalarSpec &
  Optional & {
    readonly name: string;
    readonly aliases?: readonly string[];
    /** A blank cell is refused in the words of a refused 0, since hosts send either. */
    readonly blank?: "refused";
  };

/** A column of a table argument. */
export type ColumnSpec = TableColumn & Named;

/** A range with named columns; a header row is read where there is one, else the columns count in order. */
export interface TableParam extends Named {
  readonly kind: "table";
  readonly columns: readonly ColumnSpec[];
  readonly optional?: true;
  /**
   * Core receives every row with what could not be read in it, so that one bad row never costs the others; where absent
   * a bad row is the end of the call.
   */
  readonly doubtful?: true;
  /** The range goes on as it is and is known by its header; `columns` is empty. */
  readonly raw?: true;
  /** The table is known by its headings, so that it may stand in the place of any other such table. */
  readonly anyPlace?: true;
  /** A row without a number is a title of the section below it. */
  readonly hasTitles?: true;
  /** A row of zeros is a point, not an empty row. Hosts that send 0 for blanks then need a range without empty rows. */
  readonly zeroRowsCount?: true;
}

export type Param = ScalarParam | ListParam | TableParam;

/** What core receives for one cell. */
export type ScalarOf<S> = S extends { readonly kind: "flag" }
  ? boolean
  : S extends { readonly kind: "choice"; readonly options: readonly (infer Word)[] }
    ? Word
    : S extends { readonly kind: "text" }
      ? string
      : number;

type Given<S, Value> = S extends { readonly default: unknown }
  ? Value
  : S extends { readonly optional: true }
    ? Value | undefined
    : Value;

/** One row of a table argument; `row` counts from 1 within the range, header included. */
export type RowOf<Columns> = Columns extends readonly ColumnSpec[]
  ? { readonly row: number } & {
      readonly [Column in Columns[number] as Column["name"]]: Given<Column, ScalarOf<Column>>;
    }
  : never;

/** What core receives for a parameter. */
export type ArgumentOf<P> = P extends { readonly raw: true }
  ? unknown
  : Given<
      P,
      P extends { readonly kind: "table"; readonly columns: infer Columns }
        ? P extends { readonly doubtful: true }
          ? readonly Doubtful<RowOf<Columns>>[]
          : readonly RowOf<Columns>[]
        : P extends { readonly kind: "list"; readonly of: infer Spec }
          ? readonly ScalarOf<Spec>[]
          : ScalarOf<P>
    >;

/** What core receives for all parameters, in order. */
export type ArgumentsOf<Params extends readonly Param[]> = {
  readonly [Index in keyof Params]: ArgumentOf<Params[Index]>;
};

/** True where the argument may be left out. */
export function isOptional(param: Param | TableColumn): boolean {
  return param.optional === true || ("default" in param && param.default !== undefined);
}

/** True for kinds that hold a number. */
export function isNumeric(spec: ScalarSpec): spec is QuantitySpec | NumberSpec {
  return spec.kind in QUANTITY_KINDS || spec.kind in NUMBER_KINDS;
}

/** True for kinds with a unit that core receives in SI. */
export function isQuantity(spec: ScalarSpec): spec is QuantitySpec {
  return spec.kind in QUANTITY_KINDS;
}

/** Limits, unit and wording of a numeric kind, with the parameter's own narrowing applied. */
export function limitsOf(spec: QuantitySpec | NumberSpec): {
  readonly min: number;
  readonly max: number;
  readonly isAbove: boolean;
  readonly unit: UnitSymbol | "C" | undefined;
  readonly noun: string;
  readonly such: string;
} {
  const base = isQuantity(spec) ? QUANTITY_KINDS[spec.kind] : NUMBER_KINDS[spec.kind];
  const unit = isQuantity(spec) ? (spec.unit ?? QUANTITY_KINDS[spec.kind].unit) : undefined;
  const { noun, such } = unit === "min" ? IN_MINUTES : base;
  return {
    min: spec.above ?? spec.min ?? base.min,
    max: spec.max ?? base.max,
    isAbove: spec.above !== undefined,
    unit: spec.kind === "temperature" ? "C" : unit,
    noun,
    such,
  };
}

/** What a bare 0 is as an argument of its own. */
export function zeroMeans(param: ScalarParam): Zero {
  if (param.zero !== undefined) return param.zero;
  if (!isOptional(param)) return "zero";
  if (param.kind === "flag") return param.default === true ? "refused" : "zero";
  if (!isNumeric(param) || param.kind === "balloon") return "default";
  if (param.default === 0 || param.kind === "count") return "zero";
  // Below the limits 0 has a sentence of its own.
  return allowsZero(param) ? "refused" : "zero";
}

/**
 * What a bare 0 is in a column of a table. A column whose default costs as much or more takes it for not given; where 0
 * would lower a cost the column says `zero: "refused"`.
 */
export function zeroMeansInTable(column: TableColumn): Zero {
  if (column.zero !== undefined) return column.zero;
  if (column.kind === "text" || column.kind === "choice") return "default";
  if (column.kind === "flag" || !isOptional(column) || column.default === 0) return "zero";
  return "default";
}

/** True where 0 lies within the limits of a numeric kind. */
export function allowsZero(spec: QuantitySpec | NumberSpec): boolean {
  const { min, max, isAbove } = limitsOf(spec);
  return (isAbove ? min < 0 : min <= 0) && max >= 0;
}
