// Weighed loads against what the display showed, with the line that fits them and what each load is off by. Pure, so that
// a page and a phone draw the same.

import { type Html, html } from '../html.js';
import { framePicture, place } from './frame.js';
import { roundTicks, type Tick } from './ticks.js';

export interface LoadPlot {
  /** Shown and weighed, in one unit. */
  readonly points: readonly { readonly shown: number; readonly scale: number }[];
  /** That unit, which all numbers of the axes are in; empty for plain numbers. */
  readonly unit: string;
  /** scale = height + slope shown. */
  readonly slope: number;
  readonly height: number;
  /** The place of the load that the others do not bear out. */
  readonly spoiler?: number;
  /** Below and beside the axes, without the unit: `Shown`. */
  readonly along: string;
  readonly upward: string;
  readonly residual: string;
}

const right = 304;
const top = 24;
const foot = 190;
const middle = 262;
const swing = 26;

/** The picture in words, from the numbers at its axes: `2000, 4000 lb` on both, `±100 lb` on that of the residuals. */
export interface LoadPlotWords {
  readonly title: string;
  readonly describe: (axes: { readonly ticks: string; readonly rest: string }) => string;
}

/** The picture: loads and line above, residuals on their own scale below. */
export function drawLoadPlot(plot: LoadPlot, { title, describe }: LoadPlotWords): Html {
  const { points, slope, height, unit } = plot;
  const most = Math.max(...points.flatMap(({ shown, scale }) => [shown, scale]), Number.MIN_VALUE);
  const residuals = points.map(({ shown, scale }) => scale - height - slope * shown);
  const largest = Math.max(...residuals.map(Math.abs), most * 1e-9);
  const ticks = roundTicks(most, 4);
  // what is left by the last binary digits alone is nothing to measure
  const rest = largest > most * 1e-6 ? roundTicks(largest, 2).at(-1) : undefined;
  const left = leftOf([...ticks.map(({ text }) => text), `+${rest?.text ?? ''}`]);
  const x = (shown: number): number => place(left + (shown / most) * (right - left) * 0.95);
  const y = (scale: number): number => place(foot - (scale / most) * (foot - top) * 0.95);
  const off = (residual: number): number => place(middle - (residual / largest) * swing);
  const dot = (cx: number, cy: number, i: number): Html =>
    html`<circle class="${i === plot.spoiler ? 'hollow' : 'plant'}" cx="${cx}" cy="${cy}" r="5"/>`;
  const inUnit = (text: string): string => (unit === '' ? text : `${text}\u00a0${unit}`);
  const description = describe({
    ticks: inUnit(ticks.map(({ text }) => text).join(', ')),
    rest: inUnit(rest ? `±${rest.text}` : '0'),
  });
  const named = (label: string): string => (unit === '' ? label : `${label}, ${unit}`);
  return framePicture({ width: 320, height: 314 }, { title, description }, [
    html`<path class="measure" d="M${left} ${top}V${foot}H${right}M${left} ${middle}H${right}"/>`,
    drawTicks(ticks, { left, x, y }),
    rest && drawRest(rest, left, off),
    html`<path class="way" d="M${x(0)} ${y(height)}L${x(most)} ${y(height + slope * most)}"/>`,
    html`${points.map(({ shown, scale }, i) => dot(x(shown), y(scale), i))}`,
    html`${points.map(({ shown }, i) => {
      const cy = off(residuals[i] ?? 0);
      return html`<path class="measure" d="M${x(shown)} ${middle}V${cy}"/>${dot(x(shown), cy, i)}`;
    })}`,
    html`<text x="4" y="14">${named(plot.upward)}</text><text x="${right}" y="${foot + 34}" text-anchor="end">${named(plot.along)}</text><text x="4" y="310">${named(plot.residual)}</text>`,
  ]);
}

/** Room for the longest number left of the axis: a digit is at most nine wide. */
function leftOf(texts: readonly string[]): number {
  return 12 + 9 * Math.max(...texts.map(({ length }) => length));
}

interface Axes {
  readonly left: number;
  readonly x: (shown: number) => number;
  readonly y: (scale: number) => number;
}

/** Both axes have the same numbers, for both are in one unit and end alike. */
function drawTicks(ticks: readonly Tick[], { left, x, y }: Axes): Html {
  const drawn = ticks.map(
    ({ value, text }) =>
      html`<path class="measure" d="M${x(value)} ${foot}v5M${left} ${y(value)}h-5"/><text x="${x(value)}" y="${foot + 18}" text-anchor="middle">${text}</text><text x="${left - 8}" y="${place(y(value) + 5)}" text-anchor="end">${text}</text>`,
  );
  return html`<text x="${left - 8}" y="${foot + 18}" text-anchor="end">0</text>${drawn}`;
}

function drawRest({ value, text }: Tick, left: number, off: (residual: number) => number): Html {
  const drawn = [
    { at: off(value), said: `+${text}` },
    { at: off(-value), said: `\u2212${text}` },
  ].map(
    ({ at, said }) =>
      html`<path class="measure" d="M${left} ${at}h-5"/><text x="${left - 8}" y="${place(at + 5)}" text-anchor="end">${said}</text>`,
  );
  return html`<path class="measure" d="M${left} ${off(value)}V${off(-value)}"/>${drawn}`;
}
