import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findSeparator, parseDelimited, SEPARATORS } from "../../src/workbook/delimited";

describe("parseDelimited", () => {
  // The examples of RFC 4180, section 2.
  it.each<[string, string, string[][]]>([
    [
      "lines",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "a last line without its end",
      "aaa,bbb\r\nzzz,yyy",
      [
        ["aaa", "bbb"],
        ["zzz", "yyy"],
      ],
    ],
    [
      "quoted fields",
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "a line break in a field",
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "b\r\nbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["a quote in a field", '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
    ["spaces that count", " a , b", [[" a ", " b"]]],
    [
      "empty fields at the end",
      "a,,\n,b,",
      [
        ["a", "", ""],
        ["", "b", ""],
      ],
    ],
    ["an empty line", "a\n\nb", [["a"], [""], ["b"]]],
    [
      "inches",
      '5",navy\n11",red',
      [
        ['5"', "navy"],
        ['11"', "red"],
      ],
    ],
    ["text behind a quote", '"a"b,c', [["ab", "c"]]],
    [
      "old line ends",
      "a,b\rc,d\r",
      [
        ["a", "b"],
        ["c", "d"],
      ],
    ],
  ])("reads %s", (_what, text, records) => {
    expect(parseDelimited(text, ",")).toEqual(records);
  });

  it("tells of a quote that is never closed", () => {
    expect(parseDelimited('a,"b\nc,d', ",")).toBeUndefined();
    expect(parseDelimited('a,"b\nc,d', ",", false)).toEqual([
      ["a", '"b'],
      ["c", "d"],
    ]);
  });

  it("reads back whatever RFC 4180 can write", () => {
    const quoted = (field: string): string => `"${field.replaceAll('"', '""')}"`;
    const field = fc.string({
      unit: fc.constantFrom("a", "1", " ", '"', ",", ";", "\n", "\r", "é"),
      maxLength: 6,
    });
    const table = fc.array(fc.array(field, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(
        table,
        fc.constantFrom(...SEPARATORS),
        fc.constantFrom("\n", "\r\n", "\r"),
        (records, separator, end) => {
          const text = records.map((record) => record.map(quoted).join(separator) + end).join("");
          expect(parseDelimited(text, separator)).toEqual(records);
        },
      ),
    );
  });
});

describe("findSeparator", () => {
  it.each([
    ["a,b\n1,2\n", ","],
    ["a;b\n1,5;2,5\n", ";"],
    ["colour;price\nnavy;9,90\nred;1.234,50\n", ";"],
    ["a\tb\n1;2\t3\n", "\t"],
    ["a|b|c\n1|2|3\n", "|"],
    ['name,note\nx,"one; two"\ny,"three; four; five"\n', ","],
    ["Prices of spring\n\nitem,each,pack\nnavy,1,2\nred,3,4\n", ","],
    ["only\none\ncolumn\n", undefined],
    // A quote that is never closed is a sign like others.
    ['size;price\n11";9\n5;4\n', ";"],
    // Rows without content say nothing about the columns.
    ["a,b\n;;;\n;;;\n;;;\n1,2\n", ","],
    ["", undefined],
  ])("finds in %j what parts the columns", (text, separator) => {
    expect(findSeparator(text)).toBe(separator);
  });
});
