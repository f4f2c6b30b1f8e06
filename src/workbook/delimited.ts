/** What stands between the columns; the first wins where two fit equally: a comma inside semicolons is a decimal mark. */
export const SEPARATORS = ["\t", ";", ",", "|"] as const;
export type Separator = (typeof SEPARATORS)[number];

const SAMPLE = 2 ** 16;
const SAMPLE_RECORDS = 200;

/**
 * Records of fields as RFC 4180 and the programs that write such files have them: a field in double quotes may hold
 * separators, line breaks and doubled quotes. Undefined where a quote is never closed.
 */
export function parseDelimited(
  text: string,
  separator: Separator | undefined,
  hasQuotes = true,
): string[][] | undefined {
  const records: string[][] = [];
  let record: string[] = [];
  let at = 0;
  const end = (): void => {
    records.push(record);
    record = [];
  };
  while (at < text.length) {
    let field = "";
    if (hasQuotes && text[at] === '"') {
      for (;;) {
        const close = text.indexOf('"', at + 1);
        if (close < 0) return undefined;
        field += text.slice(at + 1, close);
        at = close + 1;
        if (text[at] !== '"') break;
        field += '"';
      }
    }
    // What follows a closing quote belongs to the field.
    let stop = at;
    while (stop < text.length && text[stop] !== separator && text[stop] !== "\n" && text[stop] !== "\r")
      stop++;
    record.push(field + text.slice(at, stop));
    at = stop;
    if (at >= text.length) break;
    if (text[at] === separator) {
      at++;
      if (at === text.length) record.push("");
    } else {
      at += text.startsWith("\r\n", at) ? 2 : 1;
      end();
    }
  }
  if (record.length > 0) end();
  return records;
}

/** How well a separator fits: the share of records with the most frequent number of fields, where it is above one. */
function fit(sample: string, isWhole: boolean, separator: Separator): number {
  const parsed = parseDelimited(sample, separator) ?? parseDelimited(sample, separator, false) ?? [];
  const records = (isWhole ? parsed : parsed.slice(0, -1))
    .filter((record) => record.some((field) => field !== ""))
    .slice(0, SAMPLE_RECORDS);
  const counts = new Map<number, number>();
  for (const { length } of records) counts.set(length, (counts.get(length) ?? 0) + 1);
  counts.delete(1);
  return Math.max(0, ...counts.values()) / Math.max(1, records.length);
}

/** The separator whose columns come out most alike; undefined where none makes two columns. */
export function findSeparator(text: string): Separator | undefined {
  const sample = text.slice(0, SAMPLE);
  let found: Separator | undefined;
  let best = 0;
  for (const separator of SEPARATORS) {
    const share = fit(sample, sample.length === text.length, separator);
    if (share > best) {
      best = share;
      found = separator;
    }
  }
  return found;
}
