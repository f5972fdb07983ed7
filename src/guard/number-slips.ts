// Numbers in a text, and the ways in which fingers and eyes get them wrong: another digit, digits swapped, the point moved,
// the sign, the unit next door, the limits exchanged. Texts in, texts out.

import { confusedUnits } from './confused-units.js';
import type { SlipKind } from './slip.js';

/** A change to a part of a text: `start` to `end` becomes `after`. */
export interface TextSlip {
  readonly kind: SlipKind;
  readonly start: number;
  readonly end: number;
  readonly after: string;
}

// a number that is no part of a name, a version or a fraction; with the sign that belongs to it
const numberAt = /(?<![\p{L}\p{Nd}_.~-])(?:(?<=^|[\s(+*/^±])-)?\d+(?:\.\d+)?(?![\p{L}\p{Nd}_]*[._][\p{L}])/gu;

/** Every slip in the numbers, units and limits of a text, in the order of their places. */
export function numberSlips(text: string): readonly TextSlip[] {
  const slips: TextSlip[] = [];
  for (const found of text.matchAll(numberAt)) {
    const [written] = found;
    for (const { kind, after } of slipsOfNumber(written)) {
      if (kind === 'sign' && isTolerance(text, found.index)) continue;
      slips.push({ kind, start: found.index, end: found.index + written.length, after });
    }
  }
  return [...slips, ...unitSlips(text), ...exchangedLimits(text)];
}

/** Behind `±`, `+` or `/` a sign is no slip that keeps the text readable as a number. */
function isTolerance(text: string, at: number): boolean {
  return /(?:±|\+|\/|\^)\s*$/.test(text.slice(0, at));
}

interface Changed {
  readonly kind: SlipKind;
  readonly after: string;
}

function slipsOfNumber(written: string): readonly Changed[] {
  const sign = written.startsWith('-') ? '-' : '';
  const digits = written.slice(sign.length);
  const all = [
    ...neighbours(digits).map((after) => ({ kind: 'neighbouring-digit' as const, after: sign + after })),
    ...swaps(digits).map((after) => ({ kind: 'swapped-digits' as const, after: sign + after })),
    ...pointMoves(digits).map((after) => ({ kind: 'moved-point' as const, after: sign + after })),
    { kind: 'sign' as const, after: sign ? digits : `-${digits}` },
  ];
  return all.filter(({ after }) => Number(after) !== Number(written));
}

// on a keyboard's row of digits 0 stands beside 9
const beside: Readonly<Record<string, string>> = {
  '0': '9',
  '1': '2',
  '2': '13',
  '3': '24',
  '4': '35',
  '5': '46',
  '6': '57',
  '7': '68',
  '8': '79',
  '9': '80',
};

function neighbours(digits: string): readonly string[] {
  return [...digits].flatMap((digit, i) =>
    [...(beside[digit] ?? '')].map((other) => digits.slice(0, i) + other + digits.slice(i + 1)),
  );
}

function swaps(digits: string): readonly string[] {
  const places = [...digits].flatMap((digit, i) => (digit === '.' ? [] : [i]));
  return places.slice(1).map((right, i) => {
    const left = places[i] ?? 0;
    const letters = [...digits];
    [letters[left], letters[right]] = [digits[right] ?? '', digits[left] ?? ''];
    return letters.join('');
  });
}

/** The point one place to the right and to the left: `3.6` to `36` and `0.36`, `20` to `200` and `2.0`. */
function pointMoves(digits: string): readonly string[] {
  const [whole = '', part = ''] = digits.split('.');
  const right = part.length > 1 ? `${whole}${part[0]}.${part.slice(1)}` : `${whole}${part === '' ? '0' : part}`;
  const left = `${whole.slice(0, -1) || '0'}.${whole.slice(-1)}${part}`;
  return [right.replace(/^0+(?=\d)/, ''), left];
}

const unitWord = /(?<=\d\s?|\/)(?:sq ft|sq in|[\p{L}%°]+)(?![\p{L}\p{Nd}_.(])/gu;

function unitSlips(text: string): readonly TextSlip[] {
  const slips: TextSlip[] = [];
  for (const { 0: written, index } of text.matchAll(unitWord)) {
    for (const after of confusedUnits(written)) {
      const start = after === '' && text[index - 1] === ' ' ? index - 1 : index;
      slips.push({ kind: 'unit-next-door', start, end: index + written.length, after });
    }
  }
  return slips;
}

function exchangedLimits(text: string): readonly TextSlip[] {
  const kind = 'exchanged-limits';
  const whole = { kind, start: 0, end: text.length } as const;
  const range = /^(\s*)(\S.*?)(\s+to\s+)(\S.*?)(\s*)$/u.exec(text);
  if (range) {
    const [, before = '', low = '', to = '', high = '', behind = ''] = range;
    const unit = /\d(\s*[\p{L}%°/²³ ]+)$/u.exec(high)?.[1] ?? '';
    const bare = unit !== '' && !/[\p{L}%°]\s*$/u.test(low) ? high.slice(0, -unit.length) : undefined;
    const after = bare === undefined ? `${high}${to}${low}` : `${bare}${to}${low}${unit}`;
    return [{ ...whole, after: `${before}${after}${behind}` }];
  }
  const sides = /\+\s*([\d.]+)(\s*\/\s*)-\s*([\d.]+)/u.exec(text);
  if (sides && sides[1] !== sides[3]) {
    const after = text.replace(sides[0], `+${sides[3]}${sides[2]}-${sides[1]}`);
    return [{ ...whole, after }];
  }
  if (/^\s*at least /u.test(text)) return [{ ...whole, after: text.replace('at least', 'at most') }];
  if (/^\s*at most /u.test(text)) return [{ ...whole, after: text.replace('at most', 'at least') }];
  return [];
}
