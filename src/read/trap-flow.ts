// `{ … }` and `[ … ]` as their author meant them: a text goes on until the next `, key:` or the closing bracket, whatever
// signs it holds. What YAML would split differently becomes a trap. Builds nothing.

import type { Mend } from './mended.js';
import { addTextTrap, noteTooDeep, type Scan, type TextFault } from './trap.js';
import { endsAtComma, gluedKey, isDash, isOver, type Open, readFlowText, skipBlank } from './trap-flow-text.js';
import { type Item, noteItems } from './trap-items.js';
import {
  noteDashes,
  noteDecimalComma,
  noteMissingComma,
  noteSpaceAfterColon,
  noteUnclosedBracket,
  noteUnclosedQuote,
} from './trap-separators.js';
import { keyEnd, placeholderEnd, quoteEnd, signBefore } from './trap-signs.js';

/** Deeper than any book goes; the parser itself would run out of stack at some thousands. */
const deepestNesting = 40;

export interface FlowEnd {
  /** Behind the closing bracket, or where it should have stood. */
  readonly end: number;
  readonly closed: boolean;
}

/** Looks through the bracket that opens at `start`; a line indented by `parent` or less no longer belongs to it. */
export function scanFlow(scan: Scan, start: number, parent: number): FlowEnd {
  return scanBracket(scan, start, { brackets: '', parent });
}

function scanBracket(scan: Scan, start: number, outer: Open): FlowEnd {
  const bracket = scan.text[start] ?? '';
  const dashes = bracket === '[' && /^\[\s*\n\s*-\s/.test(scan.text.slice(start, start + 400));
  const open: Open = { brackets: outer.brackets + bracket, parent: outer.parent, dashes };
  if (open.brackets.length > deepestNesting) {
    noteTooDeep(scan, start);
    return { end: scan.text.length, closed: false };
  }
  const items: Item[] = [];
  const mends: Mend[] = [];
  let at = start + 1;
  let afterComma = false;
  for (;;) {
    at = skipBlank(scan, at, open);
    const sign = scan.text[at] ?? '';
    if (isOver(scan, at, open) || '}]'.includes(sign)) return closeBracket(scan, { start, at }, { items, open, mends });
    const isItem = dashes && isDash(scan.text, at);
    if (isItem) mends.push(dashMend(at, { parent: outer.parent, isFirst: items.length === 0 || afterComma }));
    if (sign === ',' || isItem) {
      afterComma = true;
      at += 1;
      continue;
    }
    afterComma = false;
    const item = bracket === '{' ? scanEntry(scan, at, open) : scanItem(scan, at, open);
    if (item.kind === 'broken') return { end: item.end, closed: false };
    items.push(item);
    at = Math.max(item.end, at + 1);
  }
}

/** A comma in place of the dash at `at`, further right than what the brackets belong to. */
function dashMend(at: number, item: { parent: number; isFirst: boolean }): Mend {
  return { start: at, end: at + 1, text: `${' '.repeat(item.parent + 1)}${item.isFirst ? ' ' : ','}` };
}

function closeBracket(
  scan: Scan,
  place: { start: number; at: number },
  inside: { items: readonly Item[]; open: Open; mends: readonly Mend[] },
): FlowEnd {
  const { start, at } = place;
  const { items, open } = inside;
  const bracket = scan.text[start] ?? '';
  noteItems(scan, bracket, items);
  const over = isOver(scan, at, open);
  const closed = !over && scan.text[at] === closingOf(bracket);
  const end = items.at(-1)?.textEnd ?? start + 1;
  const missing = over ? [...open.brackets].reverse() : [bracket];
  const signs = missing.map(closingOf).join(' ');
  const closing = signs.startsWith('}') ? ` ${signs}` : signs;
  if (inside.mends.length > 0) {
    noteDashes(scan, closed ? inside.mends : [...inside.mends, { start: end, end, text: closing }]);
  } else if (!closed) noteUnclosedBracket(scan, start, { end, closing });
  return { end: closed ? at + 1 : at, closed: !over };
}

function closingOf(bracket: string): string {
  return bracket === '{' ? '}' : ']';
}

function scanEntry(scan: Scan, start: number, open: Open): Item {
  const colon = keyEnd(scan.text, start, true) ?? noteGluedKey(scan, start);
  if (colon === undefined) {
    const text = readFlowText(scan, start, open);
    // A key of several words: what it may be called is the schema's matter.
    const kind = text.fault?.kind === 'colon' ? 'seen' : 'no-key';
    return { start, end: text.next, textEnd: text.end, kind };
  }
  const value = skipBlank(scan, colon, open);
  if (isOver(scan, value, open) || ',}]'.includes(scan.text[value] ?? ',')) {
    return { start, end: value, textEnd: colon, kind: 'seen' };
  }
  const item = scanItem(scan, value, open);
  return { ...item, start, kind: item.kind === 'broken' ? 'broken' : 'seen' };
}

function noteGluedKey(scan: Scan, start: number): number | undefined {
  const colon = gluedKey(scan.text, start);
  if (colon !== undefined) noteSpaceAfterColon(scan, { start, end: colon });
  return colon;
}

/** A value in a map, or an item of a list. */
function scanItem(scan: Scan, start: number, open: Open): Item {
  const sign = scan.text[start] ?? '';
  if (sign === '"' || sign === "'") return scanQuoted(scan, start, open);
  const isText = sign === '{' && placeholderEnd(scan.text, start) !== undefined;
  if ((sign === '{' || sign === '[') && !isText) {
    const inside = scanBracket(scan, start, open);
    return { start, end: inside.end, textEnd: inside.end, kind: inside.closed ? 'seen' : 'broken' };
  }
  const before = signBefore(scan.text, start);
  return scanText(scan, start, { open, ...(before ? { fault: { kind: 'sign', at: before } } : {}) });
}

function scanQuoted(scan: Scan, start: number, open: Open): Item {
  const end = quoteEnd(scan.text, start, open.parent);
  if (end !== undefined && endsItem(scan, end, open)) return { start, end, textEnd: end, kind: 'seen' };
  return scanText(scan, start, { open, fault: { kind: 'sign', at: { start, end: start + 1 } } });
}

function endsItem(scan: Scan, end: number, open: Open): boolean {
  const next = skipBlank(scan, end, open);
  if (isOver(scan, next, open)) return true;
  const sign = scan.text[next] ?? '';
  return '}]'.includes(sign) || (sign === ',' && endsAtComma(scan, next, open));
}

function scanText(scan: Scan, start: number, context: { open: Open; fault?: TextFault }): Item {
  const text = readFlowText(scan, start, context.open);
  const fault = context.fault ?? text.fault;
  const whole = { start, end: text.end };
  const seen: Item = { start, end: text.next, textEnd: text.end, kind: 'seen' };
  if (!fault) return { ...seen, kind: 'text' };
  if (fault.kind === 'comma' && noteDecimalComma(scan, whole)) return seen;
  if (fault.kind === 'colon') {
    const gap = noteMissingComma(scan, whole, fault.at);
    if (gap !== undefined) return { ...seen, end: gap, textEnd: gap };
  }
  if (isUnclosedQuote(scan.text.slice(start, text.end))) noteUnclosedQuote(scan, whole);
  else addTextTrap(scan, whole, fault);
  return seen;
}

/** A quote at the start and no other like it. */
export function isUnclosedQuote(written: string): boolean {
  const quote = written[0] ?? '';
  return (quote === '"' || quote === "'") && written.indexOf(quote, 1) < 0;
}
