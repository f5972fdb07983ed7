// Operators, parentheses, calls and names, by precedence and within stated bounds: the heart of the parser.

import { negate } from '../rational.js';
import { findUnit, isUnitWord, nearestUnits, scanUnit } from '../unit.js';
import type { Expr, Operator } from './ast.js';
import { fail } from './fault.js';
import { findFunction, functionNames, isKeyword } from './functions.js';
import type { Cursor } from './scan.js';
import { isTwoSidedAhead, replaced, scanNumber, skipSpaces, wordAt } from './scan.js';

/** The bounds within which a text is read: characters, parentheses and powers within each other, parts. */
export const bounds = { characters: 512, depth: 32, nodes: 256 } as const;

/** Gives up on what stands where an expression should end. */
export function failRest(c: Cursor, at: number): never {
  const word = wordAt(c, at);
  const end = at + (word.length || (/^\d+(?:\.\d+)?/.exec(c.text.slice(at))?.[0].length ?? 1));
  const found = `\`${c.text.slice(at, end)}\``;
  if (c.text[at] === ')')
    fail({
      start: at,
      end,
      message: 'A parenthesis is closed that was never opened',
      help: 'Remove it, or open one before.',
    });
  if (c.text[at] === '±' || /^\+\s*\/\s*-/.test(c.text.slice(at)) || word === 'to') {
    fail({ start: at, end, message: `${found} stands only in limits`, help: 'An expression gives one value.' });
  }
  if (word === 'for') fail({ start: at, end, message: '`for` stands only in what an adjuster moves' });
  if (/[<>=!]/.test(c.text[at] ?? ''))
    fail({
      start: at,
      end,
      message: `${found} is no operator`,
      help: 'Expressions compare nothing; write limits instead.',
    });
  if (/[²³]/.test(c.text[at] ?? '')) {
    const rewrites = [replaced(c.text, at, end, c.text[at] === '²' ? '^2' : '^3')];
    fail({ start: at, end, message: `Unexpected ${found}`, help: 'Write `^` for a power.', rewrites });
  }
  if (word === 'x' && !c.isName?.(word)) {
    const rewrites = [replaced(c.text, at, end, '*')];
    fail({ start: at, end, message: 'Unexpected `x`, expected `*`', help: 'Write `*` to multiply.', rewrites });
  }
  if (word === 'of' && !c.isName?.(word)) {
    const rewrites = [replaced(c.text, at, end, '*')];
    fail({
      start: at,
      end,
      message: 'Unexpected `of`, expected `*`',
      help: 'Write `*` for a share of something.',
      rewrites,
    });
  }
  if (/[\p{L}\d(]/u.test(c.text[at] ?? '')) {
    const thousands = /\d$/.test(c.text.slice(0, c.at)) && /^\d{3}(?!\d)/.test(c.text.slice(at));
    const rewrites = thousands
      ? [replaced(c.text, c.at, at, '')]
      : c.isName?.(word)
        ? [replaced(c.text, at, at, '* ')]
        : [];
    const units = rewrites.length === 0 && findUnit(word) !== undefined && /\p{L}$/u.test(c.text.slice(0, c.at));
    fail({
      start: at,
      end,
      message: `Unexpected ${found}: an operator is missing before it`,
      help: units
        ? 'Join the parts of a unit with `*` or `/`, without spaces, as in `ft*lbf`.'
        : 'Write `+`, `-`, `*`, `/` or `^` between two values.',
      rewrites: units ? [replaced(c.text, c.at, at, '*')] : rewrites,
    });
  }
  fail({
    start: at,
    end,
    message: `Unexpected ${found}`,
    help: 'Known are `+ - * / ^`, parentheses, numbers with units, names and functions.',
  });
}

/** Counts one part of the expression, and gives up where there are too many. */
export function count<T extends Expr>(c: Cursor, node: T): T {
  c.nodes += 1;
  if (c.nodes > bounds.nodes) {
    fail({
      start: node.start,
      end: node.end,
      message: `The expression has more than ${bounds.nodes} parts`,
      help: 'Split it into several values.',
    });
  }
  return node;
}

function deeper<T>(c: Cursor, read: () => T): T {
  c.depth += 1;
  if (c.depth > bounds.depth) {
    fail({
      start: c.at,
      end: c.at + 1,
      message: `More than ${bounds.depth} parentheses, signs or powers stand within each other`,
      help: 'Split the expression into several values.',
    });
  }
  const result = read();
  c.depth -= 1;
  return result;
}

const binding: ReadonlyMap<string, number> = new Map([
  ['+', 1],
  ['-', 1],
  ['*', 2],
  ['/', 2],
  ['^', 4],
]);
const signBinding = 3;

/** Reads as much as is one expression. */
export function parseSum(c: Cursor, least = 0): Expr {
  let left = parsePrefix(c);
  for (;;) {
    const at = skipSpaces(c.text, c.at);
    const op = c.text[at] ?? '';
    const power = binding.get(op);
    if (power === undefined || power <= least || isToleranceAhead(c, at)) return left;
    refuseFractionPower(c, left, op);
    const tight = op === '-' && at === c.at && skipSpaces(c.text, at + 1) === at + 1;
    c.at = at + 1;
    // from the right for `^`: what follows may bind as strongly
    const right = op === '^' ? deeper(c, () => parseSum(c, power - 1)) : parseSum(c, power);
    const names = tight && left.kind === 'name' && right.kind === 'name';
    const node = { kind: 'binary', op: op as Operator, left, right, start: left.start, end: right.end } as const;
    left = count(c, names ? { ...node, tight: true } : node);
  }
}

// `0.9 +0.3/-0.1 V` and `+/-` are tolerances, no sums
function isToleranceAhead(c: Cursor, at: number): boolean {
  return c.text[at] === '+' && (/^\+\s*\/\s*-/.test(c.text.slice(at, at + 8)) || isTwoSidedAhead(c.text, at));
}

// `2^1/2`: as one number the fraction belongs to the power, by custom it does not
function refuseFractionPower(c: Cursor, left: Expr, op: string): void {
  if (left.kind !== 'number' || left.unit) return;
  const written = c.text.slice(left.start, left.end);
  const before = operatorBefore(c.text, left.start);
  if (!/^\d+\/\d+$/.test(written) || (op !== '^' && before !== '^' && before !== '/')) return;
  failFraction(c, left, written);
}

/** The sign before a number, its own sign left out: `2^-1/2` is a power too. */
function operatorBefore(text: string, at: number): string {
  return (
    text
      .slice(0, at)
      .replace(/[\s+-]+$/u, '')
      .at(-1) ?? ''
  );
}

function failFraction(c: Cursor, at: Expr, written: string): never {
  const readings = [`(${written})`, written.replace('/', ' / ')].map((text) =>
    replaced(c.text, at.start, at.end, text),
  );
  return fail({
    start: at.start,
    end: at.end,
    message: `\`${written}\` may be one number or a division here`,
    help: 'Put the fraction in parentheses, or spaces around the slash.',
    rewrites: readings,
  });
}

function parsePrefix(c: Cursor): Expr {
  const start = skipSpaces(c.text, c.at);
  const sign = c.text[start];
  c.at = start;
  if (sign !== '-' && sign !== '+') return parsePostfix(c);
  c.at = start + 1;
  const of = deeper(c, () => parseSum(c, signBinding));
  if (sign === '+') return of;
  // the sign is the number's own: `-10 degC` is a point below zero, not a point turned round
  if (of.kind === 'number' && /[\d.]/.test(c.text[of.start] ?? '')) return { ...of, start, value: negate(of.value) };
  return count(c, { kind: 'negate', of, start, end: of.end });
}

function parsePostfix(c: Cursor): Expr {
  const primary = parsePrimary(c);
  if (primary.kind === 'number') {
    const before = operatorBefore(c.text, primary.start);
    const written = c.text.slice(primary.start, primary.end);
    if ((before === '^' || before === '/') && /^\d+\/\d+/.test(written)) failFraction(c, primary, written);
    return primary;
  }
  if (c.text[c.at - 1] !== ')') return primary;
  const at = skipSpaces(c.text, c.at);
  const found = scanUnit(c.text, at);
  if (!found || primary.kind === 'call') return primary;
  if (!c.calc) {
    fail({
      start: at,
      end: found.end,
      message: `The unit \`${c.text.slice(at, found.end)}\` stands behind a parenthesis`,
      help: 'A unit stands behind its number; multiply by `1` of it instead.',
      rewrites: [replaced(c.text, c.at, at, ' * 1 ')],
    });
  }
  c.at = found.end;
  return count(c, { kind: 'in-unit', of: primary, unit: found.unit, start: primary.start, end: found.end });
}

function parsePrimary(c: Cursor): Expr {
  const start = c.at;
  const number = scanNumber(c);
  if (number) return count(c, number);
  if (c.text[start] === '(') return parseParentheses(c);
  const word = /^[\p{L}_][\p{L}\p{Nd}_]*/u.exec(c.text.slice(start))?.[0] ?? '';
  if (word === '') return failPrimary(c, start);
  if (findFunction(word) || c.text[skipSpaces(c.text, start + word.length)] === '(') return parseCall(c, word);
  if (word === 'pi') {
    c.at = start + 2;
    return count(c, { kind: 'pi', start, end: c.at });
  }
  return parseName(c, word);
}

function failPrimary(c: Cursor, at: number): never {
  const found = c.text[at];
  if (found === undefined) {
    const begin = c.text.trimEnd().length;
    const message = begin === 0 ? 'The text is empty' : 'The expression ends where a value is expected';
    return fail({ start: begin, end: begin, message, help: 'Write a number with its unit, a name or a function.' });
  }
  const message = `Unexpected \`${found}\`, expected a number, a name or a function`;
  return fail({ start: at, end: at + 1, message, help: helpFor(found, c.text.slice(at + 1).trim()) });
}

/** What may have been meant by a sign that begins no value, and by what stands behind it. */
function helpFor(sign: string, rest: string): string {
  if (sign === '±')
    return `Write what it lies around first, as in \`0 ± ${rest}\`, or both ends: \`-${/^[\d.,]*/.exec(rest)?.[0]} to ${rest}\`.`;
  if (sign === '[' || sign === '{')
    return 'Write the two ends with `to` between them, and the unit once behind: `3.6 to 4.2 V`.';
  return 'Write a number with its unit, a name or a function there, or take the sign out.';
}

function parseParentheses(c: Cursor): Expr {
  const start = c.at;
  c.at = start + 1;
  const inner = deeper(c, () => {
    const first = parseSum(c);
    return c.readTail?.(c, first) ?? first;
  });
  closeParenthesis(c, start);
  return { ...inner, start, end: c.at };
}

function closeParenthesis(c: Cursor, opened: number): void {
  const at = skipSpaces(c.text, c.at);
  c.at = at + 1;
  if (c.text[at] === ')') return;
  if (at >= c.text.length)
    fail({
      start: opened,
      end: opened + 1,
      message: 'The parenthesis is not closed',
      help: 'Write `)` where it ends.',
    });
  failRest(c, at);
}

function parseCall(c: Cursor, name: string): Expr {
  const start = c.at;
  const shape = findFunction(name);
  const open = skipSpaces(c.text, start + name.length);
  if (!shape) {
    return fail({
      start,
      end: start + name.length,
      message: `\`${name}\` is no function`,
      help: `Known are ${functionNames()
        .map((known) => `\`${known}\``)
        .join(', ')}.`,
    });
  }
  if (c.text[open] !== '(') {
    fail({
      start,
      end: start + name.length,
      message: `The function \`${name}\` has no arguments`,
      help: `Write them in parentheses, as in \`${name}(x)\`; a value cannot be called \`${name}\`.`,
    });
  }
  c.at = open + 1;
  const args: Expr[] = [];
  if (c.text[skipSpaces(c.text, c.at)] !== ')') {
    for (;;) {
      args.push(deeper(c, () => parseSum(c)));
      const comma = skipSpaces(c.text, c.at);
      if (c.text[comma] !== ',') break;
      c.at = comma + 1;
    }
  }
  closeParenthesis(c, open);
  const { least, most } = shape;
  if (args.length < least || args.length > most) {
    const wanted = least === most ? `${least}` : `${least} to ${most}`;
    fail({
      start,
      end: c.at,
      message: `\`${name}\` has ${args.length} ${args.length === 1 ? 'argument' : 'arguments'}, expected ${wanted}`,
    });
  }
  return count(c, { kind: 'call', name, args, start, end: c.at });
}

const pathAt = /[\p{L}_][\p{L}\p{Nd}_]*(?:\.[\p{L}_][\p{L}\p{Nd}_]*)*/uy;
const hyphenedAt = /[a-z][a-z0-9_]*(?:[.-][a-z][a-z0-9_]*|-[0-9]+)*/y;

function parseName(c: Cursor, word: string): Expr {
  const start = c.at;
  const known = findHyphenedName(c, start);
  if (known) {
    c.at = known.end;
    return count(c, { kind: 'name', path: known.path, start, end: known.end });
  }
  pathAt.lastIndex = start;
  const path = pathAt.exec(c.text)?.[0] ?? word;
  const end = start + path.length;
  if (!path.includes('.') && isUnitWord(word)) {
    return fail({
      start,
      end,
      message: `\`${word}\` is a unit and has no number in front`,
      help: `Write the number, as in \`1 ${word}\`; a value cannot be called \`${word}\`.`,
    });
  }
  if (isKeyword(word))
    return fail({ start, end, message: `Unexpected \`${word}\`, expected a number, a name or a function` });
  const wrong = path.split('.').find((part) => !/^[a-z][a-z0-9_]*$/.test(part));
  if (wrong !== undefined) {
    const [unit] = nearestUnits(word);
    const plain = path.replaceAll(/(?<=[a-z0-9])(?=[A-Z])/g, '_').toLowerCase();
    const rewrites = c.isName?.(plain) ? [replaced(c.text, start, end, plain)] : [];
    const help =
      unit && !path.includes('.')
        ? `Names are small letters, digits and \`_\`; the unit is \`${unit}\`.`
        : 'Names are small letters, digits and `_`, beginning with a letter.';
    return fail({ start, end, message: `\`${wrong}\` is no name`, help, rewrites });
  }
  c.at = end;
  return count(c, { kind: 'name', path, start, end });
}

// the longest run with hyphens that is a name; the underscore stands for the hyphen in it
function findHyphenedName(c: Cursor, start: number): { path: string; end: number } | undefined {
  hyphenedAt.lastIndex = start;
  const run = hyphenedAt.exec(c.text)?.[0];
  if (!run?.includes('-') || !c.isName) return undefined;
  for (let text = run; text.includes('-'); text = text.slice(0, Math.max(text.lastIndexOf('-'), 0))) {
    for (const path of [text, text.replaceAll('-', '_')]) {
      if (c.isName(path)) return { path, end: start + text.length };
    }
  }
  return undefined;
}
