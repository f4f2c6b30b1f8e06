import {
  type ArrayValueObject,
  type BaseValueObject,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  type FunctionVariantType,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import { numberIn } from "./conditional-functions";
import { decimalText } from "./decimal-text";
import { type Calculate, tableOf } from "./plain-functions";
import { codeOf } from "./trust";
import { arrayOf, contentOf, rowsOf, single } from "./univer-values";
import { cellAt } from "./value-cells";
import { isPattern } from "./wildcards";

/** Functions of single numbers whose arguments may come from cells. */
export const TAKE_TEXT_FOR_NUMBERS =
  `ACOT ACOTH BETA.DIST BETA.INV BETADIST BETAINV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BINOMDIST
  CHIDIST CHIINV CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT CONFIDENCE CONFIDENCE.NORM CONFIDENCE.T CRITBINOM ERF ERFC
  EXPON.DIST EXPONDIST F.DIST F.DIST.RT F.INV F.INV.RT FDIST FINV FISHER FISHERINV GAMMA GAMMA.DIST GAMMA.INV GAMMADIST
  GAMMAINV GAMMALN GAMMALN.PRECISE GAUSS HYPGEOM.DIST HYPGEOMDIST LOGINV LOGNORM.DIST LOGNORM.INV LOGNORMDIST
  NEGBINOM.DIST NEGBINOMDIST NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV NORMDIST NORMINV NORMSDIST NORMSINV PHI POISSON
  POISSON.DIST STANDARDIZE T.DIST T.DIST.2T T.DIST.RT T.INV T.INV.2T TDIST TINV WEIBULL WEIBULL.DIST`.split(
    /\s+/,
  );

/** A text that spells a number or a logical value as that; anything else as it is. */
export function readText(variant: FunctionVariantType): FunctionVariantType {
  const value = single(variant);
  const content = contentOf(value);
  if (typeof content !== "string" || value.isError()) return variant;
  if (/^(?:true|false)$/i.test(content)) return BooleanValueObject.create(content.toLowerCase() === "true");
  const number = numberIn(content);
  return number === undefined ? variant : NumberValueObject.create(number);
}

/** The numbers of an argument as the texts that they are within another one. */
export function numbersAsTexts(variant: FunctionVariantType): FunctionVariantType {
  const written = (value: BaseValueObject): BaseValueObject =>
    value.isNumber() ? StringValueObject.create(decimalText(Number(contentOf(value)))) : value;
  if (variant.isReferenceObject()) return variant;
  if (variant.isArray()) return (variant as ArrayValueObject).mapValue((value) => written(value));
  return written(variant as BaseValueObject);
}

/** A typed text or logical value as the number that it stands for; what stands for none is `#VALUE!`. */
export function typedNumber(variant: FunctionVariantType): FunctionVariantType {
  if (variant.isArray() || variant.isReferenceObject() || variant.isError()) return variant;
  const value = readText(variant);
  const content = contentOf(value);
  if (typeof content === "string") return ErrorValueObject.create(ErrorType.VALUE);
  return NumberValueObject.create(Number(content));
}

/** Computes where the numbers given are such that a function is defined; else `#NUM!`. Ranges are left to Univer. */
export function whereDefined(
  univer: Calculate,
  isDefined: (...numbers: readonly number[]) => boolean,
): Calculate {
  return (...variants) => {
    const values = variants.map((variant) => contentOf(single(variant)));
    const isNumeric = values.every((value) => typeof value === "number" || typeof value === "boolean");
    return isNumeric && !isDefined(...values.map(Number))
      ? ErrorValueObject.create(ErrorType.NUM)
      : univer(...variants);
  };
}

/** IFERROR or IFNA cell by cell, where value and substitute are arrays of different size. */
export function substituting(univer: Calculate, isForMissing: boolean): Calculate {
  return (value, substitute, ...rest) => {
    const given = [value, substitute].flatMap((variant) => (variant === undefined ? [] : [variant]));
    const [rows = [], others = []] = given.map(rowsOf);
    const isSame = rows.length === others.length && rows[0]?.length === others[0]?.length;
    if (given.length < 2 || isSame || others.flat().length === 1) return univer(...given, ...rest);
    const height = Math.max(rows.length, others.length);
    const width = Math.max(rows[0]?.length ?? 0, others[0]?.length ?? 0);
    return tableOf(() =>
      Array.from({ length: height }, (_, row) =>
        Array.from({ length: width }, (_, column) => {
          const cell = cellAt(rows, row, column);
          const code = codeOf(cell);
          return code === undefined || (isForMissing && code !== "#N/A") ? cell : cellAt(others, row, column);
        }),
      ),
    )();
  };
}

/** A text without its outer spaces. */
export function trimmed(variant: FunctionVariantType): FunctionVariantType {
  const content = contentOf(single(variant));
  return typeof content === "string" ? StringValueObject.create(content.trim()) : variant;
}

/** Looks a text up as it is: Univer takes `*` and `?` in it for other characters. */
export function literally(univer: Calculate): Calculate {
  return (wanted, ...rest) => {
    const content = wanted === undefined ? undefined : contentOf(single(wanted));
    const isSpelt = typeof content === "string" && isPattern(content) && wanted?.isError() !== true;
    const given = isSpelt ? StringValueObject.create(content.replace(/[*?~]/g, "~$&")) : wanted;
    return univer(...(given === undefined ? [] : [given]), ...rest);
  };
}

/** Gives `#VALUE!` where arrays have other sizes than the first. */
export function ofOneSize(univer: Calculate): Calculate {
  return (...variants) => {
    const [first = "", ...others] = variants.map(sizeOf);
    return others.some((size) => size !== first)
      ? ErrorValueObject.create(ErrorType.VALUE)
      : univer(...variants);
  };
}

function sizeOf(variant: FunctionVariantType): string {
  const rows = rowsOf(variant);
  return `${String(rows.length)}x${String(rows[0]?.length ?? 0)}`;
}

/** Whether an argument was left out or is blank. */
export function isNothing(variant: FunctionVariantType): boolean {
  const value = single(variant);
  return !value.isReferenceObject() && (value as BaseValueObject).isNull();
}

/** Whether a value is a text that is no logical value. */
export function isOddText(variant: FunctionVariantType): boolean {
  const content = contentOf(variant);
  return typeof content === "string" && !variant.isError() && !/^(?:true|false)$/i.test(content);
}

/** Computes by `compute` where all arguments are numbers, cell by cell; leaves all else to Univer. */
export function forNumbers(
  univer: Calculate,
  compute: (first: number, second: number | undefined) => number | undefined,
): Calculate {
  const one = (first: FunctionVariantType, rest: readonly FunctionVariantType[]): ReturnType<Calculate> => {
    const [number, other] = [first, ...rest].map((variant) => contentOf(single(variant)));
    const isNumeric = typeof number === "number" && (rest.length === 0 || typeof other === "number");
    const result = isNumeric ? compute(number, typeof other === "number" ? other : undefined) : undefined;
    return result === undefined ? univer(first, ...rest) : NumberValueObject.create(result);
  };
  return (...variants) => {
    const [first, ...rest] = variants;
    const isList = (variant: FunctionVariantType | undefined): boolean =>
      variant?.isArray() === true && single(variant) === variant;
    if (first === undefined || isList(rest[0])) return univer(...variants);
    if (!isList(first)) return one(first, rest);
    const cells = (first as ArrayValueObject).getArrayValue();
    return arrayOf(
      cells.map((row) =>
        row.map((cell) =>
          cell ? (one(cell, rest) as BaseValueObject) : ErrorValueObject.create(ErrorType.VALUE),
        ),
      ),
    );
  };
}

/** The first error of a value or of the cells of a range, if there is one. */
export function firstError(variant: FunctionVariantType): ErrorValueObject[] {
  const failing = rowsOf(variant)
    .flat()
    .map(codeOf)
    .find((code) => code !== undefined);
  return failing === undefined ? [] : [ErrorValueObject.create(failing as ErrorType)];
}
