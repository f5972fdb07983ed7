// Bytes of a file as text, or the first place where they are none.

/** Text without its byte-order mark, or why there is none and at which byte (counted from 0). */
export type Decoded =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'not-utf-8'; readonly byte: number; readonly line: number }
  | { readonly kind: 'utf-16' }
  | { readonly kind: 'binary'; readonly byte: number };

/** Reads bytes as UTF-8. A byte-order mark is skipped; a NUL byte means that the file is no text. */
export function decodeText(bytes: Uint8Array): Decoded {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) return { kind: 'utf-16' };
  const wrong = firstWrongByte(bytes);
  const nul = bytes.indexOf(0);
  if (nul >= 0 && (wrong === undefined || nul < wrong)) return { kind: 'binary', byte: nul };
  if (wrong !== undefined) return { kind: 'not-utf-8', byte: wrong, line: lineOf(bytes, wrong) };
  return { kind: 'text', text: new TextDecoder('utf-8').decode(bytes) };
}

function lineOf(bytes: Uint8Array, end: number): number {
  let line = 1;
  for (let i = 0; i < end; i++) if (bytes[i] === 0x0a) line += 1;
  return line;
}

function firstWrongByte(bytes: Uint8Array): number | undefined {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return undefined;
  } catch {
    // The decoder does not say where: look for the place by hand.
    for (let at = 0; at < bytes.length; ) {
      const length = sequenceLength(bytes, at);
      if (length === 0) return at;
      at += length;
    }
    return bytes.length;
  }
}

/** Bytes of the well-formed sequence that starts at `at` (Unicode Standard, table 3-7), or 0 where there is none. */
function sequenceLength(bytes: Uint8Array, at: number): number {
  const lead = bytes[at] ?? 0;
  if (lead < 0x80) return 1;
  const second = bytes[at + 1] ?? 0;
  const length =
    lead >= 0xc2 && lead <= 0xdf ? 2 : lead >= 0xe0 && lead <= 0xef ? 3 : lead >= 0xf0 && lead <= 0xf4 ? 4 : 0;
  const low = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
  const high = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
  if (length === 0 || second < low || second > high) return 0;
  for (let i = 2; i < length; i++) if (((bytes[at + i] ?? 0) & 0xc0) !== 0x80) return 0;
  return length;
}
