/** What the codes of headers and footers stand for. */
export interface Running {
  readonly file: string;
  readonly sheet: string;
  readonly date: string;
  readonly time: string;
}

/** The sides of a page's head or foot, each as the value of the CSS property `content`. */
export interface RunningSides {
  readonly left: string;
  readonly center: string;
  readonly right: string;
}

const CODE = /&(?:"[^"]*"|K(?:[0-9A-F]{6}|\d\d[+-]\d{3})|\d+|.)/gis;

/** A text as a CSS string that no style element ends before. */
function quoted(text: string): string {
  const safe = text.replace(/["\\<>\p{Cc}]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 32).toString(16)} `);
  return `"${safe}"`;
}

/** Excel's codes for heads and feet (ECMA-376 part 1, 18.3.1.46) as contents of CSS page-margin boxes; fonts are left out. */
export function runningSides(codes: string, { file, sheet, date, time }: Running): RunningSides {
  const sides = { left: [] as string[], center: [] as string[], right: [] as string[] };
  let side: keyof typeof sides = "center";
  const add = (text: string): void => {
    if (text !== "") sides[side].push(quoted(text));
  };
  let at = 0;
  for (const match of codes.matchAll(CODE)) {
    add(codes.slice(at, match.index));
    at = match.index + match[0].length;
    switch (match[0].slice(1).toUpperCase()) {
      case "L":
        side = "left";
        break;
      case "C":
        side = "center";
        break;
      case "R":
        side = "right";
        break;
      case "P":
        sides[side].push("counter(page)");
        break;
      case "N":
        sides[side].push("counter(pages)");
        break;
      case "D":
        add(date);
        break;
      case "T":
        add(time);
        break;
      case "F":
        add(file);
        break;
      case "A":
        add(sheet);
        break;
      case "&":
        add("&");
    }
  }
  add(codes.slice(at));
  return { left: sides.left.join(" "), center: sides.center.join(" "), right: sides.right.join(" ") };
}
