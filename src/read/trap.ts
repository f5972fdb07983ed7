// What a trap is: a place where YAML would not take a text as its author wrote it. Words and mends; finding is elsewhere.

import { type Diagnostic, diagnose, type Fix } from '../diagnostic/diagnostic.js';
import type { SourceFile, Span } from '../text/source.js';
import { isBookKey } from './book-keys.js';
import type { Range } from './front-matter.js';
import { type Mend, quotePart, quoteText } from './mended.js';

/** A fault that was seen before YAML is parsed, and what is parsed in place of the faulty part. */
export interface Trap {
  readonly diagnostic: Diagnostic;
  readonly mends: readonly Mend[];
}

/** Why a text is not read as written. `at` is the sign that does it. */
export type TextFault =
  | { readonly kind: 'comma' | 'colon' | 'brace' | 'bracket' | 'sign' | 'dash'; readonly at: Range }
  /** `at` is what YAML cuts, from the `#` on. */
  | { readonly kind: 'hash'; readonly at: Range };

/** The file being looked through, and what was found so far. `text` ends where the looked-through part ends. */
export interface Scan {
  readonly file: SourceFile;
  readonly text: string;
  readonly traps: Trap[];
  /** Set where brackets or lists stand too deep inside each other to be parsed at all. */
  tooDeep: boolean;
}

export function spanIn(scan: Scan, part: Range): Span {
  return { file: scan.file.path, start: part.start, end: part.end };
}

/** Notes that the text `whole` is misread because of `fault`, and reads it as if it stood in quotes. */
export function addTextTrap(scan: Scan, whole: Range, fault: TextFault): void {
  if (fault.kind === 'sign' && noteSignOfNumber(scan, whole)) return;
  const mend = quotePart(scan.text, whole);
  const asComment = fault.kind === 'hash' && looksLikeComment(scan, fault.at);
  const inQuotes: Fix = {
    title: 'Put the text in quotes',
    edits: [{ at: spanIn(scan, whole), text: quoteText(scan.text.slice(whole.start, whole.end)) }],
    safe: !asComment && fault.kind !== 'dash',
  };
  const words = wordsOf(scan, whole, fault);
  const diagnostic = diagnose({
    code: codes[fault.kind],
    severity: 'error',
    message: words.message,
    at: spanIn(scan, fault.at),
    help: `Put the whole text in quotes: \`${onOneLine(mend.text)}\`.${words.help ?? ''}`,
    ...(words.note ? { note: words.note } : {}),
    fixes: words.fix ? [inQuotes, words.fix] : [inQuotes],
  });
  // What may well be a comment is read as one, so that the words before it are checked as they stand.
  scan.traps.push({ diagnostic, mends: asComment && fault.at.start > whole.start ? [] : [mend] });
}

const numberKeys = /\b(?:equals|hold|inside|is|limits|nominal|range|resolution|smallest|value|wait|within)\s*:[ \t]*$/;

/** `> 4 %`, `%4`: a number is meant, and quotes would not make one of it. Reads the number that is likely meant. */
function noteSignOfNumber(scan: Scan, whole: Range): boolean {
  const text = scan.text.slice(whole.start, whole.end);
  const isNumber = numberKeys.test(scan.text.slice(Math.max(0, whole.start - 40), whole.start));
  const [, above, number] = (isNumber && /^(>=?|%)\s*(\d[^\r\n]*)$/.exec(text)) || [];
  if (above === undefined || number === undefined) return false;
  const isShare = above === '%';
  const meant = isShare ? `${number} %` : `at least ${number}`;
  const ends = isShare
    ? 'A unit stands behind its number'
    : 'Ends belong to the limits: write the smallest value that passes';
  addMendedTrap(
    scan,
    {
      code: 'sign-before-text',
      at: { start: whole.start, end: whole.start + above.length },
      message: `Unexpected \`${above}\` before a number, where this sign has a meaning of its own`,
      help: `Write \`${meant}\`. ${ends}.`,
    },
    { title: `Write \`${meant}\``, safe: false, mends: [{ start: whole.start, end: whole.end, text: meant }] },
  );
  return true;
}

const codes: Readonly<Record<TextFault['kind'], string>> = {
  comma: 'comma-in-text',
  colon: 'colon-in-text',
  brace: 'brace-in-text',
  bracket: 'brace-in-text',
  sign: 'sign-before-text',
  dash: 'wrong-indent',
  hash: 'text-cut-by-hash',
};

interface Words {
  readonly message: string;
  readonly help?: string;
  readonly note?: string;
  readonly fix?: Fix;
}

function wordsOf(scan: Scan, whole: Range, fault: TextFault): Words {
  const written = onOneLine(scan.text.slice(fault.at.start, fault.at.end));
  const before = onOneLine(scan.text.slice(whole.start, fault.at.start)).trimEnd();
  if (fault.kind === 'comma') {
    const after = onOneLine(scan.text.slice(fault.at.end, whole.end)).trim();
    // A sentence has no key in it; what begins in small letters may be a word with a forgotten key behind it.
    const help = /^\p{Lu}/u.test(before)
      ? undefined
      : ` Or write its key before \`${after}\` if it is a value of its own.`;
    return {
      ...(help ? { help } : {}),
      message: `A comma inside \`{ }\` or \`[ ]\` ends a text: \`${before}\` and \`${after}\` are read as two things`,
    };
  }
  if (fault.kind === 'colon') {
    const message = `\`${before}\` is read as a key because of the colon behind it, not as words of a text`;
    const key = before.split(/\s/).at(-1) ?? '';
    if (fault.at.end >= whole.end) return { message, help: ' Or leave the colon out.' };
    return { message, ...(isBookKey(key) ? { help: ` If \`${key}\` is a key, put it on a line of its own.` } : {}) };
  }
  if (fault.kind === 'hash') return hashWords(scan, whole, fault.at, before);
  if (fault.kind === 'sign') return signWords(scan, whole, written);
  if (fault.kind === 'dash') {
    return {
      message: 'The dash at the start of this line begins no item of a list: it is read as part of the text above it',
      help: ' If a list is meant, take away the text that stands before it.',
    };
  }
  const opens = written.startsWith('[') ? 'a list' : 'a part with keys of its own';
  return { message: `Unexpected \`${written}\` in a text without quotes: a \`${written[0]}\` here opens ${opens}` };
}

function signWords(scan: Scan, whole: Range, sign: string): Words {
  if (sign === '"' || sign === "'") {
    const end = scan.text.indexOf(sign, whole.start + 1) + 1;
    const quoted = onOneLine(scan.text.slice(whole.start, end));
    return { message: `The quotes end behind \`${quoted}\`, before the text does: what follows them cannot be read` };
  }
  const shown = sign === '`' ? 'backtick' : `\`${sign}\``;
  return { message: `Unexpected ${shown} at the start of a text, where this sign has a meaning of its own` };
}

function hashWords(scan: Scan, whole: Range, cut: Range, before: string): Words {
  const written = onOneLine(scan.text.slice(cut.start, cut.end));
  const message = before
    ? `\`${written}\` is cut off as a comment: the text would end at \`${lastWords(before)}\``
    : `\`${written}\` is cut off as a comment, and no text is left`;
  const note = 'A comment behind a text is two or more spaces, `#`, a space; every other `#` behind a space is a slip.';
  if (!looksLikeComment(scan, cut) || cut.start === whole.start) return { message, note };
  const at = spanIn(scan, { start: cut.start, end: cut.start });
  const fix: Fix = { title: 'Make it a comment', edits: [{ at, text: ' ' }], safe: false };
  return { message, note, help: ' If it is a comment, put two spaces before the `#`.', fix };
}

/** `# ` behind a single space: a sentence may go on there, or a comment may lack a space. */
function looksLikeComment(scan: Scan, cut: Range): boolean {
  return /^#(?:[ \t]|$)/.test(scan.text.slice(cut.start, cut.end));
}

function lastWords(text: string): string {
  return text.length > 40 ? `… ${text.slice(-36).replace(/^\S*\s+/, '')}` : text;
}

/** A written part on one line, shortened where it is long. */
export function onOneLine(text: string): string {
  const flat = text.replace(/\s*[\r\n]+\s*/g, ' ');
  return flat.length > 160 ? `${flat.slice(0, 150)} …` : flat;
}

/** Notes a fault that one change of the file mends, and reads the file as if it were changed. */
export function addMendedTrap(
  scan: Scan,
  fault: { code: string; at: Range; message: string; help: string; related?: { message: string; at: Range } },
  change: { title: string; safe: boolean; mends: readonly Mend[] },
): void {
  const edits = change.mends.map((mend) => ({ at: spanIn(scan, mend), text: mend.text }));
  const diagnostic = diagnose({
    code: fault.code,
    severity: 'error',
    message: fault.message,
    at: spanIn(scan, fault.at),
    related: fault.related ? [{ message: fault.related.message, at: spanIn(scan, fault.related.at) }] : [],
    help: fault.help,
    fixes: edits.length > 0 ? [{ title: change.title, edits, safe: change.safe }] : [],
  });
  scan.traps.push({ diagnostic, mends: change.mends });
}

/** Notes, once, parts that stand deeper inside each other than any book goes. */
export function noteTooDeep(scan: Scan, start: number): void {
  if (scan.tooDeep) return;
  scan.tooDeep = true;
  const diagnostic = diagnose({
    code: 'nested-too-deep',
    severity: 'error',
    message: 'Too many parts stand inside each other here: the file is not read',
    at: spanIn(scan, { start, end: start + 1 }),
    help: 'Take away the brackets, dashes or indents that are too many.',
  });
  scan.traps.push({ diagnostic, mends: [] });
}
