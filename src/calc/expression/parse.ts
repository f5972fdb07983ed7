// Texts to expressions and limits, by operator precedence, within stated bounds. Names and dimensions are not looked at here.

import { negate } from '../rational.js';
import { asDifference, isUnitWord } from '../unit.js';
import type { Expr, LimitsExpr, NumberExpr, Parsed } from './ast.js';
import { FaultError, fail } from './fault.js';
import { findFunction, isKeyword } from './functions.js';
import { parseLimitsAt, parseRangeTail } from './parse-limits.js';
import { bounds, failRest, parseSum } from './precedence.js';
import type { Cursor } from './scan.js';
import { replaced, scanNumber, skipSpaces, wordAt } from './scan.js';
import { findSilentSlip, findSlip } from './slips.js';

export interface ParseOptions {
  /** Allows `±` and `to` in parentheses and a unit after a parenthesis. */
  readonly calc?: boolean;
  /** Which names exist: `lower-snake` is then understood as the one name that it is. */
  readonly isName?: (path: string) => boolean;
}

/**
 * Reads an expression: `rows * row_spacing`, `max(abs(error))`, `17 ft 5 in - 2 in`. `^` binds from the right and before
 * a sign in front: `2^3^2` is 512, `-2^2` is -4.
 */
export function parseExpression(text: string, options: ParseOptions = {}): Parsed<Expr> {
  return parseWhole(text, options, { read: parseSum, limits: false });
}

/** Reads limits: `3.6 to 4.2 V`, `0.9 ± 0.2 V`, `0.9 +0.3/-0.1 V`, `at least 2.5 V`, a number, a name or an expression. */
export function parseLimits(text: string, options: ParseOptions = {}): Parsed<LimitsExpr> {
  return parseWhole(text, options, { read: parseLimitsAt, limits: true });
}

/** Reads what an adjuster moves: `0.45 V for 10 deg` (a quotient), `0.045 V/deg`. Temperatures are differences here. */
export function parseEffect(text: string, options: ParseOptions = {}): Parsed<Expr> {
  return parseWhole(text, options, {
    limits: false,
    read: (c) => {
      const left = differ(parseSum(c));
      const at = skipSpaces(c.text, c.at);
      const word = wordAt(c, at);
      if (word !== 'for') return /[\p{L}\d]/u.test(c.text[at] ?? '') ? failEffect(c, at, word) : left;
      c.at = at + 3;
      const right = differ(parseSum(c));
      return { kind: 'binary', op: '/', left, right, start: left.start, end: right.end };
    },
  });
}

/** Gives up on an effect whose two sides are joined by something else than `for`, or by nothing. */
function failEffect(c: Cursor, at: number, word: string): never {
  const end = at + (word.length || (/^[\d.]+/.exec(c.text.slice(at))?.[0].length ?? 1));
  const rewrites =
    word === 'per' ? [replaced(c.text, at, end, 'for')] : word === '' ? [replaced(c.text, at, at, 'for ')] : [];
  return fail({
    start: at,
    end,
    message: `Unexpected \`${c.text.slice(at, end)}\`, expected \`for\` between the two quantities`,
    help: 'Write how much for how much, as in `0.45 V for 10 deg`, or a rate, as in `0.045 V/deg`.',
    rewrites,
  });
}

function differ(expr: Expr): Expr {
  return expr.kind === 'number' && expr.unit ? { ...expr, unit: asDifference(expr.unit) } : expr;
}

/** Reads one number with its unit: `0.5 deg`, `-12 V`, `17 ft 5 in`, `15 min`; anything else is a fault. */
export function parseQuantity(text: string): Parsed<NumberExpr> {
  return parseWhole(
    text,
    {},
    {
      limits: false,
      read: (c) => {
        const start = skipSpaces(c.text, 0);
        const below = c.text[start] === '-';
        c.at = skipSpaces(c.text, below ? start + 1 : start);
        const number = scanNumber(c);
        if (!number)
          return fail({
            start,
            end: c.text.length,
            message: `\`${text.trim()}\` is no number`,
            help: 'Write a number and its unit.',
          });
        return below ? { ...number, start, value: negate(number.value) } : number;
      },
    },
  );
}

/** Why a word cannot be a name, as half a sentence; undefined where it can. */
export function whyNoName(word: string): string | undefined {
  if (!/^[a-z][a-z0-9]*(?:[_-][a-z0-9]+)*$/.test(word))
    return 'names are small letters, digits and `_`, beginning with a letter';
  if (isUnitWord(word)) return `\`${word}\` is a unit`;
  if (findFunction(word)) return `\`${word}\` is a function`;
  return isKeyword(word) ? `\`${word}\` is a word of the format` : undefined;
}

interface Reader<T> {
  readonly read: (c: Cursor) => T;
  readonly limits: boolean;
}

function parseWhole<T>(text: string, options: ParseOptions, reader: Reader<T>): Parsed<T> {
  const first = readOnce(text, options, reader);
  if (first.ok || !first.fault.rewrites) return first;
  // only a rewrite that reads well itself is offered; one more slip in it is mended likewise
  const { rewrites, ...fault } = first.fault;
  const good = rewrites.flatMap((rewrite) => mend(rewrite, options, reader));
  return { ok: false, fault: good.length > 0 ? { ...fault, rewrites: [...new Set(good)] } : fault };
}

function mend<T>(text: string, options: ParseOptions, reader: Reader<T>): readonly string[] {
  let current = text;
  for (let round = 0; round < 4; round += 1) {
    const result = readOnce(current, options, reader);
    if (result.ok) return [current];
    const [next, ...others] = result.fault.rewrites ?? [];
    if (next === undefined || others.length > 0) return [];
    current = next;
  }
  return [];
}

function readOnce<T>(text: string, options: ParseOptions, reader: Reader<T>): Parsed<T> {
  try {
    if (text.length > bounds.characters) {
      return fail({
        start: bounds.characters,
        end: text.length,
        message: `The text has ${text.length} characters; at most ${bounds.characters} are read`,
        help: 'Split it into several values.',
      });
    }
    const slip = findSilentSlip(text, reader.limits);
    if (slip) fail(slip);
    const calc = options.calc ?? false;
    const c: Cursor = {
      text,
      at: 0,
      calc,
      isName: options.isName,
      limits: reader.limits,
      readTail: calc ? (inner, first) => parseRangeTail(inner, first, true) : undefined,
      depth: 0,
      nodes: 0,
    };
    const value = reader.read(c);
    const end = skipSpaces(text, c.at);
    if (end < text.length) failRest(c, end);
    return { ok: true, value };
  } catch (error) {
    if (!(error instanceof FaultError)) throw error;
    const known = text.length <= bounds.characters ? findSlip(text, reader.limits) : undefined;
    return { ok: false, fault: known ?? error.fault };
  }
}
