// The picture of a calculator, drawn from the numbers that stand in it. The page and the phone draw it alike.

import type { Calculated } from '../../calc/calculators/calculate.js';
import { add, type Enclosure, multiply, rational, toNumber } from '../../calc/rational.js';
import type { Html } from '../html.js';
import { type Bar, drawBars } from './bars.js';
import type { PictureWords } from './frame.js';
import { drawHeader } from './header.js';
import { drawTravel, type Stop } from './travel.js';
import { drawTurn } from './turn.js';

/** What is drawn: which calculator, its numbers, and what its fields and outcomes are called. */
export interface Pictured {
  readonly id: string;
  readonly title: string;
  readonly calculated: Calculated;
  /** By field: what was typed, with its unit. */
  readonly typed: ReadonlyMap<string, string>;
  readonly labels: ReadonlyMap<string, string>;
}

/** The picture; undefined while a field cannot be read or nothing could be drawn to scale. */
export function drawCalculator(of: Pictured): Html | undefined {
  if (of.calculated.faults.size > 0) return undefined;
  const outcomes = of.calculated.results.flatMap((result) => ('values' in result ? [result] : []));
  if (outcomes.length < of.calculated.results.length) return undefined;
  const facts = [
    ...[...of.typed].map(([name, text]) => `${labelOf(of, name)}: ${text}`),
    ...outcomes.map(({ name, values }) => `${labelOf(of, name)}: ${values[0]?.value ?? ''}`),
  ];
  const words = { title: of.title, description: `${facts.join('; ')}.` };
  return drawers[of.id]?.(of, words);
}

const drawers: Readonly<Record<string, (of: Pictured, words: PictureWords) => Html | undefined>> = {
  'width-area': (of, words) =>
    drawHeader({ rows: number(of, 'rows'), spacing: typed(of, 'spacing'), width: outcome(of, 'width') }, words),
  speed: (of, words) => {
    const speed = number(of, 'distance') / number(of, 'time');
    return bars(words, [
      fieldBar(of, 'wanted'),
      { label: labelOf(of, 'speed'), text: outcome(of, 'speed'), value: speed },
    ]);
  },
  'width-error': (of, words) => bars(words, [fieldBar(of, 'cut'), fieldBar(of, 'logged')]),
  shrink: (of, words) => {
    const wet = number(of, 'mass');
    const dry = (wet * (1 - number(of, 'moisture'))) / (1 - number(of, 'base'));
    return bars(words, [
      { ...fieldBar(of, 'mass'), rest: Math.max(wet - dry, 0) },
      { label: labelOf(of, 'dry_mass'), text: outcome(of, 'dry_mass'), value: dry },
    ]);
  },
  loss: (of, words) => bars(words, [fieldBar(of, 'cut'), fieldBar(of, 'spread')]),
  'sensor-turn': (of, words) => {
    const [before, after] = [number(of, 'reading'), number(of, 'aim')];
    const texts = { beforeText: typed(of, 'reading'), afterText: typed(of, 'aim') };
    return drawTurn({ before, after, limits: { low: after, high: after }, ...texts }, words);
  },
  voltage: drawVoltage,
  following: (of, words) =>
    bars(words, [
      {
        label: labelOf(of, 'by_rate'),
        text: outcome(of, 'by_rate'),
        value: number(of, 'rate') / number(of, 'steepness'),
      },
      {
        label: labelOf(of, 'by_delay'),
        text: outcome(of, 'by_delay'),
        value: number(of, 'allowed') / (number(of, 'delay') * number(of, 'steepness')),
      },
    ]),
};

function drawVoltage(of: Pictured, words: PictureWords): Html | undefined {
  const [supply, low, high, reading] = ['supply', 'low', 'high', 'reading'].map((name) => of.calculated.read.get(name));
  if (!supply || !low || !high || !reading) return undefined;
  const window = (share: Enclosure, name: string): Stop => ({
    from: end(share, 'low') * end(supply, 'low'),
    to: end(share, 'high') * end(supply, 'high'),
    text: outcome(of, name),
    label: labelOf(of, name),
  });
  const at: Stop = {
    from: end(reading, 'low'),
    to: end(reading, 'high'),
    text: typed(of, 'reading'),
    label: labelOf(of, 'reading'),
  };
  const most = end(supply, 'high');
  if (!(most > 0)) return undefined;
  const band = { from: 0, to: most, low: '0 V', high: `${Math.round(most * 100) / 100} V` };
  return drawTravel({ band, stops: [window(low, 'at_low'), window(high, 'at_high'), at] }, words);
}

// a bar of nothing, or to the left, shows nothing
function bars(words: PictureWords, all: readonly Bar[]): Html | undefined {
  return all.every(({ value }) => Number.isFinite(value) && value > 0) ? drawBars(all, words) : undefined;
}

function fieldBar(of: Pictured, name: string): Bar {
  return { label: labelOf(of, name), text: typed(of, name), value: number(of, name) };
}

function labelOf({ labels }: Pictured, name: string): string {
  return labels.get(name) ?? name;
}

function typed(of: Pictured, name: string): string {
  return of.typed.get(name) ?? '';
}

function outcome({ calculated }: Pictured, name: string): string {
  const found = calculated.results.find((result) => result.name === name);
  return found && 'values' in found ? (found.values[0]?.value ?? '') : '';
}

function end(range: Enclosure, side: 'low' | 'high'): number {
  return toNumber(range[side]);
}

/** The middle of a field, in base units. */
function number({ calculated }: Pictured, name: string): number {
  const range = calculated.read.get(name);
  return range ? toNumber(multiply(add(range.low, range.high), rational(1, 2))) : Number.NaN;
}
