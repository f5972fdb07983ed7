// What the YAML parser still refuses, in words for a person who does not know YAML. One diagnostic a line at most, and
// none that only follows from another.

import type { ErrorCode, YAMLParseError } from 'yaml';
import { type Diagnostic, diagnose, type Fix } from '../diagnostic/diagnostic.js';
import type { Mended } from './mended.js';
import { lineEnd } from './trap-signs.js';

interface Words {
  readonly code: string;
  readonly message: string;
  readonly help: string;
}

/** Turns the parser's errors into diagnostics of the file `path`. */
export function faultsOf(path: string, mended: Mended, errors: readonly YAMLParseError[]): Diagnostic[] {
  const diagnostics: Diagnostic[] = [];
  let lastEnd = -1;
  for (const error of [...errors].sort((a, b) => a.pos[0] - b.pos[0])) {
    // Behind a place where the parser lost its way it complains of every word that follows.
    const isLost = error.message.includes('in YAML stream');
    if (error.pos[0] <= lastEnd || (isLost && diagnostics.length > 0)) continue;
    lastEnd = Math.max(lineEnd(mended.text, error.pos[0]), error.pos[1]);
    diagnostics.push(faultOf(path, mended, error));
    if (isLost) break;
  }
  return diagnostics;
}

function faultOf(path: string, mended: Mended, error: YAMLParseError): Diagnostic {
  const brace = braceWithoutDash(mended.text, error);
  const part = brace ?? partOf(mended.text, error);
  const written = mended.text.slice(part.start, part.end);
  const words = brace ? withoutDash : (strayWords(mended.text, error, part.start) ?? wordsOf(error, written));
  const start = mended.originOf(part.start);
  const at = { file: path, start, end: Math.max(start, mended.originOf(part.end)) };
  const fix = fixOf(error, mended, at);
  return diagnose({ ...words, severity: 'error', at, ...(fix ? { fixes: [fix] } : {}) });
}

/** The part that the parser names, but on one line and never empty where something stands there. */
function partOf(text: string, error: YAMLParseError): { start: number; end: number } {
  const first = Math.min(error.pos[0], text.length);
  const line = lineEnd(text, first);
  const blank = /^[ \t]+(?=\S)/.exec(text.slice(first, line))?.[0].length ?? 0;
  const start = first + blank;
  const end = Math.max(start, Math.min(error.pos[1], line));
  if (end > start || start >= line) return { start, end };
  return { start, end: start + (/^[^\s:]+/.exec(text.slice(start, line))?.[0].length ?? 1) };
}

/** A line of a list that begins with `{` where those above or below begin with a dash. */
function braceWithoutDash(text: string, error: YAMLParseError): { start: number; end: number } | undefined {
  if (!placeCodes.has(error.code)) return undefined;
  const own = text.lastIndexOf('\n', error.pos[0] - 1) + 1;
  const above = lineAbove(text, own);
  const isBrace = (line: number | undefined): line is number =>
    line !== undefined && /^[ \t]*\{/.test(text.slice(line, lineEnd(text, line)));
  const line = [own, above].find(isBrace);
  if (line === undefined) return undefined;
  const neighbours = [lineAbove(text, line), lineEnd(text, line) + 1];
  const isItem = (start: number | undefined): boolean =>
    start !== undefined && /^[ \t]*-[ \t]+\{/.test(text.slice(start, lineEnd(text, start)));
  const start = text.indexOf('{', line);
  return neighbours.some(isItem) ? { start, end: start + 1 } : undefined;
}

function lineAbove(text: string, line: number): number | undefined {
  return line === 0 ? undefined : text.lastIndexOf('\n', line - 2) + 1;
}

const withoutDash: Words = {
  code: 'wrong-indent',
  message: 'This line has no dash before its `{`, and the lines beside it are items of a list',
  help: 'Write `- {`, with as many spaces before the dash as the other items of the list have.',
};

/** A key in the column of dashes, or a dash in the column of keys: neither belongs to what stands above. */
function strayWords(text: string, error: YAMLParseError, start: number): Words | undefined {
  const line = text.lastIndexOf('\n', start - 1) + 1;
  const indent = text.slice(line, start);
  if (!placeCodes.has(error.code) || indent.trim() !== '') return undefined;
  const above = neighbourAbove(text, line, indent);
  if (dash.test(text.slice(start, start + 2))) {
    return error.code === 'BAD_INDENT' && above === undefined ? undefined : strayDash;
  }
  const key = /^[^\s:]+(?=:(?:\s|$))/.exec(text.slice(start, lineEnd(text, start)))?.[0];
  return key !== undefined && (above === 'dash' || error.message.startsWith('Sequence')) ? outsideItem(key) : undefined;
}

// what the parser calls a line that starts where nothing of its kind is open
const placeCodes: ReadonlySet<ErrorCode> = new Set<ErrorCode>([
  'BAD_INDENT',
  'BLOCK_AS_IMPLICIT_KEY',
  'MISSING_CHAR',
  'MULTILINE_IMPLICIT_KEY',
]);

const dash = /^-(?:\s|$)/;

/** What the nearest line above that starts in the same column starts with. */
function neighbourAbove(text: string, line: number, indent: string): 'dash' | 'key' | undefined {
  for (let end = line - 1; end > 0; ) {
    const start = text.lastIndexOf('\n', end - 1) + 1;
    const rest = text.startsWith(indent, start) ? text.slice(start + indent.length, end) : '';
    if (/^\S/.test(rest)) return dash.test(rest) ? 'dash' : 'key';
    end = start - 1;
  }
  return undefined;
}

const outsideItem = (key: string): Words => ({
  code: 'wrong-indent',
  message: `\`${key}\` belongs to no item of the list above: it has no dash before it, and does not start in the column of their keys`,
  help: 'Put as many spaces before it as the key above it has, or a dash and a space if it begins a new item.',
});

const strayDash: Words = {
  code: 'wrong-indent',
  message: 'A dash begins an item of a list here, and the key above it has no list',
  help: 'Give the line as many spaces as the other items of its list have, or take away what stands behind the key that the list belongs to.',
};

function wordsOf(error: YAMLParseError, written: string): Words {
  const shown = written.trim() === '' ? 'line' : `\`${written.trim()}\``;
  return words[error.code]?.(shown) ?? other(shown);
}

const other = (shown: string): Words => ({
  code: 'yaml-syntax',
  message: `${shown === 'line' ? 'What stands here' : shown} cannot be read: it fits neither as a key, a value nor an item of a list`,
  help: 'Write `key: value`, with the same number of spaces before all keys that belong together. Put a text that holds signs like `:`, `#`, `{` or quotes into quotes as a whole.',
});

const indent = (shown: string): Words => ({
  code: 'wrong-indent',
  message: `${shown === 'line' ? 'This line' : shown} does not start in the same column as the lines it belongs to`,
  help: 'Give all keys of one part the same number of spaces before them, and what belongs to a key two more.',
});

const words: Partial<Record<ErrorCode, (shown: string) => Words>> = {
  BAD_INDENT: indent,
  BAD_DQ_ESCAPE: () => ({
    code: 'unknown-escape',
    message: 'Unexpected `\\` in a text in double quotes, where it has a meaning of its own (`\\n` is a new line)',
    help: 'Use single quotes around the text, or write `\\\\` for one `\\`.',
  }),
  MISSING_CHAR: (shown) => ({
    code: 'missing-colon',
    message: `Unexpected ${shown}, expected a key with a colon and a space behind it, \`key: value\``,
    help: 'Put a colon and a value behind it, or, if it goes on with the line above, give it more spaces than that line’s key has.',
  }),
  MULTILINE_IMPLICIT_KEY: (shown) => ({
    code: 'missing-colon',
    message: `Unexpected ${shown}, expected a key with a colon and a space behind it, \`key: value\``,
    help: 'Put a colon and a space behind the key, or give the line more spaces if it goes on with the line above.',
  }),
  BLOCK_AS_IMPLICIT_KEY: indent,
  BLOCK_IN_FLOW: (shown) => ({
    code: 'yaml-syntax',
    message: `Unexpected ${shown} inside \`{ }\` or \`[ ]\`, where lines with keys or dashes of their own cannot stand`,
    help: 'Write this part without brackets, one key a line, or all of it inside the brackets with commas.',
  }),
  TAB_AS_INDENT: () => ({
    code: 'tab-indent',
    message: 'A tab stands here; an indent is made of spaces',
    help: 'Put two spaces in place of each tab, and set your editor to write spaces.',
  }),
  KEY_OVER_1024_CHARS: () => ({
    code: 'yaml-syntax',
    message: 'A key here is longer than 1024 characters',
    help: 'A text is no key: put the whole text in quotes.',
  }),
};

function fixOf(error: YAMLParseError, mended: Mended, at: Diagnostic['at']): Fix | undefined {
  if (error.code !== 'BAD_DQ_ESCAPE' || mended.text[error.pos[0]] !== '\\') return undefined;
  const place = { ...at, end: at.start };
  return { title: 'Write it as a plain backslash', edits: [{ at: place, text: '\\' }], safe: false };
}
