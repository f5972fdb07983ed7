// How wide a text stands on a terminal, and the text made safe to print there.

/** One character as a reader sees it, the offset it starts at, and the columns it takes (0, 1 or 2). */
export interface Cell {
  readonly start: number;
  readonly shown: string;
  readonly width: number;
}

const tabWidth = 4;
const segmenter = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** The characters of one line. Tabs become spaces; signs that would steer the terminal are shown as signs. */
export function cellsOf(line: string): readonly Cell[] {
  const cells: Cell[] = [];
  let column = 0;
  const add = (start: number, shown: string, width: number): void => {
    cells.push({ start, shown, width });
    column += width;
  };
  for (const { start, text } of charactersOf(line)) {
    if (text === '\t') {
      const width = tabWidth - (column % tabWidth);
      add(start, ' '.repeat(width), width);
    } else add(start, printable(text), widthOf(text));
  }
  return cells;
}

function charactersOf(line: string): readonly { start: number; text: string }[] {
  if (/^[\t -~]*$/.test(line)) return [...line].map((text, start) => ({ start, text }));
  return [...segmenter.segment(line)].map(({ index, segment }) => ({ start: index, text: segment }));
}

// Wide and full-width blocks of Unicode's EastAsianWidth.txt, and the emoji that are shown as pictures.
const wide =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u4dbf\u4e00-\u9fff\ua000-\ua4cf\ua960-\ua97c\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff01-\uff60\uffe0-\uffe6\u{1b000}-\u{1b2ff}\u{20000}-\u{3fffd}]|\p{Emoji_Presentation}|\ufe0f/u;
const widthless = /^[\p{Mn}\p{Me}\u200b-\u200f\u2060-\u2064\ufeff]+$/u;

function widthOf(character: string): number {
  if (widthless.test(character)) return 0;
  return wide.test(character) ? 2 : 1;
}

/**
 * A text without signs that steer a terminal or turn the reading direction: these are shown by the Unicode pictures
 * for control codes, or as a replacement sign. Line ends stay.
 */
export function printable(text: string): string {
  return /^[\n\t -~]*$/.test(text) ? text : text.replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, pictureOf);
}

function pictureOf(sign: string): string {
  const code = sign.charCodeAt(0);
  if (sign === '\n' || sign === '\t') return sign;
  if (sign === '\r') return '';
  return code < 0x20 ? String.fromCharCode(0x2400 + code) : code === 0x7f ? '\u2421' : '\ufffd';
}
