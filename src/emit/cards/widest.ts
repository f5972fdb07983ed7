// The most that a text can take up on a card, without opening a face: what fits by these measures fits by those of the faces.

import type { Measures } from './text.js';
import { widestSigns } from './widest-signs.js';

const widths: ReadonlyMap<string, number> = new Map(
  widestSigns.flatMap(([width, signs]) => [...signs].map((sign) => [sign, width] as const)),
);

/** The picture that stands for a sign that the faces lack. */
const missing = '\uffff';

/** The bold face is the wider one nearly everywhere: one width serves for both. */
export const widest: Measures = {
  widthOf: (text) => {
    let width = 0;
    for (let i = 0; i < text.length; i += 1) width += widths.get(text.charAt(i)) ?? widths.get(missing) ?? 0;
    return width / 1000;
  },
};

const numbered = (sign: string): string => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;

/** Any sign but those of the faces. */
const lacked = new RegExp(
  `[^${[...widths.keys()]
    .filter((sign) => sign !== missing)
    .map(numbered)
    .join('')}]`,
  'gu',
);

/** Signs of a text that the faces have no picture of, each once. */
export function lacking(text: string): readonly string[] {
  return [...new Set(text.match(lacked))];
}
