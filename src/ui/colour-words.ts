import { channels, mixed } from "./svg";

/** Plain words for colours and how a screen shows them; chosen by eye, nobody's colour chart. */
const WORDS: Readonly<Record<string, string>> = {
  white: "#f7f5f0",
  ivory: "#f3ead6",
  cream: "#f2e6cc",
  pearl: "#eee9e0",
  clear: "#e6edef",
  transparent: "#e6edef",
  black: "#2a2a2c",
  grey: "#8d8f92",
  charcoal: "#4a4d52",
  silver: "#b9bdc2",
  gold: "#c9a04a",
  "rose gold": "#cf9a88",
  champagne: "#e2cda6",
  bronze: "#8f6a3e",
  copper: "#b2714a",
  red: "#c9302f",
  scarlet: "#d23a28",
  crimson: "#a81f38",
  cherry: "#a8243a",
  burgundy: "#6e1f33",
  wine: "#6b2239",
  maroon: "#6a2430",
  ruby: "#991c3b",
  brick: "#a34a35",
  rust: "#a9532c",
  terracotta: "#bf6a4a",
  pink: "#ef9db4",
  "hot pink": "#e34b8b",
  blush: "#eec9c2",
  rose: "#d98a97",
  "dusty rose": "#c4898b",
  fuchsia: "#c92f87",
  magenta: "#b92a7e",
  raspberry: "#a92a55",
  salmon: "#eb9580",
  coral: "#ec7663",
  peach: "#f5bf9c",
  apricot: "#f0ae78",
  orange: "#e98431",
  tangerine: "#ec7a2e",
  amber: "#dd9a2c",
  mustard: "#c99a2f",
  yellow: "#f1cf3f",
  lemon: "#f3e06a",
  sand: "#dccaa6",
  beige: "#dccdb4",
  nude: "#dfbfa6",
  tan: "#c19a6b",
  caramel: "#b5783f",
  mocha: "#7d5b48",
  brown: "#6f4a35",
  chocolate: "#51352a",
  green: "#3f8f4f",
  lime: "#9cc844",
  olive: "#7d7f42",
  moss: "#6f7d45",
  sage: "#a5b196",
  eucalyptus: "#8aa596",
  mint: "#b0dcc6",
  emerald: "#1f7d57",
  forest: "#2c5a3f",
  pine: "#2b5444",
  teal: "#2b7d80",
  turquoise: "#43b3ae",
  aqua: "#7fcccb",
  blue: "#3a6fb7",
  sky: "#8ec1e3",
  "baby blue": "#a9cfe6",
  cornflower: "#6f93d1",
  royal: "#2f4fa5",
  "royal blue": "#2f4fa5",
  cobalt: "#2b4e9b",
  denim: "#4a6b8f",
  slate: "#69798a",
  navy: "#23335a",
  midnight: "#1d2642",
  indigo: "#443c82",
  violet: "#7b539f",
  purple: "#6d3f8c",
  plum: "#6a3457",
  aubergine: "#4a2942",
  orchid: "#b87bb4",
  mauve: "#b395a8",
  lilac: "#c4aed6",
  lavender: "#bdb0dc",
};

/** Words before a colour that make it lighter (towards 255) or darker (towards 0). */
const SHADES: Readonly<Record<string, readonly [towards: number, share: number]>> = {
  light: [255, 0.4],
  pale: [255, 0.5],
  pastel: [255, 0.4],
  soft: [255, 0.25],
  baby: [255, 0.4],
  dusty: [140, 0.3],
  medium: [0, 0],
  dark: [0, 0.3],
  deep: [0, 0.25],
};

const SHORT: Readonly<Record<string, string>> = {
  lt: "light",
  dk: "dark",
  drk: "dark",
  med: "medium",
  gray: "grey",
};

/** A colour as a screen shows it; `isKnown` is false for a stand-in. */
export interface ScreenColour {
  readonly colour: string;
  readonly isKnown: boolean;
}

function wordsOf(name: string): readonly string[] {
  const words = name.toLowerCase().match(/\p{L}+/gu) ?? [];
  return words.map((word) => SHORT[word] ?? word);
}

/** The last colour word of a name, two words before one, with the words that stand before it. */
function knownWord(
  words: readonly string[],
): { readonly colour: string; readonly before: readonly string[] } | undefined {
  for (let end = words.length; end > 0; end -= 1)
    for (const length of [2, 1]) {
      const colour = WORDS[words.slice(Math.max(0, end - length), end).join(" ")];
      if (colour !== undefined) return { colour, before: words.slice(0, Math.max(0, end - length)) };
    }
  return undefined;
}

/** A quiet tint that a name always has. */
function standIn(name: string): string {
  let hash = 5381;
  for (const sign of name.trim().toLowerCase()) hash = (hash * 33 + (sign.codePointAt(0) ?? 0)) % 4294967296;
  const light = 150 + (hash % 64);
  const warm = (Math.floor(hash / 64) % 25) - 12;
  return `#${[light + warm, light, light - warm].map((part) => part.toString(16).padStart(2, "0")).join("")}`;
}

/**
 * The colour that a name of a colour has on the screen: `#rrggbb` as written, a plain word with what makes it lighter or
 * darker, else a neutral tint that is always the same for that name.
 *
 * @param name as the tables write it
 */
export function screenColour(name: string): ScreenColour {
  if (channels(name) !== undefined) return { colour: name.trim(), isKnown: true };
  const known = knownWord(wordsOf(name));
  if (known === undefined) return { colour: standIn(name), isKnown: false };
  const colour = known.before.reduce((shown, word) => {
    const shade = SHADES[word];
    const parts = channels(shown);
    return shade === undefined || parts === undefined ? shown : mixed(parts, shade[0], shade[1]);
  }, known.colour);
  return { colour, isKnown: true };
}
