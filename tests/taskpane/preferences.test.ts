import { describe, expect, it } from "vitest";
import { makePreferences } from "../../src/taskpane/preferences";

function memory(): Storage {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  } as unknown as Storage;
}

describe("preferences", () => {
  it("are kept apart for each partition", () => {
    const storage = memory();
    makePreferences("a-", () => storage).setLengthWords("feet");
    expect(makePreferences("a-", () => storage).lengthWords()).toBe("feet");
    expect(makePreferences("b-", () => storage).lengthWords()).toBe("metres");
  });

  it("last as long as the pane where the browser refuses storage", () => {
    const preferences = makePreferences("", () => {
      throw new Error("refused");
    });
    preferences.setLengthWords("feet");
    expect(preferences.lengthWords()).toBe("feet");
  });
});
