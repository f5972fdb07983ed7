// Weighed loads against what the display showed, with the line that fits them and what each load is off by. Pure, so that
// a page and a phone draw the same.

import { type Html, html } from '../html.js';
import { framePicture, type PictureWords, place } from './frame.js';

export interface LoadPlot {
  /** Shown and weighed, in one unit. */
  readonly points: readonly { readonly shown: number; readonly scale: number }[];
  /** scale = height + slope shown. */
  readonly slope: number;
  readonly height: number;
  /** The place of the load that the others do not bear out. */
  readonly spoiler?: number;
  /** Below and beside the axes: `Shown, lb`. */
  readonly along: string;
  readonly upward: string;
  readonly residual: string;
}

const left = 20;
const right = 304;
const top = 24;
const foot = 190;
const middle = 246;
const swing = 26;

/** The picture: loads and line above, residuals on their own scale below. */
export function drawLoadPlot(plot: LoadPlot, words: PictureWords): Html {
  const { points, slope, height } = plot;
  const most = Math.max(...points.flatMap(({ shown, scale }) => [shown, scale]), Number.MIN_VALUE);
  const x = (shown: number): number => place(left + (shown / most) * (right - left) * 0.95);
  const y = (scale: number): number => place(foot - (scale / most) * (foot - top) * 0.95);
  const residuals = points.map(({ shown, scale }) => scale - height - slope * shown);
  const largest = Math.max(...residuals.map(Math.abs), most * 1e-9);
  const dot = (cx: number, cy: number, i: number): Html =>
    html`<circle class="${i === plot.spoiler ? 'hollow' : 'plant'}" cx="${cx}" cy="${cy}" r="5"/>`;
  return framePicture({ width: 320, height: 296 }, words, [
    html`<path class="measure" d="M${left} ${top}V${foot}H${right}M${left} ${middle}H${right}"/>`,
    html`<path class="way" d="M${x(0)} ${y(height)}L${x(most)} ${y(height + slope * most)}"/>`,
    html`${points.map(({ shown, scale }, i) => dot(x(shown), y(scale), i))}`,
    html`${points.map(({ shown }, i) => {
      const cy = place(middle - ((residuals[i] ?? 0) / largest) * swing);
      return html`<path class="measure" d="M${x(shown)} ${middle}V${cy}"/>${dot(x(shown), cy, i)}`;
    })}`,
    html`<text x="${left}" y="14">${plot.upward}</text><text x="${right}" y="${foot + 16}" text-anchor="end">${plot.along}</text><text x="${left}" y="292">${plot.residual}</text>`,
  ]);
}
