// Words into lines: inline marks to runs, runs to lines that fit a width. Numbers and units stay together by U+00A0.

/** How wide words are. */
export interface Measures {
  /** Width of a text in points at a size of one point. */
  readonly widthOf: (text: string, bold: boolean) => number;
}

/** Words in one face. */
export interface Run {
  readonly text: string;
  readonly bold: boolean;
}

export type Line = readonly Run[];

/** Markdown as steps use it: `**LEARN**` is bold; other marks are left out. */
export function runsOf(markdown: string, bold = false): readonly Run[] {
  const plain = markdown
    .replace(/!?\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/`([^`]*)`/g, '$1')
    .replace(/\\([\\`*_{}[\]()#+.!|-])/g, '$1')
    // where a word could be parted; cards part none
    .replace(/\u00ad/g, '');
  return plain
    .split('**')
    .map((text, i) => ({
      text: text.replace(/\s+/g, (blank) => (blank.includes('\u00a0') ? '\u00a0' : ' ')),
      bold: bold || i % 2 === 1,
    }))
    .filter(({ text }) => text !== '');
}

interface Word extends Run {
  /** No blank stands before it: it goes on from the run before. */
  readonly joined: boolean;
}

function wordsOf(runs: readonly Run[]): readonly Word[] {
  const words: Word[] = [];
  let joined = false;
  for (const { text, bold } of runs) {
    for (const [i, part] of text.split(' ').entries()) {
      if (i > 0) joined = false;
      if (part === '') continue;
      words.push({ text: part, bold, joined });
      joined = true;
    }
  }
  return words;
}

export interface Wrapped {
  readonly lines: readonly Line[];
  /** A word that is wider than the column alone. */
  readonly tooWide?: string;
}

/** Breaks runs into lines of at most `width` points at a size. */
export function wrap(runs: readonly Run[], width: number, { size, fonts }: { size: number; fonts: Measures }): Wrapped {
  const lines: Run[][] = [];
  let line: Run[] = [];
  let used = 0;
  let tooWide: string | undefined;
  const blank = fonts.widthOf(' ', false) * size;
  for (const group of groupsOf(wordsOf(runs))) {
    const wide = group.reduce((sum, word) => sum + fonts.widthOf(word.text, word.bold) * size, 0);
    if (wide > width) tooWide ??= group.map(({ text }) => text).join('');
    if (line.length > 0 && used + blank + wide > width) {
      lines.push(line);
      line = [];
      used = 0;
    }
    used += (line.length > 0 ? blank : 0) + wide;
    for (const [i, word] of group.entries()) append(line, word, i === 0);
  }
  if (line.length > 0) lines.push(line);
  return { lines, ...(tooWide === undefined ? {} : { tooWide }) };
}

/** Words that nothing may break apart. */
function groupsOf(words: readonly Word[]): readonly (readonly Word[])[] {
  const groups: Word[][] = [];
  for (const word of words) {
    const last = groups.at(-1);
    if (word.joined && last) last.push(word);
    else groups.push([word]);
  }
  return groups;
}

/** Adds a word to a line, with a blank before it unless it begins the line or goes on from the one before. */
function append(line: Run[], { text, bold }: Word, spaced: boolean): void {
  const before = line.at(-1);
  const lead = before && spaced ? ' ' : '';
  if (before && before.bold === bold) line[line.length - 1] = { text: before.text + lead + text, bold };
  else line.push({ text: lead + text, bold });
}

/** The width of a line in points. */
export function lineWidth(line: Line, { size, fonts }: { size: number; fonts: Measures }): number {
  return line.reduce((sum, { text, bold }) => sum + fonts.widthOf(text, bold) * size, 0);
}
