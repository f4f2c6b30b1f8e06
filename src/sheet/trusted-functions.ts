import { CONFORMANCE } from "./conformance-table";

/**
 * Functions that the files of the conformance table lack. Each has cases with values that Excel documents or stores in
 * `tests/sheet/documented-values.test.ts`, which holds this list.
 */
export const DOCUMENTED_FUNCTIONS: readonly string[] =
  `AGGREGATE ANCHORARRAY AND BYCOL BYROW CEILING CEILING.MATH CHOOSE
  COUNTBLANK DATEDIF DATEVALUE DROP EDATE EXACT FILTER FLOOR FLOOR.MATH HLOOKUP HOUR IF INDEX INT ISOWEEKNUM LARGE LET
  LOOKUP MAP MATCH MAXIFS MINIFS MINUTE MONTH MROUND NETWORKDAYS NETWORKDAYS.INTL NOT OFFSET PMT PROPER RANK REDUCE
  REPLACE ROWS SEQUENCE SORT SORTBY SUBSTITUTE SUBTOTAL SUMPRODUCT SWITCH TAKE TEXTAFTER TEXTBEFORE TEXTSPLIT TOCOL
  TRANSPOSE TRIM UNIQUE VLOOKUP WEEKDAY WEEKNUM WORKDAY WORKDAY.INTL XLOOKUP YEAR`.split(/\s+/);

const AGREEING = CONFORMANCE.filter(([, equal, different]) => equal > 0 && different === 0);
const DIFFERING = new Set(CONFORMANCE.filter(([, , different]) => different > 0).map(([name]) => name));

/** Functions that agree with every value that Excel stored in the files of the conformance table, or documents. */
export const TRUSTED_FUNCTIONS: ReadonlySet<string> = new Set([
  ...AGREEING.map(([name]) => name),
  ...DOCUMENTED_FUNCTIONS.filter((name) => !DIFFERING.has(name)),
]);
