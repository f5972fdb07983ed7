// Pictures drawn from data: what is drawn is where the numbers say, and the words say the same.

import { describe, expect, it } from 'vitest';
import type { Html } from '../../src/emit/html.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { drawBars } from '../../src/emit/pictures/bars.js';
import { drawDrives } from '../../src/emit/pictures/drives.js';
import { drawHeader } from '../../src/emit/pictures/header.js';
import { drawLoadPlot } from '../../src/emit/pictures/load-plot.js';
import { drawTravel } from '../../src/emit/pictures/travel.js';
import { drawTurn } from '../../src/emit/pictures/turn.js';
import { demoBook } from './books.js';

const words = { title: 'A title', description: 'What it <shows>' };
const numbers = (picture: Html, pattern: RegExp): readonly number[] =>
  [...picture.html.matchAll(pattern)].map(([, found]) => Number(found));

describe('every picture', () => {
  it('has its words for who cannot see it, escaped, and no number that is none', () => {
    const all = [
      drawHeader({ rows: 12, spacing: '20 in', width: '20 ft' }, words),
      drawHeader({ width: '35 ft' }, words),
      drawTravel(
        {
          band: { from: 0, to: 5, low: '0 V', high: '5 V' },
          stops: [{ from: 1, to: 2, text: '1 to 2 V', label: 'A' }],
        },
        words,
      ),
      drawTurn({ before: 3, after: 3, limits: {}, beforeText: '3 V', afterText: '3 V' }, words),
      drawDrives(['1', '2'], [{ label: 'Drive', at: ['on', 'off'] }], words),
      drawDrives([], [], words),
      drawBars([{ label: 'A', text: '0 ft', value: 0 }], words),
      drawLoadPlot(
        { points: [{ shown: 1, scale: 1 }], slope: 1, height: 0, along: 'x', upward: 'y', residual: 'r' },
        words,
      ),
    ];
    for (const { html } of all) {
      expect(html).toContain('role="img" aria-label="A title. What it &lt;shows&gt;"');
      expect(html).toContain('<title>A title</title><desc>What it &lt;shows&gt;</desc>');
      expect(html).not.toMatch(/NaN|Infinity|undefined/);
    }
  });
});

describe('a header', () => {
  it('has a point at each end and between any two rows, and a plant in every row', () => {
    const picture = drawHeader({ rows: 12, spacing: '20 in', width: '20 ft' }, words);
    expect(picture.html.match(/ 62L/g)).toHaveLength(13);
    const plants = numbers(picture, /<circle class="plant" cx="([\d.]+)"/g);
    expect(plants).toHaveLength(12);
    // rows lie evenly over the width, half a row from its ends
    expect(plants[0]).toBeCloseTo(16 + 288 / 24, 0);
    expect(plants[11]).toBeCloseTo(304 - 288 / 24, 0);
    expect(picture.html).toContain('>20 in</text>');
  });
});

describe('the way of a reading', () => {
  it('puts each end where it lies in the band', () => {
    const stops = [
      { from: 0.5, to: 1, text: '0.5 to 1 V', label: 'Raised' },
      { from: 4, to: 4.5, text: '4 to 4.5 V', label: 'On the ground' },
    ];
    const picture = drawTravel({ band: { from: 0, to: 5, low: '0 V', high: '5 V' }, stops, way: true }, words);
    const [low, high] = numbers(picture, /<rect class="block" x="([\d.]+)"/g);
    expect(low).toBeCloseTo(16 + 288 * 0.1, 1);
    expect(high).toBeCloseTo(16 + 288 * 0.8, 1);
    expect(picture.html).toContain('class="way"');
  });
});

describe('a turn', () => {
  it('leads from the reading before to the one after', () => {
    const picture = drawTurn(
      { before: 3.3, after: 3.9, limits: { low: 3.6, high: 4.2 }, beforeText: '3.30 V', afterText: '3.90 V' },
      words,
    );
    const [before = 0, after = 0] = numbers(picture, /<circle class="\w+" cx="([\d.]+)"/g);
    const [block = 0] = numbers(picture, /<rect class="block" x="([\d.]+)"/g);
    expect(before).toBeLessThan(block);
    expect(after).toBeGreaterThan(block);
    expect((after - before) / (block - before)).toBeCloseTo(2, 1);
  });
});

describe('drives', () => {
  it('are a bar where they run, dashed where nothing is known', () => {
    const picture = drawDrives(
      ['1', '2', '3', '4'],
      [{ label: 'Threshing', at: ['unknown', 'on', 'on', 'off'] }],
      words,
    );
    expect(numbers(picture, /<rect class="solid" x="[\d.]+" y="\d+" width="([\d.]+)"/g)).toEqual([152]);
    expect(numbers(picture, /<rect class="hatched" x="([\d.]+)"/g)).toEqual([8]);
  });

  it('leave out step numbers that would touch', () => {
    const steps = Array.from({ length: 60 }, (_, i) => `${i}.10`);
    const xs = numbers(drawDrives(steps, [], words), /<text x="([\d.]+)"/g);
    for (const [i, x] of xs.entries()) expect(x - (xs[i - 1] ?? -99)).toBeGreaterThan(40);
  });
});

describe('loads', () => {
  it('lie on the line where they have no rest, and the one that spoils is hollow', () => {
    const points = [1000, 2000, 3000].map((shown) => ({ shown, scale: shown * 0.5 }));
    const picture = drawLoadPlot(
      { points, slope: 0.5, height: 0, spoiler: 1, along: 'x', upward: 'y', residual: 'r' },
      words,
    );
    const rests = [...picture.html.matchAll(/cx="([\d.]+)" cy="([\d.]+)"/g)].slice(3).map(([, , y]) => Number(y));
    expect(rests).toEqual([246, 246, 246]);
    expect(picture.html.match(/class="hollow"/g)).toHaveLength(2);
  });
});

describe('pages of the demo', () => {
  const { resolved, proofs, figures } = demoBook();
  const files = emitSite(resolved, { proofs, figures });
  const page = (path: string): string => String(files.get(path) ?? '');

  it('draw the rig from its own numbers', () => {
    expect(page('tarn-40/row-12x20/index.html')).toContain(
      'aria-label="This header from above: 12-row header, 20 in rows. 12 rows, 20\u00a0in from row to row, 20\u00a0ft wide."',
    );
    expect(page('tarn-40/row-12x20/index.html')).toContain(
      'calculators.html#width-area?rows=12&amp;spacing=20&amp;spacing.unit=in',
    );
    expect(page('es/tarn-40/row-12x20/values.html')).toContain(
      '12 surcos, 20\u00a0in de surco a surco, 20\u00a0ft de ancho.',
    );
    const learn =
      [...files.keys()].find((path) =>
        /^tarn-40\/row-12x20\/learn-height-range\/display-[\d.]+\/index\.html$/.test(path),
      ) ?? '';
    expect(page(learn)).toMatch(/aria-label="Way of the reading: [^"]*It reads at all from 0\.25 to 4\.75\u00a0V\./);
    expect(page('tarn-40/row-12x20/mass-flow/index.html')).toContain('<details class="drives">');
    expect(page('tarn-40/row-12x20/shut-down/index.html')).not.toContain('<details class="drives">');
  });
});
