// A few lengths side by side to one scale: what was cut and what was logged, dry matter and water.

import { type Html, html } from '../html.js';
import { framePicture, type PictureWords, place } from './frame.js';

export interface Bar {
  readonly label: string;
  /** As printed. */
  readonly text: string;
  /** All in one unit. */
  readonly value: number;
  /** A part of it that is hatched, at its end. */
  readonly rest?: number;
}

const left = 8;
const right = 312;
const tall = 48;

/** The picture; the longest bar fills the width. */
export function drawBars(bars: readonly Bar[], words: PictureWords): Html {
  const most = Math.max(...bars.map(({ value }) => value), Number.MIN_VALUE);
  const wide = (value: number): number => place((Math.max(value, 0) / most) * (right - left));
  return framePicture({ width: 320, height: bars.length * tall + 4 }, words, [
    html`${bars.map(({ label, text, value, rest = 0 }, i) => {
      const y = i * tall;
      const whole = wide(value);
      const end = wide(rest);
      return html`<text x="${left}" y="${y + 16}">${label}</text><text class="strong" x="${right}" y="${y + 16}" text-anchor="end">${text}</text><rect class="solid" x="${left}" y="${y + 22}" width="${place(whole - end)}" height="18"/>${rest > 0 && html`<rect class="hatched" x="${place(left + whole - end)}" y="${y + 22}" width="${end}" height="18"/>`}`;
    })}`,
  ]);
}
