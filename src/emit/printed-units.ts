// Units as people read them: the book's `degF` and `deg` are printed with the degree sign.

/** Replaces unit words that stand behind a number (joined to it by U+00A0): `100 °F`, `12°`. */
export function printedUnits(text: string): string {
  // Most texts have none, and are not searched letter by letter for one.
  if (!text.includes('\u00a0deg')) return text;
  return text
    .replace(/(?<=\d)\u00a0deg([FC])(?![\p{L}\p{N}])/gu, '\u00a0°$1')
    .replace(/(?<=\d)\u00a0deg(?![\p{L}\p{N}])/gu, '°');
}
