// What stands around two ends: `to`, `±`, `+0.3/-0.1`, `at least`, `at most`; and the unit that a bare number takes over.

import { noUnit } from '../unit.js';
import type { Expr, LimitsExpr, NumberExpr } from './ast.js';
import { fail } from './fault.js';
import { parseSum } from './precedence.js';
import type { Cursor } from './scan.js';
import { isTwoSidedAhead, replaced, scanNumber, skipSpaces, wordAt } from './scan.js';

type Range = Extract<LimitsExpr, { kind: 'range' }>;
type Around = Extract<LimitsExpr, { kind: 'around' }>;

/** Reads limits from where the cursor stands. */
export function parseLimitsAt(c: Cursor): LimitsExpr {
  const start = skipSpaces(c.text, 0);
  const sided = /^at\s+(least|most)(?![\p{L}\p{Nd}_])/u.exec(c.text.slice(start));
  if (sided) {
    c.at = start + sided[0].length;
    const end = parseSum(c);
    return sided[1] === 'least'
      ? { kind: 'at-least', low: end, start, end: end.end }
      : { kind: 'at-most', high: end, start, end: end.end };
  }
  c.at = start;
  const first = parseSum(c);
  const whole = parseRangeTail(c, first, false);
  if (!whole) return { kind: 'single', of: first, start: first.start, end: first.end };
  if (whole.kind === 'range') return whole;
  const { middle, ...rest } = whole;
  return { ...rest, nominal: middle };
}

type Tail = Range | (Omit<Around, 'nominal'> & { readonly middle: Expr });

/**
 * Reads what follows the first end or the middle: `to 4.2 V`, `± 0.2 V`, `+0.3/-0.1 V`. Undefined where neither follows.
 * `inside` parentheses a unit may follow them, and a bare middle before `%` then keeps its own.
 */
export function parseRangeTail(c: Cursor, first: Expr, inside: boolean): Tail | undefined {
  const at = skipSpaces(c.text, c.at);
  if (wordAt(c, at) === 'to') {
    c.at = at + 2;
    const high = parseSum(c);
    const low = takeUnit(c, first, high);
    return { kind: 'range', low, high, start: low.start, end: high.end };
  }
  const sign = /^(?:±|\+\s*\/\s*-)/.exec(c.text.slice(at, at + 8))?.[0];
  if (sign !== undefined) {
    c.at = at + sign.length;
    const tolerance = parseSum(c);
    return around(c, { middle: first, minus: tolerance, plus: tolerance, inside });
  }
  if (c.text[at] !== '+' || !isTwoSidedAhead(c.text, at)) return undefined;
  c.at = skipSpaces(c.text, at + 1);
  const plus = readTolerance(c);
  c.at = skipSpaces(c.text, skipSpaces(c.text, c.at) + 1) + 1;
  c.at = skipSpaces(c.text, c.at);
  const minus = readTolerance(c);
  return around(c, { middle: first, minus, plus: takeUnit(c, plus, minus), inside });
}

function readTolerance(c: Cursor): NumberExpr {
  return (
    scanNumber(c) ??
    fail({ start: c.at, end: c.at + 1, message: 'A tolerance is a number here', help: 'Write it as in `+0.3/-0.1 V`.' })
  );
}

function around(c: Cursor, parts: { middle: Expr; minus: Expr; plus: Expr; inside: boolean }): Tail {
  const { minus, plus, inside } = parts;
  const bareBefore = inside && unitSymbol(plus) === '%' && bareNumber(parts.middle);
  const middle = bareBefore ? parts.middle : takeUnit(c, parts.middle, minus);
  const percent = unitSymbol(plus) === '%' && unitSymbol(minus) === '%' && unitSymbol(middle) !== '%';
  return { kind: 'around', middle, minus, plus, percent, start: middle.start, end: Math.max(minus.end, plus.end) };
}

function unitSymbol(expr: Expr): string | undefined {
  return expr.kind === 'number' ? (expr.unit ?? noUnit).symbol : undefined;
}

function bareNumber(expr: Expr): boolean {
  return unitSymbol(expr) === '';
}

// a bare number takes the unit of the last one; a bare last number behind a unit is a fault
function takeUnit(c: Cursor, first: Expr, last: Expr): Expr {
  if (bareNumber(last) && (unitSymbol(first) ?? '') !== '') {
    const symbol = c.text.slice(first.start, first.end).replace(/^.*\d\s*/s, '');
    fail({
      start: last.start,
      end: last.end,
      message: `\`${c.text.slice(last.start, last.end)}\` has no unit, though the number before has one`,
      help: 'Write the unit behind the last number.',
      rewrites: [replaced(c.text, last.end, last.end, ` ${symbol}`)],
    });
  }
  return last.kind === 'number' && last.unit && bareNumber(first) ? ({ ...first, unit: last.unit } as Expr) : first;
}
