import { describe, expect, it } from "vitest";
import { commentsMarkup, notesDrawingMarkup } from "../../src/workbook/create-notes";
import { readXml, type XmlElement } from "../../src/workbook/xml";

const below = (element: XmlElement, local: string): readonly XmlElement[] =>
  element.children.flatMap((child) => [...(child.local === local ? [child] : []), ...below(child, local)]);

describe("the part of notes", () => {
  // ECMA-376 part 1, 18.7: who wrote, and what stands at which cell.
  it("says who wrote them, and each note at its cell", () => {
    const root = readXml(
      commentsMarkup(
        [
          { row: 3, column: 27, text: " two\nlines & <more> " },
          { row: 0, column: 0, text: "_x0041_" },
        ],
        "A & B",
      ),
      "comments",
    );
    expect(
      root
        .child("authors")
        ?.all("author")
        .map(({ text }) => text),
    ).toEqual(["A & B"]);
    const comments = root.child("commentList")?.all("comment") ?? [];
    expect(comments.map((comment) => [comment.get("ref"), comment.get("authorId")])).toEqual([
      ["AB4", "0"],
      ["A1", "0"],
    ]);
    // What looks like an escape is escaped (ST_Xstring, 22.9.2.19).
    expect(below(root, "t").map(({ text }) => text)).toEqual([" two\nlines & <more> ", "_x005F_x0041_"]);
    expect(below(root, "t").every((element) => element.keepsSpace())).toBe(true);
  });
});

describe("the drawing of notes", () => {
  const drawing = (text: string, row = 5, column = 2, block = 1): XmlElement =>
    readXml(
      notesDrawingMarkup(
        [
          { row, column, text },
          { row: 0, column: 0, text: "x" },
        ],
        block,
      ),
      "vml",
    );
  /** Left column, top row, right column and bottom row of a box. */
  const box = (root: XmlElement): readonly number[] => {
    const places = (below(root, "Anchor")[0]?.text ?? "").split(",").map(Number);
    expect(places).toHaveLength(8);
    return [places[0], places[2], places[4], places[6]].map((place) => place ?? NaN);
  };

  it("puts a box right of its cell, not above the sheet, and names the cell", () => {
    expect(box(drawing("short")).slice(0, 3)).toEqual([3, 4, 6]);
    expect(box(drawing("short", 0)).slice(0, 2)).toEqual([3, 0]);
    const root = drawing("short");
    expect(below(root, "Row").map(({ text }) => text)).toEqual(["5", "0"]);
    expect(below(root, "Column").map(({ text }) => text)).toEqual(["2", "0"]);
  });

  it("makes it higher for a longer text, and never higher than a window", () => {
    const height = (text: string): number => {
      const [, , , bottom = NaN] = box(drawing(text));
      return bottom - 5;
    };
    expect(height("short")).toBe(4);
    expect(height("a\nb\nc")).toBe(6);
    expect(height("x".repeat(100))).toBeGreaterThan(height("short"));
    expect(height("x".repeat(32_767))).toBe(30);
  });

  it("numbers its shapes from 1024 times its block on, each anew", () => {
    const ids = (block: number): readonly (string | undefined)[] =>
      below(drawing("x", 5, 2, block), "shape").map((shape) => shape.get("id"));
    expect(ids(1)).toEqual(["_x0000_s1025", "_x0000_s1026"]);
    expect(ids(3)).toEqual(["_x0000_s3073", "_x0000_s3074"]);
    expect(below(drawing("x", 5, 2, 3), "idmap")[0]?.get("data")).toBe("3");
  });
});
