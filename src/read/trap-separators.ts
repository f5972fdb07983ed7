// Words and mends for a separator that is missing or misread: a space, a comma, a quote, a bracket.

import { isBookKey } from './book-keys.js';
import type { Range } from './front-matter.js';
import type { Mend } from './mended.js';
import { addMendedTrap, onOneLine, type Scan } from './trap.js';

/** Notes a key whose colon lacks the space behind it; `key` covers both. `odd` is an invisible character in its place. */
export function noteSpaceAfterColon(scan: Scan, key: Range, odd = ''): void {
  const written = scan.text.slice(key.start, key.end);
  addMendedTrap(
    scan,
    {
      code: 'missing-space',
      at: key,
      message: odd
        ? `Unexpected non-breaking space behind \`${written}\`: it looks like a space, but the key is not read`
        : `Unexpected \`${written}\` without a space behind the colon: it is not read as a key`,
      help: odd ? `Delete the space behind \`${written}\` and type it again.` : `Put a space behind \`${written}\`.`,
    },
    {
      title: 'Put a space behind the colon',
      safe: true,
      mends: [{ start: key.end, end: key.end + odd.length, text: ' ' }],
    },
  );
}

/** Notes a list item whose dash lacks the space behind it; `mends` put it in and move the keys below with it. */
export function noteSpaceAfterDash(scan: Scan, dash: number, mends: readonly Mend[]): void {
  const written = /^-(?:\{|[^\s:]*:)/.exec(scan.text.slice(dash, dash + 60))?.[0] ?? '-';
  addMendedTrap(
    scan,
    {
      code: 'missing-space',
      at: { start: dash, end: dash + written.length },
      message: `Unexpected \`${written}\` without a space behind the dash: it is not read as an item of a list`,
      help: `Write \`- ${written.slice(1)}\`.`,
    },
    { title: 'Put a space behind the dash', safe: true, mends },
  );
}

/** Notes a number that starts `whole` and is written with a comma, where YAML splits it; whether it was one. */
export function noteDecimalComma(scan: Scan, whole: Range): boolean {
  const written = scan.text.slice(whole.start, whole.end);
  if (!/^(?:at (?:least|most)[ \t]+)?[-+±]?[ \t]*\d+,\d/.test(written)) return false;
  const rewritten = written.replace(/,(?=\d)/g, '.');
  const thousands = /\d,\d{3}(?!\d)/.test(written);
  const grouped = thousands ? `, or \`${written.replace(/,(?=\d{3})/g, '')}\` if the comma groups thousands` : '';
  const commas = [...written.matchAll(/,(?=\d)/g)].map((found) => whole.start + found.index);
  addMendedTrap(
    scan,
    {
      code: 'decimal-comma',
      at: whole,
      message: `Unexpected comma in the number \`${onOneLine(written)}\`: inside \`{ }\` or \`[ ]\` it splits the number in two`,
      help: `Write \`${onOneLine(rewritten)}\`${onOneLine(grouped)}.`,
    },
    {
      title: `Write ${onOneLine(rewritten)}`,
      // a number that is read otherwise than before is for its author to look at
      safe: false,
      mends: commas.map((comma) => ({ start: comma, end: comma + 1, text: '.' })),
    },
  );
  return true;
}

/**
 * Notes a comma that was forgotten before a known key (`{ id: x do: Turn it. }`); gives the place where it belongs,
 * or nothing where the colon rather belongs to the text.
 */
export function noteMissingComma(scan: Scan, whole: Range, colon: Range): number | undefined {
  const before = /(\s+)([a-z][a-z-]*)$/.exec(scan.text.slice(whole.start, colon.start));
  const key = before?.[2] ?? '';
  if (!before || !isBookKey(key)) return undefined;
  const keyStart = colon.start - key.length;
  const gap = keyStart - (before[1] ?? '').length;
  addMendedTrap(
    scan,
    {
      code: 'missing-comma',
      at: { start: keyStart, end: colon.end },
      message: `Unexpected key \`${key}\` right behind a text: no comma stands between them`,
      help: `Put a comma before \`${key}:\`. If it belongs to the text, put the whole text in quotes.`,
    },
    { title: 'Put a comma before the key', safe: false, mends: [{ start: gap, end: gap, text: ',' }] },
  );
  return gap;
}

/** Notes a quote that opens a text and is never closed; the text is read as if it were, at its end. */
export function noteUnclosedQuote(scan: Scan, whole: Range): void {
  const quote = scan.text[whole.start] ?? '"';
  addMendedTrap(
    scan,
    {
      code: 'unclosed-quote',
      at: { start: whole.start, end: whole.start + 1 },
      message: `The quote \`${quote}\` that opens here is never closed`,
      help: `Put a \`${quote}\` at the end of the text, or take this one away.`,
    },
    { title: 'Close the quote', safe: false, mends: [{ start: whole.end, end: whole.end, text: quote }] },
  );
}

/** Notes a bracket that is never closed; `end` is where its last part ends, `closing` all that is missing there. */
export function noteUnclosedBracket(scan: Scan, start: number, missing: { end: number; closing: string }): void {
  const { end, closing } = missing;
  const isLong = scan.text.slice(start, end).includes('\n');
  addMendedTrap(
    scan,
    {
      code: 'unclosed-bracket',
      at: { start, end: start + 1 },
      message: `The \`${scan.text[start]}\` that opens here is never closed`,
      ...(isLong ? { related: { message: 'The last part inside it seems to end here', at: { start: end, end } } } : {}),
      help: `Put \`${closing.trim()}\` behind the last part that belongs to it.`,
    },
    { title: `Put the missing ${closing.trim()}`, safe: false, mends: [{ start: end, end, text: closing }] },
  );
}

/** Notes dashes before the items of a list in brackets; `mends` put commas in their place. */
export function noteDashes(scan: Scan, mends: readonly Mend[]): void {
  const first = mends[0];
  if (!first) return;
  addMendedTrap(
    scan,
    {
      code: 'yaml-syntax',
      at: { start: first.start, end: first.end },
      message: 'Unexpected dash inside `[ ]`, where commas stand between the items',
      help: 'Put a comma behind each item and take the dashes away, or keep the dashes and take the brackets away.',
    },
    { title: 'Put commas in place of the dashes', safe: false, mends },
  );
}

/** Notes closing brackets that nothing opened. */
export function noteExtraBracket(scan: Scan, extra: Range): void {
  const written = scan.text.slice(extra.start, extra.end).trim();
  addMendedTrap(
    scan,
    {
      code: 'extra-bracket',
      at: extra,
      message: `Unexpected \`${written}\`: no bracket is open here`,
      help: `Delete this \`${written}\`, or put the bracket that should open before it.`,
    },
    { title: `Delete ${written}`, safe: false, mends: [{ ...extra, text: '' }] },
  );
}
