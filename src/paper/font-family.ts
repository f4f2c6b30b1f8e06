/**
 * A font with what stands in for it where it is not installed, so that a plain face does not turn into one with serifs. In
 * single quotes, since it stands in attributes of copied cells.
 */
export function fontFamily(name: string): string {
  const hasSerifs = /times|cambria|georgia|garamond|palatino|bookman/i.test(name);
  const own = /^[\w -]+$/.test(name) ? `'${name}', ` : "";
  return own + (hasSerifs ? "serif" : "Carlito, Arial, 'Liberation Sans', sans-serif");
}
