// Signs that YAML keeps for itself, at the start of a text and inside one. Only looks; says nothing.

import type { Range } from './front-matter.js';

/** `{value}`, `{machine.word}`: words in braces that hold no colon and no comma. */
const placeholder = /\{\{|\{[ \t]*[\p{L}_][\p{L}\p{N}_.-]*[ \t]*\}/uy;

/** The end of a placeholder (or of a doubled brace) that stands at `start`, if one does. */
export function placeholderEnd(text: string, start: number): number | undefined {
  placeholder.lastIndex = start;
  const found = placeholder.exec(text);
  return found ? start + found[0].length : undefined;
}

const keyWord =
  /(?:"(?:[^"\\\r\n]|\\.)*"|'(?:[^'\r\n]|'')*'|[\p{L}\p{N}_$<](?:[^\s:,{}[\]#]|:(?=[^\s,{}[\]]))*)[ \t]*:(?=[\s,{}[\]]|$)/uy;
const blockKeyWord = /(?:"(?:[^"\\\r\n]|\\.)*"|'(?:[^'\r\n]|'')*'|[\p{L}\p{N}_$<](?:[^\s:]|:(?=\S))*)[ \t]*:(?=\s|$)/uy;

/** The end (behind the colon) of a key of one word or in quotes that stands at `start`. */
export function keyEnd(text: string, start: number, inFlow: boolean): number | undefined {
  const pattern = inFlow ? keyWord : blockKeyWord;
  pattern.lastIndex = start;
  const found = pattern.exec(text);
  return found ? start + found[0].length : undefined;
}

/** An anchor or alias (`&name`, `*name`) or a tag (`!!str`) that somebody meant: these are refused in their own words. */
const meant =
  /(?:\*[\w-]+(?=[ \t]*(?:$|[\r\n,}\]]))|&[\w-]+(?=[ \t]*(?:$|[\r\n{["']))|!![\w-]+|!<|![\w-]*(?=[ \t]*(?:$|[\r\n])))/y;

/** The end of an anchor, alias or tag that starts at `start`. */
export function meantEnd(text: string, start: number): number | undefined {
  meant.lastIndex = start;
  const found = meant.exec(text);
  if (!found) return undefined;
  const rest = /^[^\s,[\]{}]*/.exec(text.slice(start + found[0].length, start + found[0].length + 500));
  return start + found[0].length + (rest?.[0].length ?? 0);
}

/** The sign that keeps a text which starts at `start` from being read as text; none where it may start so. */
export function signBefore(text: string, start: number): Range | undefined {
  const first = text[start] ?? '';
  if (first === '&' || first === '*' || first === '!') {
    return meantEnd(text, start) === undefined ? { start, end: start + 1 } : undefined;
  }
  if ('%@`,]}|>'.includes(first) && first !== '') return { start, end: start + 1 };
  const next = text[start + 1];
  const spaced = next === undefined || /\s/.test(next);
  return '-?:'.includes(first) && first !== '' && spaced ? { start, end: start + 1 } : undefined;
}

/** Whether the `#` at `hash` opens a comment behind a text: two or more spaces, `#`, a space. */
export function isComment(text: string, hash: number): boolean {
  return text[hash - 1] === ' ' && text[hash - 2] === ' ' && /^(?:\s|$)/.test(text.slice(hash + 1, hash + 2));
}

/** Whether the `#` at `hash` has white space before it, so that YAML takes it for the start of a comment. */
export function cutsText(text: string, hash: number): boolean {
  return text[hash] === '#' && /\s/.test(text[hash - 1] ?? '');
}

/** The end of the line that `start` stands in, before its line break. */
export function lineEnd(text: string, start: number): number {
  const found = text.indexOf('\n', start);
  if (found < 0) return text.length;
  return found > start && text[found - 1] === '\r' ? found - 1 : found;
}

/**
 * Behind the quote that closes the one at `start`; missing where none comes before a line that is indented by `parent`
 * or less, which can no longer belong to the text.
 */
export function quoteEnd(text: string, start: number, parent: number): number | undefined {
  const quote = text[start];
  for (let at = start + 1; at < text.length; at++) {
    const sign = text[at];
    if (sign === '\\' && quote === '"') at += 1;
    else if (sign === quote && quote === "'" && text[at + 1] === "'") at += 1;
    else if (sign === quote) return at + 1;
    else if (sign === '\n' && !belongsTo(text, at + 1, parent)) return undefined;
  }
  return undefined;
}

const indentAndSign = /([ \t]*)(\r?\n|\S|$)/y;

/** Whether the line at `start` is empty or indented by more than `parent`. */
function belongsTo(text: string, start: number, parent: number): boolean {
  indentAndSign.lastIndex = start;
  const found = indentAndSign.exec(text);
  return !found || /^\r?\n$/.test(found[2] ?? '') || (found[1] ?? '').length > parent;
}

/** The start of the line below the one that `at` stands in. */
export function nextLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

const filled = /(?:[ \t]*\r?\n)*/y;

/** How wide an indent counts: a tab as two spaces. */
export function columnsOf(indent: string): number {
  return indent.replaceAll('\t', '  ').length;
}

/** A line that is not empty: where it starts, where its first sign stands, and in which column. A tab counts as two. */
export interface FilledLine {
  readonly start: number;
  readonly at: number;
  readonly column: number;
}

/** The first line from `start` on that is not empty. */
export function filledLine(text: string, start: number): FilledLine | undefined {
  filled.lastIndex = start;
  const line = start + (filled.exec(text)?.[0].length ?? 0);
  const indent = /^[ \t]*/.exec(text.slice(line, lineEnd(text, line)))?.[0] ?? '';
  const at = line + indent.length;
  return at < text.length ? { start: line, at, column: columnsOf(indent) } : undefined;
}
