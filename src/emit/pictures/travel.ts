// Readings of one sensor in the band in which it reads at all: where it may stand at each end of its way, and where it goes.

import { type Html, html } from '../html.js';
import { framePicture, type PictureWords, place } from './frame.js';

/** One end of the way, or a window: from and to in the unit of the band. */
export interface Stop {
  readonly from: number;
  readonly to: number;
  /** As printed: `3.63 to 4.17 V`. */
  readonly text: string;
  readonly label: string;
}

export interface Travel {
  readonly band: { readonly from: number; readonly to: number; readonly low: string; readonly high: string };
  readonly stops: readonly Stop[];
  /** Whether an arrow leads from the first stop to the last. */
  readonly way?: boolean;
}

const left = 16;
const right = 304;

/** The picture: the band as a line with its ends, each stop as a block with its words on a line of its own. */
export function drawTravel(travel: Travel, words: PictureWords): Html {
  const { band, stops } = travel;
  const width = band.to - band.from;
  const at = (value: number): number =>
    left + ((Math.min(Math.max(value, band.from), band.to) - band.from) / (width > 0 ? width : 1)) * (right - left);
  const line = 22;
  const height = 58 + stops.length * 34;
  const [first, last] = [stops[0], stops.at(-1)];
  return framePicture({ width: 320, height }, words, [
    html`<path class="measure" d="M${left} ${line}H${right}M${left} ${line - 8}v16M${right} ${line - 8}v16"/>`,
    html`<text x="${left}" y="50">${band.low}</text><text x="${right}" y="50" text-anchor="end">${band.high}</text>`,
    ...stops.map(({ from, to, text, label }, i) => {
      const [x, size] = [place(at(from)), place(Math.max(at(to) - at(from), 3))];
      const below = 64 + i * 34;
      return html`<rect class="block" x="${x}" y="${line - 11}" width="${size}" height="22"/><text x="${left}" y="${below + 6}">${label}</text><text class="strong" x="${left}" y="${below + 22}">${text}</text>`;
    }),
    travel.way &&
      first &&
      last &&
      first !== last &&
      drawWay(at((first.from + first.to) / 2), at((last.from + last.to) / 2), line),
  ]);
}

function drawWay(from: number, to: number, y: number): Html {
  const tip = to > from ? -8 : 8;
  return html`<path class="way" d="M${place(from)} ${y}H${place(to)}m${tip} -5l${-tip} 5l${tip} 5"/>`;
}
