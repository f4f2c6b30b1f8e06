import type { ReadNumber } from "../criteria";
import { PLAIN_NUMBER } from "./operands";
import { needsUniver } from "./signals";

/** Signs that no number, date or amount of money has. */
const NO_PART = /["!#&*;<=>?@[\\\]^_`{|}~]/;
/** Words that a number, a date, a time or an amount of money may have. */
const MAY_BE_PART =
  /^(?:[aehkprtz]|[ap]m|rp|nt|hk|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|mon|tue|wed|thu|fri|sat|sun)[a-z]*)$/i;

const numbers = new Map<string, number | undefined>();
const MAX_REMEMBERED = 2 ** 16;

/**
 * The number that a text spells for a condition; undefined where it spells none. What may be a number in an unusual way, or a
 * date, is read by `readOdd`; where there is none yet, the formula is Univer's to compute.
 */
export function spelledNumber(text: string, readOdd: ReadNumber | undefined): number | undefined {
  const known = numbers.get(text);
  if (known !== undefined || numbers.has(text)) return known;
  const plain = PLAIN_NUMBER.test(text) && text.length <= 15;
  if (!plain && mayBeNumber(text)) return readOdd === undefined ? needsUniver() : readOdd(text);
  const number = plain ? Number(text) : undefined;
  if (numbers.size >= MAX_REMEMBERED) numbers.clear();
  numbers.set(text, number);
  return number;
}

function mayBeNumber(text: string): boolean {
  if (!/\d/.test(text)) return false;
  const words = text.match(/[a-z]+/gi) ?? [];
  const isText = NO_PART.test(text) || words.some((word) => !MAY_BE_PART.test(word));
  return !isText || !Number.isNaN(Number(text));
}
