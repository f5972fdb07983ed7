// A code to scan as a drawing, black on white also in the dark.

import { encode } from 'uqr';
import { type Html, html, trusted } from '../html.js';

/** The code of an address; `label` says what it is to whoever does not see it. */
export function drawCode(url: string, label: string): Html {
  const { data, size } = encode(url, { ecc: 'M', boostEcc: false, border: 4 });
  const bars = data.flatMap((row, y) => barsOf(row).map(([x, width]) => `M${x} ${y}h${width}v1h-${width}z`)).join('');
  return html`<svg class="scan" viewBox="0 0 ${size} ${size}" role="img" aria-label="${label}"><path class="ground" d="M0 0h${size}v${size}h-${size}z"/><path d="${trusted(bars)}"/></svg>`;
}

/** Dark squares that stand beside each other, as one bar: where it begins and how wide it is. */
function barsOf(row: readonly boolean[]): readonly (readonly [x: number, width: number])[] {
  const bars: [number, number][] = [];
  row.forEach((dark, x) => {
    const last = bars.at(-1);
    if (dark && last && last[0] + last[1] === x) last[1] += 1;
    else if (dark) bars.push([x, 1]);
  });
  return bars;
}
