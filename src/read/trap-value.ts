// One value in the lines of a YAML file: how far it reaches as its author meant it, and what YAML would trip over.

import { isBookKey } from './book-keys.js';
import { addTextTrap, type Scan, type TextFault } from './trap.js';
import { isUnclosedQuote, scanFlow } from './trap-flow.js';
import { isDash } from './trap-flow-text.js';
import { noteExtraBracket, noteUnclosedQuote } from './trap-separators.js';
import {
  cutsText,
  type FilledLine,
  filledLine,
  isComment,
  keyEnd,
  lineEnd,
  meantEnd,
  nextLine,
  placeholderEnd,
  quoteEnd,
  signBefore,
} from './trap-signs.js';

/** Where a value starts; a line indented by `parent` or less no longer belongs to it. */
export interface ValuePlace {
  readonly at: number;
  readonly parent: number;
  /** What it stands behind: `line` where it is the first on its line. */
  readonly before: 'key' | 'dash' | 'line';
}

export interface ValueEnd {
  /** The line to go on with. */
  readonly next: number;
  /** A key that stands below the text and deeper than it may. */
  readonly deepKey?: FilledLine;
}

/** Looks through the value at a place and notes its traps. */
export function scanValue(scan: Scan, place: ValuePlace): ValueEnd {
  const { text } = scan;
  const { at, parent } = place;
  if (at >= lineEnd(text, at)) return { next: nextLine(text, at) };
  const sign = text[at] ?? '';
  if (sign === '#') return scanHash(scan, place);
  if (sign === '"' || sign === "'") return scanQuoted(scan, place);
  if (sign === '{' || sign === '[') return scanBrackets(scan, place);
  if ((sign === '|' || sign === '>') && blockHeader.test(text.slice(at, lineEnd(text, at)))) {
    return { next: pastBlock(text, at, parent) };
  }
  const meant = meantEnd(text, at);
  if (meant !== undefined) return scanValue(scan, { ...place, at: pastSpaces(text, meant) });
  const before = signBefore(text, at);
  return scanText(scan, place, before && { kind: 'sign', at: before });
}

function pastSpaces(text: string, start: number): number {
  let at = start;
  while (text[at] === ' ' || text[at] === '\t') at += 1;
  return at;
}

const blockHeader = /^[|>](?:[+-]?[1-9]?|[1-9][+-])(?:[ \t]+#.*)?[ \t]*$/;

function pastBlock(text: string, at: number, parent: number): number {
  let next = filledLine(text, nextLine(text, at));
  while (next && next.column > parent) next = filledLine(text, nextLine(text, next.at));
  return next?.start ?? text.length;
}

function scanText(scan: Scan, place: ValuePlace, known?: TextFault): ValueEnd {
  const text = readText(scan, place);
  const fault = known ?? text.fault;
  const end: ValueEnd = { next: text.next, ...(text.deepKey ? { deepKey: text.deepKey } : {}) };
  if (!fault) return end;
  // A key of several words on a line of its own: what it may be called is the schema's matter.
  if (
    fault.kind === 'colon' &&
    place.before === 'line' &&
    !/^\p{Lu}\S*\s/u.test(scan.text.slice(place.at, fault.at.start))
  ) {
    return scanValue(scan, { at: pastSpaces(scan.text, fault.at.end), parent: place.parent + 1, before: 'key' });
  }
  const whole = { start: place.at, end: text.end };
  if (fault.kind === 'hash' && isNumberWithComment(scan.text, place.at, fault.at.start)) return end;
  if (isUnclosedQuote(scan.text.slice(whole.start, whole.end))) noteUnclosedQuote(scan, whole);
  else addTextTrap(scan, whole, fault);
  return end;
}

/** `people: 2 # both in the cab`: nothing of a text is cut there. */
function isNumberWithComment(text: string, start: number, hash: number): boolean {
  return (
    /^(?:[-+]?[\d.]+|true|false|null|~)\s*$/.test(text.slice(start, hash)) &&
    /^#(?:\s|$)/.test(text.slice(hash, hash + 2))
  );
}

/** `key: #4 bolt`: the whole value is gone, unless something stands below the key. */
function scanHash(scan: Scan, place: ValuePlace): ValueEnd {
  const { text } = scan;
  const below = filledLine(text, nextLine(text, place.at));
  const isNested = below && (below.column > place.parent || (below.column === place.parent && text[below.at] === '-'));
  if (place.before !== 'key' || isNested || isComment(text, place.at)) return { next: nextLine(text, place.at) };
  const end = lineEnd(text, place.at);
  return scanText(scan, place, { kind: 'hash', at: { start: place.at, end } });
}

function scanQuoted(scan: Scan, place: ValuePlace): ValueEnd {
  const end = quoteEnd(scan.text, place.at, place.parent);
  if (end !== undefined && /^[ \t]*(?:#[ \t]|#?$)/.test(scan.text.slice(end, lineEnd(scan.text, end)))) {
    return { next: nextLine(scan.text, end) };
  }
  return scanText(scan, place, { kind: 'sign', at: { start: place.at, end: place.at + 1 } });
}

function scanBrackets(scan: Scan, place: ValuePlace): ValueEnd {
  const { text } = scan;
  const { at } = place;
  const words = placeholderEnd(text, at) ?? bracketedWord(text, at);
  if (words !== undefined) return scanText(scan, place, { kind: 'brace', at: { start: at, end: words } });
  const flow = scanFlow(scan, at, place.parent);
  if (flow.closed) {
    const rest = text.slice(flow.end, lineEnd(text, flow.end));
    if (/^[ \t]*[\]}]+[ \t]*$/.test(rest)) {
      const start = flow.end + (rest.length - rest.trimStart().length);
      noteExtraBracket(scan, { start, end: flow.end + rest.trimEnd().length });
    }
  }
  return { next: nextLine(text, flow.end) };
}

/** `[OK] is shown`: brackets with words behind them. */
function bracketedWord(text: string, at: number): number | undefined {
  const found = /^\[[^\][{}]*\](?=([ \t]*)([^\s,\]}]))/.exec(text.slice(at, lineEnd(text, at)));
  if (!found) return undefined;
  const end = at + found[0].length;
  const next = end + (found[1] ?? '').length;
  const comment = found[2] === '#' && (next === end || /^(?:\s|$)/.test(text.slice(next + 1, next + 2)));
  return comment ? undefined : end;
}

interface BlockText {
  readonly end: number;
  readonly next: number;
  readonly fault?: TextFault;
  readonly deepKey?: FilledLine;
}

/** A plain text and the lines below that go on with it. */
function readText(scan: Scan, place: ValuePlace): BlockText {
  const { text } = scan;
  let fault: TextFault | undefined;
  let from = place.at;
  for (;;) {
    const line = readLine(text, from);
    fault ??= line.fault;
    const next = filledLine(text, nextLine(text, from));
    const stop = { end: line.end, next: next?.start ?? text.length, ...(fault ? { fault } : {}) };
    if (line.comment || !next || next.column <= place.parent) return stop;
    if (text[next.at] === '#' && /^#(?:\s|$)/.test(text.slice(next.at, next.at + 2))) return stop;
    if (place.before === 'key' && isDeepKey(text, next, text.slice(from, line.end))) return { ...stop, deepKey: next };
    if (isDash(text, next.at)) fault ??= { kind: 'dash', at: { start: next.at, end: next.at + 1 } };
    from = next.at;
  }
}

/** Whether a line that is deeper than it may be is a key of its own, and not more of the text `above`: a number does not go on. */
function isDeepKey(text: string, line: { start: number; at: number }, above: string): boolean {
  const end = keyEnd(text, line.at, false);
  if (end === undefined) return false;
  const key = text.slice(line.at, end - 1);
  const isTabbed = text.slice(line.start, line.at).includes('\t');
  return (
    isBookKey(key) || isTabbed || (/^[a-z][a-z0-9_-]*$/.test(key) && /^(?:[-±]?\d|at (?:least|most) )/.test(above))
  );
}

/** The part of one line that belongs to a text: all of it, or what stands before a comment. */
function readLine(text: string, start: number): { end: number; comment: boolean; fault?: TextFault } {
  const end = lineEnd(text, start);
  let fault: TextFault | undefined;
  for (let at = start; at < end; at++) {
    if (cutsText(text, at)) {
      if (isComment(text, at) && at > start) return finish(text, { start, end: at, comment: true }, fault);
      fault ??= { kind: 'hash', at: { start: at, end } };
    } else if (text[at] === ':' && /^(?:\s|$)/.test(text.slice(at + 1, at + 2))) {
      fault ??= { kind: 'colon', at: { start: at, end: at + 1 } };
    }
  }
  return finish(text, { start, end, comment: false }, fault);
}

function finish(text: string, line: { start: number; end: number; comment: boolean }, fault?: TextFault) {
  const end = line.start + text.slice(line.start, line.end).trimEnd().length;
  if (!fault) return { end, comment: line.comment };
  return {
    end,
    comment: line.comment,
    fault: { kind: fault.kind, at: { start: fault.at.start, end: Math.min(fault.at.end, end) } },
  };
}
