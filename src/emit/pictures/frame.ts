// What all drawn pictures share: the frame with its words for who cannot see it, and numbers short enough for a path.

import { type Html, html } from '../html.js';

/** A picture in words: its name and what it shows. */
export interface PictureWords {
  readonly title: string;
  readonly description: string;
}

/** A picture of `width` by `height` units; inks come from the style sheet, so that it turns with the page in the dark. */
export function framePicture(
  size: { readonly width: number; readonly height: number },
  words: PictureWords,
  parts: readonly (Html | false | undefined)[],
): Html {
  return html`<svg class="picture" viewBox="0 0 ${size.width} ${size.height}" role="img" aria-label="${words.title}. ${words.description}">
<title>${words.title}</title><desc>${words.description}</desc>
${parts}</svg>
`;
}

/** To a tenth of a unit: finer than any screen shows. */
export function place(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A line with an arrow at both ends and its measure in the middle of it, above. */
export function drawMeasure(from: number, to: number, at: { readonly y: number; readonly text: string }): Html {
  const [left, right, y] = [place(from), place(to), place(at.y)];
  const tips = to - from > 14 ? `M${left + 6} ${y - 4}L${left} ${y}l6 4M${right - 6} ${y - 4}L${right} ${y}l-6 4` : '';
  return html`<path class="measure" d="M${left} ${y}H${right}M${left} ${y - 6}v12M${right} ${y - 6}v12${tips}"/><text x="${place((from + to) / 2)}" y="${y - 8}" text-anchor="middle">${at.text}</text>`;
}
