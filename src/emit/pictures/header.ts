// A header from above, drawn from its rows, spacing and width: points between the rows, or a bar where it has no rows.

import { type Html, html } from '../html.js';
import { drawMeasure, framePicture, type PictureWords, place } from './frame.js';

export interface HeaderShape {
  /** How many rows; without it a header that cuts its whole width. */
  readonly rows?: number;
  /** As printed: `20 in`. */
  readonly spacing?: string;
  /** As printed: `20 ft`. */
  readonly width: string;
}

const left = 16;
const right = 304;
const most = 40;

/** The picture. More than forty rows are drawn as forty: the number stands in the words. */
export function drawHeader(shape: HeaderShape, words: PictureWords): Html {
  const rows = shape.rows === undefined ? undefined : Math.min(Math.max(Math.round(shape.rows), 1), most);
  const step = rows === undefined ? right - left : (right - left) / rows;
  const middle = Math.floor((rows ?? 1) / 2);
  const between = left + step * middle;
  return framePicture({ width: 320, height: 112 }, words, [
    rows === undefined ? drawBar() : drawPoints(rows, step),
    rows !== undefined &&
      shape.spacing !== undefined &&
      drawMeasure(between - step / 2, between + step / 2, { y: 22, text: shape.spacing }),
    drawMeasure(left, right, { y: 102, text: shape.width }),
  ]);
}

// a point between two rows and one at each end; the crop stands where the dots are
function drawPoints(rows: number, step: number): Html {
  const half = Math.min(step * 0.36, 9);
  const points = Array.from({ length: rows + 1 }, (_, i) => {
    const x = left + i * step;
    return `M${place(x - half)} 62L${place(x)} 36L${place(x + half)} 62z`;
  });
  const plants = Array.from(
    { length: rows },
    (_, i) => html`<circle class="plant" cx="${place(left + (i + 0.5) * step)}" cy="32" r="2"/>`,
  );
  return html`<rect class="body" x="${left}" y="62" width="${right - left}" height="14"/><path class="solid" d="${points.join('')}"/>${plants}`;
}

function drawBar(): Html {
  const teeth = Array.from({ length: 36 }, (_, i) => `M${left + i * 8} 48l4 -8l4 8z`);
  return html`<rect class="body" x="${left}" y="48" width="${right - left}" height="26"/><path class="solid" d="${teeth.join('')}"/>`;
}
