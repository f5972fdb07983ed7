// How far a text inside `{ }` or `[ ]` reaches as its author meant it, and which of its signs YAML would trip over.

import { isBookKey } from './book-keys.js';
import type { Scan, TextFault } from './trap.js';
import { cutsText, isComment, keyEnd, lineEnd, placeholderEnd } from './trap-signs.js';

/** Brackets that are open, outermost first, and the indent that a line must have more of to belong to them. */
export interface Open {
  readonly brackets: string;
  readonly parent: number;
  /** Whether the items of the innermost one stand behind dashes, one on each line. */
  readonly dashes?: boolean;
}

export interface FlowText {
  readonly end: number;
  /** Where looking goes on: behind a comment that follows the text. */
  readonly next: number;
  readonly fault?: TextFault;
}

/** Reads the text that starts at `start`. */
export function readFlowText(scan: Scan, start: number, open: Open): FlowText {
  let fault: TextFault | undefined;
  let at = start;
  for (;;) {
    const step = isOver(scan, at, open) ? { over: at } : stepOver(scan, { start, at }, open);
    if ('over' in step) {
      const end = start + scan.text.slice(start, step.over).trimEnd().length;
      return { end, next: step.next ?? step.over, ...(fault ? { fault: reachOf(scan, fault, end) } : {}) };
    }
    fault ??= step.fault;
    at = step.at;
  }
}

type Step = { at: number; fault?: TextFault } | { over: number; next?: number };

function stepOver(scan: Scan, text: { start: number; at: number }, open: Open): Step {
  const { at } = text;
  const source = scan.text;
  const sign = source[at] ?? '';
  if (open.dashes && isDash(source, at)) return { over: at };
  const past = (kind: TextFault['kind'], end: number): Step => ({ at: end, fault: { kind, at: { start: at, end } } });
  if (at > text.start && isDash(source, at)) return past('dash', at + 1);
  if (sign === '{') return past('brace', placeholderEnd(source, at) ?? at + 1);
  if (sign === '[') return past('bracket', innerEnd(source, at));
  if ((sign === '}' || sign === ']') && open.brackets.includes(sign === '}' ? '{' : '[')) {
    const doubled = source.startsWith('}}', at) && source.slice(text.start, at).includes('{{');
    return doubled ? { at: at + 2 } : { over: at };
  }
  if (sign === ',') return endsAtComma(scan, at, open) ? { over: at } : past('comma', at + 1);
  if (sign === ':' && /^[\s,{}[\]]/.test(source.slice(at + 1, at + 2))) return past('colon', at + 1);
  if (!cutsText(source, at)) return { at: at + 1 };
  return isComment(source, at) ? { over: at, next: lineEnd(source, at) } : past('hash', at + 1);
}

/** What a `#` cuts reaches to the end of its line, or of the text. */
function reachOf(scan: Scan, fault: TextFault, end: number): TextFault {
  if (fault.kind !== 'hash') return fault;
  return { kind: 'hash', at: { start: fault.at.start, end: Math.min(end, lineEnd(scan.text, fault.at.start)) } };
}

function innerEnd(text: string, start: number): number {
  const closing = text.slice(start, lineEnd(text, start)).indexOf(']');
  return closing < 0 ? start + 1 : start + closing + 1;
}

/** A key of several words with a step, an end or a map behind it, as answers have them: `hard to tell: call-service`. */
const keyOfWords = /^\p{L}[\p{L}\p{N}-]*(?: [\p{L}\p{N}-]+){1,4}: (?:[a-z][a-z0-9-]*[ \t]*[,}]|\{)/u;

/** Whether the comma at `at` ends a text: always in a list, in a map only before the next key or the closing bracket. */
export function endsAtComma(scan: Scan, at: number, open: Open): boolean {
  if (open.brackets.endsWith('[')) return true;
  const next = skipBlank(scan, at + 1, open);
  if (isOver(scan, next, open) || keyEnd(scan.text, next, true) !== undefined) return true;
  if (keyOfWords.test(scan.text.slice(next, lineEnd(scan.text, next)))) return true;
  return '}],'.includes(scan.text[next] ?? ',') || gluedKey(scan.text, next) !== undefined;
}

/** The end of a known key, behind its colon, that lacks the space there (`do:Turn it`). */
export function gluedKey(text: string, start: number): number | undefined {
  const found = /^([a-z][a-z-]*):(?=[^\s:/,{}[\]])/.exec(text.slice(start, start + 40));
  return found && isBookKey(found[1] ?? '') ? start + found[0].length : undefined;
}

/** Past white space and comments. */
export function skipBlank(scan: Scan, start: number, open: Open): number {
  for (let at = start; ; ) {
    if (isOver(scan, at, open)) return at;
    const comment = cutsText(scan.text, at) && (isComment(scan.text, at) || isFirstOnLine(scan.text, at));
    if (comment) at = lineEnd(scan.text, at);
    else if (/\s/.test(scan.text[at] ?? '')) at += 1;
    else return at;
  }
}

/** Whether a dash stands at `at` as before an item of a list: the first on its line, a space behind it. */
export function isDash(text: string, at: number): boolean {
  return text[at] === '-' && /^-\s/.test(text.slice(at, at + 2)) && isFirstOnLine(text, at);
}

function isFirstOnLine(text: string, at: number): boolean {
  return text.slice(text.lastIndexOf('\n', at) + 1, at).trim() === '';
}

const nextFilled = /(?:[ \t]*\r?\n)*([ \t]*)(\S)/y;

/** At the end of the file, or at a line break behind which the brackets can no longer go on. */
export function isOver(scan: Scan, at: number, open: Open): boolean {
  if (at >= scan.text.length) return true;
  if (scan.text[at] !== '\n') return false;
  nextFilled.lastIndex = at + 1;
  const next = nextFilled.exec(scan.text);
  if (!next) return true;
  return (next[1] ?? '').length <= open.parent && !(open.dashes ? '}]-' : '}]').includes(next[2] ?? '');
}
