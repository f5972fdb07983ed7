// Pictures drawn from data: what is drawn is where the numbers say, and the words say the same.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Html } from '../../src/emit/html.js';
import { calculatorsPage } from '../../src/emit/pages/calculators-page.js';
import type { Site } from '../../src/emit/pages/context.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { drawBars } from '../../src/emit/pictures/bars.js';
import { drawDrives } from '../../src/emit/pictures/drives.js';
import { drawHeader } from '../../src/emit/pictures/header.js';
import { drawLoadPlot } from '../../src/emit/pictures/load-plot.js';
import { roundTicks } from '../../src/emit/pictures/ticks.js';
import { drawTravel } from '../../src/emit/pictures/travel.js';
import { drawTurn } from '../../src/emit/pictures/turn.js';
import { voiceFor } from '../../src/emit/voice.js';
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
        { points: [{ shown: 1, scale: 1 }], unit: '', slope: 1, height: 0, along: 'x', upward: 'y', residual: 'r' },
        { title: words.title, describe: () => words.description },
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
  const drawn = (points: readonly { shown: number; scale: number }[], slope: number): Html =>
    drawLoadPlot(
      { points, unit: 'lb', slope, height: 0, spoiler: 1, along: 'Shown', upward: 'Scale', residual: 'Off' },
      { title: 'Loads', describe: ({ ticks, rest }) => `At ${ticks}; at ${rest}` },
    );
  const dots = (picture: Html): readonly (readonly [x: number, y: number])[] =>
    [...picture.html.matchAll(/cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => [Number(x), Number(y)]);

  it('lie on the line where they have no rest, and the one that spoils is hollow', () => {
    const picture = drawn(
      [1000, 2000, 3000].map((shown) => ({ shown, scale: shown * 0.5 })),
      0.5,
    );
    expect(
      dots(picture)
        .slice(3)
        .map(([, y]) => y),
    ).toEqual([262, 262, 262]);
    expect(picture.html.match(/class="hollow"/g)).toHaveLength(2);
  });

  it('have few round numbers at both axes, each where a load of that number lies, and their unit at each axis', () => {
    // the loads are the numbers themselves: each dot must lie where the mark of its number is
    const picture = drawn(
      [2000, 4000, 6000].map((mass) => ({ shown: mass, scale: mass })),
      0.99,
    );
    const ticks = [...picture.html.matchAll(/x="([\d.]+)" y="([\d.]+)" text-anchor="(middle|end)">(\d+)<\/text>/g)];
    const along = ticks.filter(([, , , anchor]) => anchor === 'middle').map(([, x, , , text]) => [text, Number(x)]);
    const upward = ticks
      .filter(([, , , anchor, text]) => anchor === 'end' && text !== '0')
      .map(([, , y, , text]) => [text, Number(y) - 5]);
    const loads = dots(picture).slice(0, 3);
    expect(along).toEqual(['2000', '4000', '6000'].map((text, i) => [text, loads[i]?.[0]]));
    expect(upward.map(([text]) => text)).toEqual(['2000', '4000', '6000']);
    expect(ticks.filter(([, , , , text]) => text === '0')).toHaveLength(1);
    for (const [i, [, y]] of upward.entries()) expect(y).toBeCloseTo(loads[i]?.[1] ?? 0, 1);
    // off the line by 20, 40 and 60 lb, to which 50 is the roundest that shows how far
    expect(picture.html).toMatch(/>\+50<\/text>.*>\u221250<\/text>/s);
    for (const label of ['Shown', 'Scale', 'Off']) expect(picture.html).toContain(`>${label}, lb</text>`);
    expect(picture.html).toContain('<desc>At 2000, 4000, 6000\u00a0lb; at ±50\u00a0lb</desc>');
  });

  it('have no number for a rest that binary digits alone make', () => {
    const picture = drawn(
      [1000, 2000, 3000].map((shown) => ({ shown, scale: shown * 0.1 * 3 })),
      0.3,
    );
    expect(picture.html).toContain('; at 0\u00a0lb</desc>');
  });
});

describe('numbers at an axis', () => {
  it('are at most as many as asked for, round, and never beyond the end', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e9, noNaN: true }), fc.integer({ min: 2, max: 6 }), (most, count) => {
        const ticks = roundTicks(most, count);
        expect(ticks.length).toBeGreaterThan(0);
        expect(ticks.length).toBeLessThanOrEqual(count);
        const [{ value: step } = { value: 0 }] = ticks;
        expect(step.toExponential().replace(/e.*/, '')).toMatch(/^[125]$/);
        ticks.forEach(({ value, text }, i) => {
          expect(Number(text)).toBe(value);
          expect(value / step).toBeCloseTo(i + 1, 9);
          expect(value).toBeLessThanOrEqual(most * (1 + 1e-8));
        });
      }),
    );
  });

  it.each([
    [0.3, 4, ['0.1', '0.2', '0.3']],
    [8400, 4, ['2000', '4000', '6000', '8000']],
    [98, 2, ['50']],
    [0, 4, []],
  ])('up to %d, at most %d', (most, count, texts) => {
    expect(roundTicks(most, count).map(({ text }) => text)).toEqual(texts);
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

  it('draw the loads of the calculators in the unit that the book puts first, and say so', () => {
    const si = { ...resolved.book, settings: { ...resolved.book.settings, units: 'si' as const } };
    const site = { book: { ...resolved, book: si }, languages: ['en'], assets: new Map() } as unknown as Site;
    const drawn = calculatorsPage({ site, voice: voiceFor('en', 'en'), path: 'calculators.html' });
    for (const [text, unit] of [
      [page('calculators.html'), 'lb'],
      [drawn, 'kg'],
    ] as const) {
      const loads = text.slice(text.indexOf('id="loads"'));
      expect(loads).toContain(`marks on both axes at 2000, 4000, 6000\u00a0${unit}.`);
      expect(loads).toContain(`>Weighed, ${unit}</text>`);
      expect(loads).toContain(`<select id="loads-unit" name="unit"><option>${unit}</option>`);
    }
  });
});
