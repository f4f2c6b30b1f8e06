import {
  BooleanValueObject,
  type BaseValueObject,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";

const OF_ONE = [
  "abs", "acos", "acosh", "asin", "asinh", "atan", "atanh", "cbrt", "cos", "cosh", "exp", "log", "log10", "sin", "sinh",
  "sqrt", "tan", "tanh",
] as const; // prettier-ignore
const OF_TWO = ["atan2", "ceil", "floor", "mod", "pow", "round"] as const;

/**
 * A text that spells a number counts as that number where a function wants one. Univer does so for a text in the formula
 * but not for a text in a cell, which reaches the function within an array.
 */
export function readTextInCells(): void {
  const text = StringValueObject.prototype;
  const numberOf = (value: BaseValueObject): BaseValueObject =>
    value.isString() ? value.convertToNumberObjectValue() : value;
  for (const name of OF_ONE) {
    text[name] = function (this: StringValueObject) {
      const number = numberOf(this);
      return number.isError() ? number : number[name]();
    };
  }
  for (const name of OF_TWO) {
    text[name] = function (this: StringValueObject, value) {
      const number = numberOf(this);
      return number.isError() ? number : number[name](value);
    };
    for (const { prototype } of [NumberValueObject, BooleanValueObject, NullValueObject]) {
      const compute = prototypeMethod(prototype, name);
      prototype[name] = function (this: BaseValueObject, value) {
        const number = value.isArray() ? value : numberOf(value);
        return number.isError() ? number : compute.call(this, number);
      };
    }
  }
}

type OfTwo = (this: BaseValueObject, value: BaseValueObject) => BaseValueObject;

const originals = new Map<object, Map<string, OfTwo>>();

/** The method as Univer has it, also where it was replaced before. */
function prototypeMethod(
  prototype: Readonly<Record<(typeof OF_TWO)[number], OfTwo>>,
  name: (typeof OF_TWO)[number],
): OfTwo {
  const methods = originals.get(prototype) ?? new Map<string, OfTwo>();
  originals.set(prototype, methods);
  const known = methods.get(name) ?? prototype[name];
  methods.set(name, known);
  return known;
}
