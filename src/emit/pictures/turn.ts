// What a turn of an adjuster does to the value that is watched: where it read before, where it will read, and the limits.

import { type Html, html } from '../html.js';
import { framePicture, type PictureWords, place } from './frame.js';

export interface Turn {
  /** In the unit of the value. */
  readonly before: number;
  readonly after: number;
  readonly limits: { readonly low?: number; readonly high?: number };
  /** As printed. */
  readonly beforeText: string;
  readonly afterText: string;
}

const left = 16;
const right = 304;
const line = 56;

/** The picture, as wide as both readings and the limits with a little room. */
export function drawTurn({ before, after, limits, beforeText, afterText }: Turn, words: PictureWords): Html {
  const ends = [before, after, limits.low, limits.high].filter((end) => end !== undefined);
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const room = (most - least || Math.abs(most) || 1) * 0.12;
  const at = (value: number): number => left + ((value - least + room) / (most - least + 2 * room)) * (right - left);
  const [low, high] = [
    limits.low === undefined ? left : at(limits.low),
    limits.high === undefined ? right : at(limits.high),
  ];
  const tip = after > before ? -8 : 8;
  return framePicture({ width: 320, height: 100 }, words, [
    html`<path class="measure" d="M${left} ${line}H${right}"/><rect class="block" x="${place(low)}" y="${line - 12}" width="${place(Math.max(high - low, 3))}" height="24"/>`,
    html`<circle class="hollow" cx="${place(at(before))}" cy="${line}" r="6"/><circle class="plant" cx="${place(at(after))}" cy="${line}" r="6"/>`,
    before !== after &&
      html`<path class="way" d="M${place(at(before))} ${line - 14}V32H${place(at(after))}m${tip} -5l${-tip} 5l${tip} 5"/>`,
    html`<text x="${place(at(before))}" y="90" text-anchor="${anchorOf(at(before))}">${beforeText}</text><text class="strong" x="${place(at(after))}" y="20" text-anchor="${anchorOf(at(after))}">${afterText}</text>`,
  ]);
}

function anchorOf(x: number): string {
  return x < 80 ? 'start' : x > 240 ? 'end' : 'middle';
}
