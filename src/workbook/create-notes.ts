import { cellAddress, type CellPosition } from "../formula/address";
import { NAMESPACES } from "./namespaces";
import { escapeText, PLAIN, XML_DECLARATION } from "./xml";
import { encodeXstring } from "./xstring";

/** A note and the cell that it belongs to. */
export interface PlacedNote extends CellPosition {
  readonly text: string;
}

/** The part that holds a sheet's notes. */
export function commentsMarkup(notes: readonly PlacedNote[], author: string): string {
  const comments = notes.map(({ row, column, text }) => {
    const content = PLAIN.wrap("t", 'xml:space="preserve"', escapeText(encodeXstring(text)));
    return PLAIN.wrap(
      "comment",
      `ref="${cellAddress(row, column)}" authorId="0"`,
      PLAIN.wrap("text", "", PLAIN.wrap("r", "", content)),
    );
  });
  const authors = PLAIN.wrap("authors", "", PLAIN.wrap("author", "", escapeText(encodeXstring(author))));
  const list = PLAIN.wrap("commentList", "", comments.join(""));
  return XML_DECLARATION + PLAIN.wrap("comments", `xmlns="${NAMESPACES.main}"`, authors + list);
}

/** Shapes of one drawing have numbers of their own: block n begins at 1024 n. */
const SHAPE_BLOCK = 1024;

/** The drawing (VML, ECMA-376 part 4) without which Excel shows no notes; `block` differs from sheet to sheet. */
export function notesDrawingMarkup(notes: readonly PlacedNote[], block: number): string {
  const shapes = notes.map(({ row, column, text }, i) => {
    // Left and right column, top and bottom row of the box, each followed by its offset in pixels.
    const lines = Math.min(30, 2 + Math.ceil(text.length / 34) + text.split("\n").length);
    const anchor = [column + 1, 15, Math.max(0, row - 1), 10, column + 4, 15, row + lines, 4].join(", ");
    return `<v:shape id="_x0000_s${String(SHAPE_BLOCK * block + 1 + i)}" type="#_x0000_t202" style="position:absolute;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto"><v:fill color2="#ffffe1"/><v:shadow color="black" obscured="t"/><v:path o:connecttype="none"/><v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox><x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>${anchor}</x:Anchor><x:AutoFill>False</x:AutoFill><x:Row>${String(row)}</x:Row><x:Column>${String(column)}</x:Column></x:ClientData></v:shape>`;
  });
  const head = `<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="${String(block)}"/></o:shapelayout><v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>`;
  const namespaces =
    'xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"';
  return PLAIN.wrap("xml", namespaces, head + shapes.join(""));
}
