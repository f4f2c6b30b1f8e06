// Text in cells, names and formulas has the type ST_Xstring (ECMA-376 part 1, 22.9.2.19): a character that XML
// cannot hold is written `_xHHHH_`, and an underscore that would begin such an escape is itself escaped.

const UNWRITABLE = String.raw`[^\P{Cc}\t\n\u007F-\u009F]|[\uFFFE\uFFFF\uD800-\uDFFF]`;
const TO_ESCAPE = new RegExp(`${UNWRITABLE}|_(?=x[0-9A-Fa-f]{4}(?:_|${UNWRITABLE}))`, "gu");

/** Text as the file holds it, before XML escaping. */
export function encodeXstring(text: string): string {
  return text.replace(TO_ESCAPE, (character) => {
    return `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`;
  });
}

/** Text as a person sees it. */
export function decodeXstring(text: string): string {
  if (!text.includes("_x")) return text;
  return text.replace(/_x([0-9A-Fa-f]{4})_/g, (_whole, code: string) => {
    return String.fromCharCode(parseInt(code, 16));
  });
}
