// The widths that a check measures cards by: never less than those of the faces, so that what fits by them fits on paper.
// Needs `npm run build` before.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { array, assert, constantFrom, integer, property, string, stringMatching } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../../src/compile.js';
import type { Block } from '../../src/emit/cards/content.js';
import { openFace } from '../../src/emit/cards/face.js';
import { openFonts } from '../../src/emit/cards/fonts.js';
import { measure } from '../../src/emit/cards/measure.js';
import { type Measures, runsOf } from '../../src/emit/cards/text.js';
import { lacking, widest } from '../../src/emit/cards/widest.js';
import { widestSigns } from '../../src/emit/cards/widest-signs.js';
import { readBookFolder } from '../../src/io.js';

const root = join(import.meta.dirname, '../..');
const [regular, bold] = [400, 700].map((weight) =>
  readFileSync(join(root, `dist/card-fonts/b612-latin-${weight}-normal.ttf`)),
) as [Buffer, Buffer];
const faces = [regular, bold].map(openFace);
const fonts = openFonts(regular, bold);

/** What no face has in its place. */
const missing = '\uffff';

describe('the widest a text can be', () => {
  it('is written down of every sign of the faces; `node tests/scripts/widest-signs.mjs` brings it up to date', () => {
    const written = widestSigns.flatMap(([, signs]) => [...signs]);
    expect([...written].sort()).toEqual([...new Set([...faces.flatMap(({ signs }) => signs), missing])].sort());
  });

  it('is never less than a face takes, whatever sign comes next, and for each sign no more than it has to be', () => {
    const signs = widestSigns.flatMap(([, all]) => [...all]);
    for (const sign of signs) {
      const width = widest.widthOf(sign, false);
      const most = Math.max(
        ...faces.flatMap((face) => [
          face.widthOf(sign),
          ...signs.map((next) => face.widthOf(sign + next) - face.widthOf(next)),
        ]),
      );
      expect(width - most, sign).toBeGreaterThanOrEqual(-1e-9);
      expect(width - most, sign).toBeLessThan(0.001);
    }
  });

  it('makes no block of a card lower than the faces make it', () => {
    const word = stringMatching(/^[A-Za-z0-9.,°–-]{1,14}$/);
    const text = array(word, { minLength: 1, maxLength: 30 }).map((words) => words.join(' '));
    const blocks = (words: readonly string[], rows: number): readonly Block[] => [
      {
        kind: 'step',
        label: '1',
        runs: runsOf(words[0] ?? ''),
        notes: words.slice(1).map((one) => runsOf(one)),
        hazards: [],
      },
      { kind: 'conditions', items: words },
      { kind: 'table', title: words[0] ?? '', rows: words.map((label, i) => ({ label, limits: words.at(-i) ?? '' })) },
      {
        kind: 'sheet',
        title: 'Loads',
        columns: words.slice(0, 5),
        rows,
        results: [{ label: words[0] ?? '', limits: '3 V' }],
      },
    ];
    let higher = 0;
    assert(
      property(array(text, { minLength: 1, maxLength: 6 }), integer({ min: 1, max: 9 }), (words, rows) => {
        for (const one of blocks(words, rows)) {
          const [wide, exact] = [measure(one, { fonts: widest }), measure(one, { fonts })];
          expect(wide.height).toBeGreaterThanOrEqual(exact.height - 1e-9);
          if (exact.tooWide !== undefined) expect(wide.tooWide).toBeDefined();
          if (wide.height > exact.height) higher += 1;
        }
      }),
      { numRuns: 150, seed: 5 },
    );
    expect(higher).toBeGreaterThan(0);
  });

  it('is enough to see that all cards of the demo book fit: no face is opened for it', () => {
    const demo = readBookFolder(join(root, 'procedures'));
    const unopened: Measures = {
      widthOf: () => {
        throw new Error('a face was opened');
      },
    };
    const { diagnostics } = checkBook({
      sources: demo.files,
      figures: new Set(demo.figures.keys()),
      today: '2026-11-24',
      fonts: unopened,
    });
    expect(diagnostics.filter(({ severity }) => severity !== 'hint')).toEqual([]);
  });

  it('knows the signs that the faces lack', () => {
    expect(lacking('Ω at 3.63\u00a0V ≥ ½ “wide” 🚜 ≥')).toEqual(['Ω', '≥', '🚜']);
    assert(
      property(string({ unit: constantFrom(...'aΩé≥\ufffe½') }), (text) => {
        const known = new Set(faces[0]?.signs);
        expect(lacking(text)).toEqual([...new Set(text)].filter((sign) => !known.has(sign)));
      }),
    );
  });
});
