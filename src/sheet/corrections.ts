import {
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  type FunctionVariantType,
} from "@univerjs/engine-formula";
import { COMPLEX_FUNCTIONS, COMPLEX_LISTS } from "./complex-numbers";
import { type BlanksBeyond, conditionalFunctions, numberIn } from "./conditional-functions";
import {
  firstError,
  forNumbers,
  isNothing,
  isOddText,
  literally,
  numbersAsTexts,
  ofOneSize,
  readText,
  substituting,
  TAKE_TEXT_FOR_NUMBERS,
  trimmed,
  typedNumber,
} from "./corrected-arguments";
import { databaseFunctions } from "./databases";
import { isoWeek, LAST_DAY, movedMonths, workday, workdays } from "./date-functions";
import { FINANCIAL_CORRECTIONS } from "./financial-corrections";
import { LOGICAL_JOINS } from "./logical-functions";
import { addressing, cellInfo, lookingUp, matching, nearMatching } from "./lookup-functions";
import { converting, direction, truncated } from "./number-functions";
import { type Calculate, cellByCell, numberOf, ofRanges, tableOf } from "./plain-functions";
import { RefusedFormula } from "./refused-formula";
import { MAX_CELLS_FILLED } from "./sheet-cells";
import { sorted, unique } from "./sorting";
import { frequencies, STATISTICS } from "./statistics";
import { isDateFormat, isTwoDates, proper, search, textSplit, valueToText } from "./texts";
import { contentOf, rowsOf, single } from "./univer-values";

/** A function of Univer that is not trusted as it is. */
export interface Correction {
  readonly functions: readonly string[];
  /** What Univer does wrong. */
  readonly defect: string;
  /** The function put right, from Univer's own. */
  readonly correct: (univer: Calculate, name: string) => Calculate;
}

/** Every function of Univer 0.25.1 that is not trusted as it is, and what is wrong with it. */
export function corrections(blanksBeyond: BlanksBeyond): readonly Correction[] {
  const conditional = conditionalFunctions(blanksBeyond);
  const databases = databaseFunctions(numberIn);
  return [
    {
      functions: ["SORT"],
      defect: "reorders the array it is given, which is the cached content of the range; blanks come first",
      correct: () => tableOf(sorted),
    },
    {
      functions: [...conditional.keys()],
      defect:
        "conditions miss errors, blanks and text that spells numbers; whole columns end with the part in use",
      correct: (univer, name) => conditional.get(name)?.(univer) ?? univer,
    },
    {
      functions: [...STATISTICS.keys()],
      defect: "blanks and texts of ranges count, typed values after a range do not, and no numbers give 0",
      correct: (_, name) => ofRanges((...args) => STATISTICS.get(name)?.(...args) ?? null),
    },
    {
      functions: [...COMPLEX_FUNCTIONS.keys()],
      defect: "takes no text that spells a number, gives numbers for texts, writes 1i",
      correct: (_, name) => cellByCell((...values) => COMPLEX_FUNCTIONS.get(name)?.(...values) ?? null),
    },
    {
      functions: [...COMPLEX_LISTS.keys()],
      defect: "gives numbers for texts",
      correct: (_, name) => ofRanges((...args) => COMPLEX_LISTS.get(name)?.(...args) ?? null),
    },
    {
      // The operator & is CONCATENATE to Univer.
      functions: ["CONCATENATE", "CONCAT", "TEXTJOIN"],
      defect: "numbers have more than the 15 digits that Excel keeps",
      correct:
        (univer, name) =>
        (...variants) => {
          const texts = name === "TEXTJOIN" ? 2 : 0;
          return univer(...variants.map((variant, at) => (at < texts ? variant : numbersAsTexts(variant))));
        },
    },
    {
      functions: [...LOGICAL_JOINS.keys()],
      defect: 'text counts as true, "TRUE" as an error',
      correct: (_, name) => ofRanges((...args) => LOGICAL_JOINS.get(name)?.(...args) ?? null),
    },
    {
      functions: ["IF"],
      defect: 'text counts as true, also "FALSE"',
      correct:
        (univer) =>
        (condition, ...rest) =>
          condition !== undefined && isOddText(single(condition))
            ? ErrorValueObject.create(ErrorType.VALUE)
            : univer(
                ...[condition].flatMap((given) => (given === undefined ? [] : [readText(given)])),
                ...rest,
              ),
    },
    {
      functions: ["AVERAGE"],
      defect: "an error in a range becomes #VALUE!",
      correct:
        (univer) =>
        (...variants) =>
          variants.flatMap(firstError)[0] ?? univer(...variants),
    },
    {
      functions: ["MATCH"],
      defect:
        "an omitted type is not 0; a near match takes values of other kinds and the first of equal ones",
      correct: (univer, name) => nearMatching(univer, name),
    },
    {
      functions: ["VLOOKUP", "HLOOKUP"],
      defect: "an omitted kind of match is not exact; a near match takes values of other kinds",
      correct: (univer, name) => nearMatching(univer, name),
    },
    {
      functions: ["XMATCH"],
      defect: "knows no regular expressions, searches sorted lists otherwise, takes any text for a pattern",
      correct: (univer) => matching(literally(univer)),
    },
    {
      functions: ["XLOOKUP"],
      defect: "knows no regular expressions, searches sorted lists otherwise, takes any text for a pattern",
      correct: (univer) => lookingUp(literally(univer)),
    },
    {
      functions: [...databases.keys()],
      defect: "conditions miss logical values, other letter case and beginnings of texts",
      correct: (_, name) => ofRanges((...args) => databases.get(name)?.(...args) ?? null),
    },
    ...FINANCIAL_CORRECTIONS,
    {
      functions: ["ATAN2"],
      defect: "gives 0 for no direction, and the second of two errors",
      correct: () => cellByCell((x, y) => direction(numberOf(x), numberOf(y))),
    },
    {
      functions: ["TIMEVALUE"],
      defect: "reads no text with outer spaces",
      correct:
        (univer) =>
        (text, ...rest) =>
          univer(...(text === undefined ? [] : [trimmed(text)]), ...rest),
    },
    {
      functions: ["FREQUENCY"],
      defect: "counts texts that spell numbers",
      correct: () => tableOf(frequencies),
    },
    {
      functions: ["SMALL", "LARGE"],
      defect: "takes no typed text or logical value for a number",
      correct:
        (univer) =>
        (array, ...rest) =>
          univer(...[array].flatMap((given) => (given === undefined ? [] : [typedNumber(given)])), ...rest),
    },
    {
      functions: ["UNIQUE"],
      defect: "tells texts apart by the case of their letters",
      correct: () => tableOf(unique),
    },
    {
      functions: ["DATE"],
      defect: "goes beyond the year 9999",
      correct:
        (univer) =>
        (...variants) => {
          const result = univer(...variants) as FunctionVariantType;
          const [year = 0, month = 0] = variants.map((variant) => Number(contentOf(single(variant))));
          const isBeyond =
            Number(contentOf(single(result))) > LAST_DAY || year + Math.floor((month - 1) / 12) > 9999;
          return isBeyond ? ErrorValueObject.create(ErrorType.NUM) : result;
        },
    },
    {
      functions: ["IFERROR", "IFNA"],
      defect: "repeats the last cell of a substitute that is smaller than the value",
      correct: (univer, name) => substituting(univer, name === "IFNA"),
    },
    {
      functions: ["VALUE", "DATEVALUE"],
      defect: "takes the month before the day in a text, whatever the country of the person",
      correct:
        (univer) =>
        (...variants) => {
          const texts = variants.flatMap((variant) => rowsOf(variant).flat());
          if (texts.some((text) => typeof text === "string" && isTwoDates(text)))
            throw new RefusedFormula(
              "a text is one date with the day first and another with the month first",
            );
          return univer(...variants);
        },
    },
    {
      functions: ["LINEST", "LOGEST"],
      defect: "an omitted constant is forced to be 0",
      correct:
        (univer) =>
        (...variants) =>
          univer(
            ...variants.map((variant, at) =>
              at === 2 && isNothing(variant) ? BooleanValueObject.create(true) : variant,
            ),
          ),
    },
    {
      functions: TAKE_TEXT_FOR_NUMBERS,
      defect: "a text in a cell that spells a number or a logical value is an error",
      correct:
        (univer) =>
        (...variants) =>
          univer(...variants.map(readText)),
    },
    {
      functions: ["TEXT"],
      defect:
        "a date before 1900 or after 9999 is not an error, and numbers of more than 21 digits lose them",
      correct:
        (univer) =>
        (...variants) => {
          const [number, format] = variants.map((variant) => contentOf(single(variant)));
          if (typeof number === "number" && typeof format === "string") {
            const isNoDate = number < 0 || number >= LAST_DAY + 1;
            if (isNoDate && isDateFormat(format)) return ErrorValueObject.create(ErrorType.VALUE);
          }
          const result = univer(...variants) as FunctionVariantType;
          if (/\de\+\d/.test(String(contentOf(single(result)))))
            throw new RefusedFormula("TEXT does not write so large a number here");
          return /^#+$/.test(String(contentOf(single(result))))
            ? ErrorValueObject.create(ErrorType.VALUE)
            : result;
        },
    },
    { functions: ["SUMPRODUCT"], defect: "repeats single columns and cells", correct: ofOneSize },
    { functions: ["ADDRESS"], defect: "takes rows and columns that do not exist", correct: addressing },
    { functions: ["CELL"], defect: "gives #N/A for what cannot be asked", correct: cellInfo },
    { functions: ["PROPER"], defect: "a blank cell gives 0", correct: () => cellByCell(proper) },
    { functions: ["VALUETOTEXT"], defect: "gives numbers", correct: () => cellByCell(valueToText) },
    { functions: ["TEXTSPLIT"], defect: "gives numbers", correct: () => tableOf(textSplit) },
    {
      functions: ["SEARCH"],
      defect: "fails with wildcards, and takes a time that grows with the power of their number",
      correct: () => cellByCell(search),
    },
    {
      functions: ["TRUNC"],
      defect: "a negative number loses its last step",
      correct: (univer) => forNumbers(univer, truncated),
    },
    {
      functions: ["EDATE"],
      defect: "runs into the next month beyond the end of one; negative parts of months round down",
      correct: (univer) => forNumbers(univer, (start, months = 0) => movedMonths(start, months, "day")),
    },
    {
      functions: ["EOMONTH"],
      defect: "negative parts of months round down",
      correct: (univer) => forNumbers(univer, (start, months = 0) => movedMonths(start, months, "end")),
    },
    {
      functions: ["ISOWEEKNUM"],
      defect: "weeks of years that begin on a Saturday count one less",
      correct: (univer) => forNumbers(univer, (date) => isoWeek(date)),
    },
    {
      functions: ["WEEKNUM"],
      defect: "type 21 as ISOWEEKNUM",
      correct: (univer) => forNumbers(univer, (date, kind) => (kind === 21 ? isoWeek(date) : undefined)),
    },
    {
      functions: ["WORKDAY.INTL"],
      defect: "takes a text for the number of a weekend",
      correct: () => ofRanges(workday),
    },
    {
      functions: ["NETWORKDAYS.INTL"],
      defect: "takes a text for the number of a weekend",
      correct: () => ofRanges(workdays),
    },
    {
      functions: ["CONVERT"],
      defect: "temperatures are rounded to two decimals, and some of Excel's units are missing",
      correct: converting,
    },
    {
      functions: ["SEQUENCE", "RANDARRAY", "MAKEARRAY"],
      defect: "makes arrays that fill the memory",
      correct:
        (univer) =>
        (...variants) => {
          const [rows = 1, columns = 1] = variants
            .slice(0, 2)
            .map((variant) => Number(contentOf(single(variant))) || 1);
          if (rows * columns > MAX_CELLS_FILLED) throw new RefusedFormula("its result has too many cells");
          return univer(...variants);
        },
    },
  ];
}
