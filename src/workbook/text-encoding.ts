/** A text and how its bytes were read. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: "UTF-8" | "UTF-16" | "windows-1252";
}

/** What windows-1252 has where Latin 1 has control characters, from 0x80 on (unicode.org, CP1252.TXT). */
const FROM_80 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";
const CHUNK = 2 ** 15;

function utf8(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

// Some versions of Node decode this encoding as Latin 1, in which there is no euro sign.
function windows1252(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += CHUNK) {
    pieces.push(String.fromCharCode(...bytes.subarray(at, at + CHUNK)));
  }
  return pieces.join("").replace(/[\x80-\x9f]/g, (sign) => FROM_80[sign.charCodeAt(0) - 0x80] ?? sign);
}

/** Whether every other byte is empty, as in Latin text of two bytes a character; `first` is the place of the empty ones. */
function isWide(bytes: Uint8Array, first: 0 | 1): boolean {
  const head = bytes.subarray(0, 400);
  const half = Math.floor(head.length / 2);
  let empty = 0;
  for (let i = first; i < half * 2; i += 2) if (head[i] === 0) empty++;
  return half > 0 && empty > half * 0.7;
}

/** The text of a file that does not say how it is encoded. */
export function decodeText(bytes: Uint8Array): DecodedText {
  const starts = (...mark: readonly number[]): boolean => mark.every((byte, i) => bytes[i] === byte);
  for (const [encoding, hasMark, first] of [
    ["utf-16le", starts(0xff, 0xfe), 1],
    ["utf-16be", starts(0xfe, 0xff), 0],
  ] as const) {
    if (hasMark || isWide(bytes, first)) {
      return { text: new TextDecoder(encoding).decode(bytes), encoding: "UTF-16" };
    }
  }
  const text = utf8(bytes);
  return text === undefined
    ? { text: windows1252(bytes), encoding: "windows-1252" }
    : { text, encoding: "UTF-8" };
}
