// Which drives run at which step, as proved: a row for each drive, a column for each step. What is not known is hatched.

import { type Html, html } from '../html.js';
import { framePicture, type PictureWords, place } from './frame.js';

export interface DriveRow {
  readonly label: string;
  /** For each step: on, off, or not known. */
  readonly at: readonly ('on' | 'off' | 'unknown')[];
}

const left = 8;
const right = 312;
const tall = 40;

/** The picture; `steps` are the numbers under the columns, of which as many are shown as there is room for. */
export function drawDrives(steps: readonly string[], rows: readonly DriveRow[], words: PictureWords): Html {
  const wide = (right - left) / Math.max(steps.length, 1);
  const longest = Math.max(...steps.map((step) => step.length), 1);
  const every = Math.max(1, Math.ceil((longest * 9 + 10) / wide));
  const foot = rows.length * tall + 6;
  return framePicture({ width: 320, height: foot + 20 }, words, [
    ...rows.map(({ label, at }, row) => drawRow(at, { label, y: row * tall, wide })),
    html`${steps.map((step, i) => i % every === 0 && html`<text x="${place(left + (i + 0.5) * wide)}" y="${foot + 12}" text-anchor="middle">${step}</text>`)}`,
  ]);
}

function drawRow(at: DriveRow['at'], of: { label: string; y: number; wide: number }): Html {
  const y = of.y + 20;
  const runs = runsOf(at).map(({ state, from, to }) => {
    const [x, width] = [place(left + from * of.wide), place((to - from) * of.wide)];
    if (state === 'off') return html`<path class="measure" d="M${x} ${y + 7}h${width}"/>`;
    return html`<rect class="${state === 'on' ? 'solid' : 'hatched'}" x="${x}" y="${y}" width="${width}" height="14"/>`;
  });
  return html`<text x="${left}" y="${of.y + 14}">${of.label}</text>${runs}`;
}

function runsOf(at: DriveRow['at']): readonly { readonly state: string; readonly from: number; readonly to: number }[] {
  const runs: { state: string; from: number; to: number }[] = [];
  at.forEach((state, i) => {
    const last = runs.at(-1);
    if (last?.state === state) last.to = i + 1;
    else runs.push({ state, from: i, to: i + 1 });
  });
  return runs;
}
