import type { CellValue } from "../workbook/model";
import { CellError, cellsOf, numberOf, type PlainArgument, textOf } from "./plain-functions";

/** A complex number and the letter of its imaginary unit, where it has one. */
interface Complex {
  readonly re: number;
  readonly im: number;
  readonly unit?: string;
}

const PART = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const REAL = new RegExp(`^(${PART})$`);
const IMAGINARY = new RegExp(`^(${PART}|[+-]?)([ij])$`);
const BOTH = new RegExp(`^(${PART})([+-](?:(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][+-]?\\d+)?)?)([ij])$`);

function signed(text: string): number {
  return text === "" || text === "+" ? 1 : text === "-" ? -1 : Number(text);
}

function complexOf(value: CellValue): Complex {
  if (typeof value === "boolean") throw new CellError("#VALUE!");
  if (typeof value === "number" || value === null) return { re: value ?? 0, im: 0 };
  const text = textOf(value);
  const real = REAL.exec(text);
  if (real !== null) return { re: Number(text), im: 0 };
  const imaginary = IMAGINARY.exec(text);
  if (imaginary !== null) return { re: 0, im: signed(imaginary[1] ?? ""), unit: imaginary[2] ?? "i" };
  const both = BOTH.exec(text);
  if (both === null) throw new CellError("#NUM!");
  return { re: Number(both[1]), im: signed(both[2] ?? ""), unit: both[3] ?? "i" };
}

/** A number with the 15 digits that Excel writes. */
function digits(number: number): string {
  const text = String(Number(number.toPrecision(15)));
  return text.replace(/e([+-])(\d)$/, "E$10$2").replace("e", "E");
}

function textOfComplex({ re, im, unit = "i" }: Complex): string {
  if (!Number.isFinite(re) || !Number.isFinite(im)) throw new CellError("#NUM!");
  if (im === 0) return digits(re);
  const size = Math.abs(im) === 1 ? "" : digits(Math.abs(im));
  const sign = im < 0 ? "-" : re === 0 ? "" : "+";
  return `${re === 0 ? "" : digits(re)}${sign}${size}${unit}`;
}

function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

function over(a: Complex, b: Complex): Complex {
  const size = b.re ** 2 + b.im ** 2;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
}

function logarithm({ re, im }: Complex): Complex {
  return { re: Math.log(Math.hypot(re, im)), im: Math.atan2(im, re) };
}

function power(base: Complex, exponent: number): Complex {
  if (base.re === 0 && base.im === 0) {
    if (exponent <= 0) throw new CellError("#NUM!");
    return { re: 0, im: 0 };
  }
  const size = Math.hypot(base.re, base.im) ** exponent;
  const angle = Math.atan2(base.im, base.re) * exponent;
  return { re: size * Math.cos(angle), im: size * Math.sin(angle) };
}

const sin = ({ re, im }: Complex): Complex => ({
  re: Math.sin(re) * Math.cosh(im),
  im: Math.cos(re) * Math.sinh(im),
});
const cos = ({ re, im }: Complex): Complex => ({
  re: Math.cos(re) * Math.cosh(im),
  im: -Math.sin(re) * Math.sinh(im),
});
const sinh = ({ re, im }: Complex): Complex => ({
  re: Math.sinh(re) * Math.cos(im),
  im: Math.cosh(re) * Math.sin(im),
});
const cosh = ({ re, im }: Complex): Complex => ({
  re: Math.cosh(re) * Math.cos(im),
  im: Math.sinh(re) * Math.sin(im),
});
const ONE: Complex = { re: 1, im: 0 };
const scaled = ({ re, im }: Complex, factor: number): Complex => ({ re: re * factor, im: im * factor });

const OF_ONE: Readonly<Record<string, (z: Complex) => Complex>> = {
  IMCONJUGATE: ({ re, im }) => ({ re, im: -im }),
  IMCOS: cos,
  IMCOSH: cosh,
  IMCOT: (z) => over(cos(z), sin(z)),
  IMCSC: (z) => over(ONE, sin(z)),
  IMCSCH: (z) => over(ONE, sinh(z)),
  IMEXP: ({ re, im }) => ({ re: Math.exp(re) * Math.cos(im), im: Math.exp(re) * Math.sin(im) }),
  IMLN: logarithm,
  IMLOG10: (z) => scaled(logarithm(z), Math.LOG10E),
  IMLOG2: (z) => scaled(logarithm(z), Math.LOG2E),
  IMSEC: (z) => over(ONE, cos(z)),
  IMSECH: (z) => over(ONE, cosh(z)),
  IMSIN: sin,
  IMSINH: sinh,
  IMSQRT: (z) => power(z, 0.5),
  IMTAN: (z) => over(sin(z), cos(z)),
};

/** Functions of one complex number, and those that make one or take one apart, value by value. */
export const COMPLEX_FUNCTIONS: ReadonlyMap<string, (...values: CellValue[]) => CellValue> = new Map<
  string,
  (...values: CellValue[]) => CellValue
>([
  [
    "COMPLEX",
    (re, im, unit) => {
      if (typeof re === "boolean" || typeof im === "boolean") throw new CellError("#VALUE!");
      const letter = textOf(unit);
      if (!["", "i", "j"].includes(letter)) throw new CellError("#VALUE!");
      return textOfComplex({ re: numberOf(re), im: numberOf(im), unit: letter === "" ? "i" : letter });
    },
  ],
  ["IMREAL", (z = null) => complexOf(z).re],
  ["IMAGINARY", (z = null) => complexOf(z).im],
  [
    "IMABS",
    (z = null) => {
      const { re, im } = complexOf(z);
      return Math.hypot(re, im);
    },
  ],
  [
    "IMARGUMENT",
    (z = null) => {
      const { re, im } = complexOf(z);
      if (re === 0 && im === 0) throw new CellError("#DIV/0!");
      return Math.atan2(im, re);
    },
  ],
  [
    "IMPOWER",
    (z = null, exponent) => {
      const base = complexOf(z);
      return textOfComplex(withUnit(power(base, numberOf(exponent)), [base]));
    },
  ],
  ["IMDIV", (a = null, b = null) => ofTwo(a, b, over)],
  ["IMSUB", (a = null, b = null) => ofTwo(a, b, (x, y) => ({ re: x.re - y.re, im: x.im - y.im }))],
  ...Object.entries(OF_ONE).map(
    ([name, compute]) =>
      [
        name,
        (z: CellValue = null) => {
          const given = complexOf(z);
          return textOfComplex(withUnit(compute(given), [given]));
        },
      ] as const,
  ),
]);

/** Sum and product of many complex numbers. */
export const COMPLEX_LISTS: ReadonlyMap<string, (...args: PlainArgument[]) => CellValue> = new Map([
  ["IMSUM", (...args: PlainArgument[]) => ofAll(args, (a, b) => ({ re: a.re + b.re, im: a.im + b.im }))],
  ["IMPRODUCT", (...args: PlainArgument[]) => ofAll(args, times)],
]);

function withUnit(result: Complex, given: readonly Complex[]): Complex {
  const units = new Set(given.flatMap(({ unit }) => (unit === undefined ? [] : [unit])));
  if (units.size > 1) throw new CellError("#VALUE!");
  const [unit] = units;
  return unit === undefined ? result : { ...result, unit };
}

function ofTwo(a: CellValue, b: CellValue, compute: (a: Complex, b: Complex) => Complex): CellValue {
  const given = [complexOf(a), complexOf(b)] as const;
  return textOfComplex(withUnit(compute(...given), given));
}

function ofAll(args: readonly PlainArgument[], compute: (a: Complex, b: Complex) => Complex): CellValue {
  const given = args
    .flatMap(cellsOf)
    .filter((value) => value !== null)
    .map(complexOf);
  const [first, ...rest] = given;
  if (first === undefined) return textOfComplex({ re: 0, im: 0 });
  return textOfComplex(withUnit(rest.reduce(compute, first), given));
}
