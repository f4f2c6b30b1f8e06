const BLACK = "#000000";
const WHITE = "#ffffff";
/** Least contrast of large text, below which a grey print cannot be read (WCAG 2.2, success criterion 1.4.3). */
const LEAST_CONTRAST = 3;

/** Relative luminance of a colour `#rrggbb`, from 0 to 1 (WCAG 2.2). */
function luminance(color: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const channel = parseInt(color.slice(at, at + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast of two colours, from 1 to 21: what is left of them in grey. */
export function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

/** The ink of a text on a fill: its own, or black or white where a printer without colours would lose the text. */
export function readableInk(ink: string, fill: string): string {
  // Ink of the fill's own colour hides a text on purpose.
  if (ink === fill || contrast(ink, fill) >= LEAST_CONTRAST) return ink;
  return contrast(BLACK, fill) >= contrast(WHITE, fill) ? BLACK : WHITE;
}
