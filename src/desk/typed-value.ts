/** How a reader writes numbers and dates. */
export interface ReaderLocale {
  readonly tag: string;
  readonly decimal: string;
  readonly group: string;
  readonly order: "dmy" | "mdy" | "ymd";
}

/** What typed text means: a number with the format it was written in, or text with why it stays text. */
export type TypedValue =
  | { readonly value: number; readonly numberFormat?: string }
  | { readonly value: string; readonly sentence: string };

/** The habits of a language tag such as `de-CH`, from the browser's own tables; English ones for an unknown tag. */
export function readerLocale(tag: string): ReaderLocale {
  let known = tag;
  try {
    Intl.getCanonicalLocales(tag);
  } catch {
    known = "en-US";
  }
  const parts = new Intl.NumberFormat(known, { useGrouping: true }).formatToParts(1234567.5);
  const part = (type: string): string | undefined => parts.find((piece) => piece.type === type)?.value;
  const date = new Intl.DateTimeFormat(known, { calendar: "gregory", numberingSystem: "latn" });
  const order = date
    .formatToParts(new Date(Date.UTC(2027, 5, 19, 12)))
    .flatMap(({ type }) => (["day", "month", "year"].includes(type) ? [type.charAt(0)] : []))
    .join("");
  return {
    tag: known,
    decimal: part("decimal") ?? ".",
    group: part("group") ?? ",",
    order: order === "mdy" || order === "ymd" ? order : "dmy",
  };
}

const CURRENCY = /^(?:\p{Sc}|CHF|EUR|GBP|USD|kr\.?|zł)$/u;

/** Reads a number, amount, percentage, date or time as the reader writes it; undefined for what is plain text. */
export function readTyped(text: string, locale: ReaderLocale): TypedValue | undefined {
  const trimmed = text.trim();
  return readDate(trimmed, locale) ?? readTime(trimmed) ?? readAmount(trimmed, locale);
}

const FIELDS = { d: "day", m: "month", y: "year" } as const;

function readDate(text: string, { order }: ReaderLocale): TypedValue | undefined {
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(text);
  if (iso) return serialDate(Number(iso[1]), Number(iso[2]), Number(iso[3]), "yyyy-mm-dd");
  const found = /^(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})\.?$/.exec(text);
  if (!found) return undefined;
  const [, a = "", mark = "/", b = "", c = ""] = found;
  const fields = new Map([...order].map((letter, index) => [letter, [a, b, c][index] ?? ""]));
  const [day = "", month = "", written = ""] = ["d", "m", "y"].map((letter) => fields.get(letter));
  const isWritten = day.length <= 2 && month.length <= 2 && (written.length === 4 || written.length === 2);
  const short = Number(written);
  // Excel's rule for two digits: 00 to 29 are this century.
  const year = written.length === 4 ? short : short + (short < 30 ? 2000 : 1900);
  const format = [...order].map((letter) => (letter === "y" ? "yyyy" : letter.repeat(2))).join(mark);
  const read = isWritten ? serialDate(year, Number(month), Number(day), format) : undefined;
  if (read || (a.length < 4 && c.length < 2)) return read;
  const habit = [...order].map((letter) => FIELDS[letter as keyof typeof FIELDS]).join(mark);
  return { value: text, sentence: `${text} stays text: dates are read as ${habit}` };
}

/** Days since 1899-12-30, which is what Excel counts from March 1900 on (ECMA-376 part 1, 18.17.4.1). */
function serialDate(year: number, month: number, day: number, numberFormat: string): TypedValue | undefined {
  const time = Date.UTC(year, month - 1, day);
  const date = new Date(time);
  const isReal =
    date.getUTCMonth() === month - 1 && date.getUTCDate() === day && year >= 1901 && year <= 9999;
  return isReal ? { value: time / 86_400_000 + 25_569, numberFormat } : undefined;
}

function readTime(text: string): TypedValue | undefined {
  const [, hours, minutes, seconds] = /^(\d{1,3}):([0-5]\d)(?::([0-5]\d))?$/.exec(text) ?? [];
  if (hours === undefined || minutes === undefined) return undefined;
  const value = (Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds ?? 0)) / 86_400;
  const isLong = Number(hours) > 23;
  return { value, numberFormat: `${isLong ? "[h]" : "h"}:mm${seconds === undefined ? "" : ":ss"}` };
}

function readAmount(text: string, { decimal, group }: ReaderLocale): TypedValue | undefined {
  const found =
    /^([^\d.,+-]{0,4}?)\s*([+-]?)\s*([^\d.,]{0,4}?)\s*(\d[\d.,'’\s\u00a0\u202f]*|[.,]\d+)\s*([^\d\s]{0,3})$/u.exec(
      text,
    );
  if (!found) return undefined;
  const [, before = "", sign = "", inner = "", digits = "", behind = ""] = found;
  const mark = before.trim() || inner.trim();
  const isPercent = behind === "%" && mark === "";
  const currency = mark || (isPercent ? "" : behind);
  if (currency !== "" && !CURRENCY.test(currency)) return undefined;
  const size = readDigits(digits.trim(), decimal, group);
  if (size === undefined) {
    const isPlain = /^[\d.,'’\s\u00a0\u202f]+$/u.test(digits) && !/^\d+(?:[.,]\d+){2,}$/.test(digits);
    return isPlain
      ? { value: text, sentence: `${text} stays text: numbers are written 1${group}234${decimal}5` }
      : undefined;
  }
  const value = (sign === "-" ? -1 : 1) * (isPercent ? size.value / 100 : size.value);
  const zeros = size.decimals > 0 ? `.${"0".repeat(size.decimals)}` : "";
  if (isPercent) return { value: Number(value.toPrecision(15)), numberFormat: `0${zeros}%` };
  const number = `${size.isGrouped || currency !== "" ? "#,##0" : "0"}${zeros}`;
  if (currency === "") return { value, ...(size.isGrouped && { numberFormat: number }) };
  return { value, numberFormat: mark ? `"${currency}" ${number}` : `${number} "${currency}"` };
}

interface Digits {
  readonly value: number;
  readonly decimals: number;
  readonly isGrouped: boolean;
}

/** Digits with the reader's signs; undefined where the signs stand in other places than the reader would put them. */
function readDigits(text: string, decimal: string, group: string): Digits | undefined {
  const spaces = /[\s\u00a0\u202f]/g;
  const isSpaced = group.trim() === "";
  const [whole = "", fraction, ...more] = text.split(decimal);
  if (more.length > 0 || (fraction !== undefined && !/^\d*$/.test(fraction))) return undefined;
  const apart = isSpaced
    ? whole.replace(spaces, " ").split(" ")
    : whole.replaceAll("’", "'").split(group.replace("’", "'"));
  const isGrouped = apart.length > 1;
  const isFine = isGrouped
    ? /^\d{1,3}$/.test(apart[0] ?? "") && apart.slice(1).every((three) => /^\d{3}$/.test(three))
    : /^\d*$/.test(whole) && (whole !== "" || fraction !== undefined);
  if (!isFine) return undefined;
  const value = Number(`${apart.join("") || "0"}.${fraction ?? ""}`);
  return { value, decimals: fraction?.length ?? 0, isGrouped };
}
