// Patterns of words, whatever their capitals. A pattern with the flags `iu` costs a hundred times as much to put together as one
// for small letters, and `\p{L}` twenty times as much as a few ranges; the rules on words have hundreds of patterns.

/** What `\p{L}` and `\p{N}` become. Some marks of scripts far from ours count as letters, which moves no end of a word in ours. */
const letters =
  'A-Za-z\\u00AA\\u00B5\\u00BA\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u02FF\\u0370-\\u1FFF\\u2C00-\\uD7FF\\uF900-\\uFDFF';
const numerals = '0-9\\u00B2\\u00B3\\u00B9\\u00BC-\\u00BE';

/** A pattern that looks at small letters alone. Of what it finds, the whole is as it was written, and groups in small letters. */
export interface Caseless {
  test(text: string): boolean;
  exec(text: string): RegExpExecArray | null;
  matchAll(text: string): readonly RegExpExecArray[];
  /** The text without what is found first. */
  cut(text: string): string;
}

/** Makes a pattern of the source of a regular expression, in which `\p{L}` and `\p{N}` may stand, in a class or alone. */
export function caseless(source: string): Caseless {
  const pattern = new RegExp(smallSource(source), 'gu');
  const from = (start: number, text: string): RegExpExecArray | null => {
    pattern.lastIndex = start;
    const found = pattern.exec(lowered(text));
    if (found) found[0] = text.slice(found.index, found.index + found[0].length);
    return found;
  };
  return {
    test: (text) => {
      pattern.lastIndex = 0;
      return pattern.test(lowered(text));
    },
    exec: (text) => from(0, text),
    matchAll: (text) => {
      const all: RegExpExecArray[] = [];
      for (let found = from(0, text); found; ) {
        all.push(found);
        found = from(found.index + Math.max(1, found[0].length), text);
      }
      return all;
    },
    cut: (text) => {
      const found = from(0, text);
      return found ? text.slice(0, found.index) + text.slice(found.index + found[0].length) : text;
    },
  };
}

/** The source in small letters, but for what a backslash makes a sign of its own. */
function smallSource(source: string): string {
  let isClass = false;
  return source.replaceAll(/\\p\{[LN]\}|\\.|[[\]]|[^\\[\]]+/gu, (part) => {
    if (part === '[' || part === ']') isClass = part === '[';
    if (part === '\\p{L}') return isClass ? letters : `[${letters}]`;
    if (part === '\\p{N}') return isClass ? numerals : `[${numerals}]`;
    return part.startsWith('\\') ? part : part.toLowerCase();
  });
}

let last = { text: '', small: '' };

/** The text in small letters, each at its place. */
function lowered(text: string): string {
  // many patterns look at one text in turn
  if (last.text !== text) last = { text, small: lower(text) };
  return last.small;
}

function lower(text: string): string {
  const small = text.toLowerCase();
  // a few capitals, as İ, are two signs when small
  return small.length === text.length
    ? small
    : [...text].map((sign) => (sign.toLowerCase().length === sign.length ? sign.toLowerCase() : sign)).join('');
}
