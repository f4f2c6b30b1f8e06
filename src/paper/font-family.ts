/**
 * A font with what stands in for it where it is not installed, so that a plain face does not turn into one with serifs. In
 * single quotes, since it stands in attributes of copied cells.
 */
export function fontFamily(name: string): string {
  const hasSerifs = /times|cambria|georgia|garamond|palatino|bookman/i.test(name);
  const own = /^[\w -]+$/.test(name) ? `'${name}', ` : "";
  return own + (hasSerifs ? "serif" : "Carlito, Arial, 'Liberation Sans', sans-serif");
}

/** Height of a small x as a share of the size, of faces whose widths columns are made for. Source: their font files' OS/2 tables, from memory. */
const X_HEIGHTS: Readonly<Record<string, number>> = { calibri: 0.466, carlito: 0.466, arial: 0.519 };

/**
 * What keeps a stand-in as narrow as the font that is not installed: its small letters as high as that font's, so that a text which
 * fits its column there is not cut here.
 *
 * @param name of the font; without one that of new workbooks
 * @returns the value of the CSS property `font-size-adjust`
 */
export function standInSize(name = "Calibri"): string {
  return String(X_HEIGHTS[name.toLowerCase()] ?? "none");
}
