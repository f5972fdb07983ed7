// The parts of one bracket side by side: finds entries that have no value, and list items that are halves of one text.

import { diagnose } from '../diagnostic/diagnostic.js';
import { addTextTrap, onOneLine, type Scan, spanIn } from './trap.js';
import { noteDecimalComma } from './trap-separators.js';

/** One part of a bracket: an entry of a map, or an item of a list. `end` is where the next one is looked for. */
export interface Item {
  readonly start: number;
  readonly end: number;
  /** Behind its last letter, without a comment that follows. */
  readonly textEnd: number;
  /** `seen`: nothing more to say of it. `broken`: the bracket around it breaks off. */
  readonly kind: 'seen' | 'no-key' | 'text' | 'broken';
}

/** Looks at all parts of a bracket once it is read. */
export function noteItems(scan: Scan, bracket: string, items: readonly Item[]): void {
  if (bracket === '{') {
    const lone = items.filter(({ kind }) => kind === 'no-key');
    for (const item of lone) noteNoValue(scan, item, lone.length === items.length);
  }
  if (bracket === '[') noteHalves(scan, items);
}

/** `isAlone`: nothing in the bracket has a key, so that another bracket was meant. */
function noteNoValue(scan: Scan, item: Item, isAlone: boolean): void {
  const written = onOneLine(scan.text.slice(item.start, item.textEnd));
  scan.traps.push({
    diagnostic: diagnose({
      code: 'missing-value',
      severity: 'error',
      message: `Unexpected \`${written}\` inside \`{ }\`, expected a key and its value, \`key: value\``,
      at: spanIn(scan, { start: item.start, end: item.textEnd }),
      help: isAlone
        ? `Write \`[${written}]\` if it is a list. If it is a text, put all of it in quotes, the braces too.`
        : 'Write its key and a colon before it. If it belongs to the text before it, put that text in quotes as a whole.',
    }),
    mends: [],
  });
}

function noteHalves(scan: Scan, items: readonly Item[]): void {
  const written = items.map((item) => scan.text.slice(item.start, item.textEnd));
  for (let first = 0; first < items.length; first++) {
    const glued = lastOfNumber(items, written, first);
    const split = glued > first ? glued : lastOfSentence(items, written, first);
    if (split === first) continue;
    const whole = { start: items[first]?.start ?? 0, end: items[split]?.textEnd ?? 0 };
    const comma = items[first]?.textEnd ?? 0;
    const isNumber = glued > first && noteDecimalComma(scan, whole);
    if (!isNumber) addTextTrap(scan, whole, { kind: 'comma', at: { start: comma, end: comma + 1 } });
    first = split;
  }
}

/** `[3,6 V]`: digits on both sides of a comma without a space, and a unit at the end. */
function lastOfNumber(items: readonly Item[], written: readonly string[], first: number): number {
  let last = first;
  while (
    items[last]?.kind === 'text' &&
    items[last + 1]?.kind === 'text' &&
    items[last + 1]?.start === (items[last]?.textEnd ?? 0) + 1 &&
    /\d$/.test(written[last] ?? '') &&
    /^\d/.test(written[last + 1] ?? '')
  ) {
    last += 1;
  }
  return /[^\d\s.]/.test(written[last] ?? '') && /^[-+±]?\s*\d/.test(written[first] ?? '') ? last : first;
}

/** `[Turn it, then stop.]`: what starts with a capital goes on in small letters and ends with a full stop. */
function lastOfSentence(items: readonly Item[], written: readonly string[], first: number): number {
  if (items[first]?.kind !== 'text' || !/^\p{Lu}.*[^.!?]$/su.test(written[first] ?? '')) return first;
  for (let last = first + 1; last < items.length && items[last]?.kind === 'text'; last++) {
    if (!/^\p{Ll}/u.test(written[last] ?? '')) return first;
    if (/[.!?]$/.test(written[last] ?? '')) return last;
  }
  return first;
}
