// Pictures that are drawn from what was read: a turn's reading before and after, and rows of a table with the line that fits.

import { fromBase } from '../../../src/calc/conversion.js';
import { sameDimension } from '../../../src/calc/dimension.js';
import { type Rational, toNumber } from '../../../src/calc/rational.js';
import { fitThroughOrigin } from '../../../src/calc/statistics/line.js';
import { readTyped } from '../../../src/calc/typed-reading.js';
import type { Unit } from '../../../src/calc/unit-type.js';
import type { Html } from '../../../src/emit/html.js';
import { drawLoadPlot } from '../../../src/emit/pictures/load-plot.js';
import { drawTurn } from '../../../src/emit/pictures/turn.js';
import type { WalkValue, WalkWorksheet } from '../../../src/emit/walk/walk-shape.js';
import { valueWords } from './number-words.js';
import { say } from './words.js';

/** The reading of a value before a turn and after it, against the limits in use. */
export function turnPicture(value: WalkValue, before: Rational, after: Rational): Element | undefined {
  const { low, high } = value.acceptance ?? {};
  const number = (base: Rational): number => numberIn(base, value.unit);
  const [beforeText, afterText] = [valueWords(value, before), valueWords(value, after)];
  return shown(
    drawTurn(
      {
        before: number(before),
        after: number(after),
        limits: { ...(low && { low: number(low) }), ...(high && { high: number(high) }) },
        beforeText,
        afterText,
      },
      { title: value.label, description: say('turn-drawn', { before: beforeText, after: afterText }) },
    ),
  );
}

/**
 * The first two columns of a table that a person fills in with the same kind of number, one against the other, with the line
 * through the origin that fits them; undefined for fewer than three rows, and for tables of another kind.
 */
export function tablePicture(table: WalkWorksheet, rows: readonly (readonly string[])[]): Element | undefined {
  const { columns } = table.sheet;
  const written = columns.flatMap(({ id, unit, from }, i) => (unit && !from ? [{ id, unit, i }] : []));
  const [across, upward] = written;
  if (!across || !upward || !sameDimension(across.unit.dimension, upward.unit.dimension)) return undefined;
  const points = rows.flatMap((row) => {
    const [x, y] = [readTyped(row[across.i] ?? '', across.unit), readTyped(row[upward.i] ?? '', upward.unit)];
    return x && y ? [{ shown: numberIn(x.base, across.unit), scale: numberIn(y.base, across.unit) }] : [];
  });
  if (points.length < 3 || points.some(({ shown: x, scale }) => x <= 0 || scale <= 0)) return undefined;
  const line = fitThroughOrigin(
    points.map((point) => point.shown),
    points.map(({ scale }) => scale),
  );
  if (line.kind !== 'fitted') return undefined;
  const factor = line.slope.toFixed(4);
  return shown(
    drawLoadPlot(
      {
        points,
        unit: across.unit.symbol,
        slope: line.slope,
        height: 0,
        along: table.labels[across.id] ?? across.id,
        upward: table.labels[upward.id] ?? upward.id,
        residual: say('plot-residual'),
      },
      { title: table.label, describe: (axes) => say('plot-drawn', { count: points.length, factor, ...axes }) },
    ),
  );
}

function numberIn(base: Rational, unit: Unit): number {
  return toNumber(fromBase(base, unit)) / Math.PI ** unit.pi;
}

// our own code drew it, and escaped every text in it
function shown({ html }: Html): Element | undefined {
  return new DOMParser().parseFromString(html, 'text/html').querySelector('svg') ?? undefined;
}
