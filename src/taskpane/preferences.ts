/** How a person thinks of lengths. */
export type LengthWords = "metres" | "feet";

/** A person's own choices, kept on this computer. */
export interface Preferences {
  lengthWords(): LengthWords;
  setLengthWords(words: LengthWords): void;
}

const KEY = "bln-length-words";

/**
 * Preferences in local storage, or only until the pane closes where the browser allows none.
 *
 * @param partition prefix that Office gives where a browser keeps storage of several sites apart
 */
export function makePreferences(partition: string, storage: () => Storage): Preferences {
  const key = `${partition}${KEY}`;
  let words: LengthWords = "metres";
  try {
    if (storage().getItem(key) === "feet") words = "feet";
  } catch {
    // Storage is refused in private windows and by strict settings; the choice then lasts as long as the pane.
  }
  return {
    lengthWords: () => words,
    setLengthWords: (next) => {
      words = next;
      try {
        storage().setItem(key, next);
      } catch {
        // As above.
      }
    },
  };
}
