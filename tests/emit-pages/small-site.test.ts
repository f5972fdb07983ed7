// The site of a small book: what each kind of page must say, must not say, and where it stands.

import { describe, expect, it } from 'vitest';
import { emitSite } from '../../src/emit/pages/site.js';
import { drawValue } from '../../src/emit/pages/values.js';
import { voiceFor } from '../../src/emit/voice.js';
import { hostile, smallBook } from './small-book.js';

const book = smallBook();
const files = emitSite(book.resolved, { proofs: book.proofs });
const pageAt = (path: string): string => {
  const page = files.get(path);
  if (typeof page !== 'string') throw new Error(`There is no ${path}, only ${[...files.keys()].join(' ')}`);
  return page;
};
/** The words of a page as they are read, blanks made one. */
const read = (html: string): string =>
  html
    .replaceAll(/<(head|svg)[ >][\s\S]*?<\/\1>/g, '')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll(/[\s\u00a0]+/g, ' ')
    .replaceAll(/ (?=[.,;:])/g, '')
    .replaceAll('\u2011', '-')
    .replaceAll('&#39;', "'");

const learn = 'tarn-40/row-12x20/learn-height-range/index.html';

describe('a procedure page', () => {
  const page = pageAt(learn);
  const words = read(page);

  it('says at its top what it is for, which revision, until when, and a code to read out', () => {
    const head = page.slice(0, page.indexOf('<main'));
    expect(read(head)).toMatch(/Tarn 40 · 12-row header/);
    expect(read(head)).toMatch(/Revision \d+ review by 1 Aug 2027 read out [2-9A-Z]{3} [2-9A-Z]{3}/);
  });

  // The display reads ± 0.02 V in steps of 0.01 V: u² = 0.02²/3 + 0.01²/12, U = 2u = 0.0238 V (JCGM 100:2008, 4.3.7 and 4.4.5);
  // the acceptance limits of 3.6 to 4.2 V lie U inside (JCGM 106:2012, 8.3.2), rounded inward to 0.01 V: 3.63 and 4.17 V.
  it('shows the limits in use as the hero and the book limit for technicians', () => {
    const guard = 2 * Math.sqrt(0.02 ** 2 / 3 + 0.01 ** 2 / 12);
    expect(Math.ceil((3.6 + guard) * 100) / 100).toBe(3.63);
    expect(Math.floor((4.2 - guard) * 100) / 100).toBe(4.17);
    expect(page).toContain('<p class="limits">3.63 to 4.17\u00a0V</p>');
    expect(words).toContain('Book limit 3.6 to 4.2 V, for technicians');
  });

  it('draws the gauge from the same numbers, and says them for those who do not see it', () => {
    expect(page).toMatch(/aria-label="[^"]*: 3\.63 to 4\.17\u00a0V\. Band 0\.25 to 4\.75\u00a0V\."/);
    expect(page).toMatch(/<text[^>]*>3\.63<\/text>/);
    expect(page).toMatch(/<text[^>]*>4\.17<\/text>/);
  });

  it('numbers its steps as the model does and leads to each by a link', () => {
    const labels = [...page.matchAll(/<p class="step-number"><a href="#([^"]+)">Step ([^<]+)<\/a>/g)];
    const variant = book.resolved.variants.find(
      ({ rigs, procedure }) =>
        procedure.id === 'learn-height-range' && rigs.some(({ header }) => header === 'row-12x20'),
    );
    expect(labels.slice(0, variant?.procedure.steps.length).map(([, , label]) => label)).toEqual(
      variant?.procedure.steps.map(({ number }) => String(number)),
    );
    for (const [, anchor] of labels) expect(page).toContain(`id="${anchor}"`);
  });

  it('puts the caution at its top, and whole again before each stretch of steps that it belongs to', () => {
    const steps = page.slice(page.indexOf('id="steps"'));
    const panels = [...page.matchAll(/class="hazard may-kill"/g)];
    expect(panels.length).toBeGreaterThan(2);
    expect(page.indexOf('class="hazard may-kill"')).toBeLessThan(page.indexOf('id="before"'));
    // the first step moves the header: its panel stands inside the step, before its words
    const first = steps.slice(steps.indexOf('id="step-1"'), steps.indexOf('Lower the header'));
    expect(first).toContain('WARNING');
  });

  it('lists the conditions with how they are shown and what happens if they are missed', () => {
    expect(page.match(/<input type="checkbox">/g)?.length).toBe(4);
    expect(words).toContain('If missed: The range is not stored and no message appears.');
    expect(words).toContain('Keep it so until the end.');
  });

  it('says branches in plain words', () => {
    expect(words).toContain('You see: The display shows LOW STORED. If not: A drive is still engaged. Go to step 10');
    expect(words).toMatch(
      /Inside: Go on with step 3\. Outside: (?:First do step E1, then call|Call) service, 555-0134\./,
    );
  });

  it('calls by a link, and says what was checked and what was not', () => {
    expect(page).toContain('<a class="phone" href="tel:5550134">555\u20110134</a>');
    expect(words).toContain("Checked against this dealership's own rules");
    expect(words).toContain('It followed every way through the steps');
    expect(words).toContain('Not checked: whether this book agrees');
    expect(words).toContain("The machine's own manual comes first.");
  });

  it('claims no proof where there is none', () => {
    const bare = read(String(emitSite(book.resolved).get(learn)));
    expect(bare).not.toContain('It followed every way');
    expect(bare).toContain('Not checked: whether the order of the steps keeps the safety rules');
  });

  it('says between which limits a reading is too close to call, where the decision rule has three zones', () => {
    const found = book.resolved.variants.flatMap(({ procedure }) =>
      procedure.values.map((value) => ({ procedure, value })),
    );
    const [one] = found.filter(({ value }) => value.id === 'on_ground' && value.shown.acceptance?.startsWith('3.63'));
    if (!one?.value.tolerance) throw new Error('The value is not there');
    const drawn = drawValue({ ...one.value, failing: one.value.tolerance }, one.procedure, voiceFor('en', 'en'));
    expect(read(drawn.html)).toContain('Outside 3.6 to 4.2 V it fails for sure; between is too close to call.');
  });

  it('shows what is known of the machine before each step', () => {
    expect(page).toMatch(/<details class="strip"><summary><span>Header <b>On ground<\/b><\/span><\/summary>/);
  });

  it('never shows a number of another rig', () => {
    const other = read(pageAt('tarn-60/row-12x20/learn-height-range/index.html'));
    expect(words).toContain('0.73 to 1.07 V');
    expect(other).toContain('0.73 to 0.97 V');
    expect(other).not.toContain('1.07');
    expect(words).not.toContain('0.97');
  });
});

describe('texts of the book', () => {
  it('never become markup, in titles, steps, prose or search', () => {
    for (const [path, text] of files) {
      if (typeof text !== 'string' || !path.endsWith('.html')) continue;
      expect([path, text.includes(hostile)]).toEqual([path, false]);
      const scripts = /(?:jobs|calculators)\.html$/.test(path) ? 2 : 1;
      expect([path, (text.match(/<script/g) ?? []).length]).toEqual([path, scripts]);
    }
  });

  it('lead to other procedures of the same home, and lose links to what is not there', () => {
    const page = pageAt('tarn-40/row-12x20/arm-stuck/with-lateral-tilt/index.html');
    expect(page).toContain('<a href="../../learn-height-range/">the range</a>');
    expect(read(page)).toContain('or nothing.');
  });
});

describe('a procedure that differs within a home', () => {
  it('has a page to choose from that says how to tell, and a page for each', () => {
    const chooser = read(pageAt('tarn-40/row-12x20/arm-stuck/index.html'));
    expect(chooser).toContain('With lateral tilt');
    expect(chooser).toContain('Without lateral tilt');
    expect(chooser).toContain('The feeder face has a cylinder at its top left.');
    const without = pageAt('tarn-40/row-12x20/arm-stuck/without-lateral-tilt/index.html');
    expect(read(without)).toContain('Only for: without lateral tilt.');
    expect(without).not.toContain('Set the tilt to its middle');
    // the step that these machines lack leaves a gap in the count
    expect([...without.matchAll(/>Step (\d+)</g)].map(([, label]) => label)).toEqual(['1', '3']);
  });
});

describe('procedures that must not be followed', () => {
  it('withdrawn: the page says stop and has no steps', () => {
    const page = pageAt('tarn-40/row-12x20/withdrawn/index.html');
    expect(read(page)).toContain('Withdrawn. Do not use it.');
    expect(page).not.toContain('Pull the arm');
    expect(read(pageAt('tarn-40/row-12x20/index.html'))).toContain('Old way to free the arm Withdrawn. Do not use it.');
    expect(pageAt('tarn-40/row-12x20/search-details.json')).not.toContain('Pull the arm');
  });

  it('draft: there is no page unless it is asked for', () => {
    expect([...files.keys()].filter((path) => path.includes('/draft/'))).toEqual([]);
    expect(pageAt('data/book.json')).not.toContain('Push the arm');
    const drafts = emitSite(book.resolved, { proofs: book.proofs, drafts: true });
    expect(read(String(drafts.get('tarn-40/row-12x20/draft/index.html')))).toContain('Draft. Not released.');
  });
});

describe('lists of a home', () => {
  it('symptoms come from missed conditions, failed expectations, readings and fault finding', () => {
    const words = read(pageAt('tarn-40/row-12x20/symptoms.html'));
    expect(words).toContain('The range is not stored and no message appears. First look: Threshing drive Disengaged');
    expect(words).toContain('Not seen: The display shows LOW STORED.');
    expect(words).toMatch(/Height sensor, header on the ground: not 3\.63 to 4\.17 V/);
    expect(words).toContain('Finds out why an arm does not drop.');
  });

  it('after a change: what is void, by event, and what is due by itself', () => {
    const words = read(pageAt('tarn-40/row-12x20/changes.html'));
    expect(words).toContain('Another header was hung Learn the header height range');
    expect(words).toContain('every season');
  });

  it('all values stand with their limits', () => {
    expect(read(pageAt('tarn-40/row-12x20/values.html'))).toMatch(
      /Height sensor, header on the ground.*3\.63 to 4\.17 V/,
    );
  });

  it('the start asks for the machine and says how to tell', () => {
    const words = read(pageAt('index.html'));
    expect(words).toContain('Which machine?');
    expect(words).toContain('The plate inside the cab door reads TARN 40.');
    expect(words).toContain('Do not guess: call 555-0134');
  });
});

describe('the Spanish pages', () => {
  it('say plainly that a text is not translated, a hazard most of all', () => {
    const page = pageAt(`es/${learn}`);
    expect(page).toContain('<html lang="es">');
    expect(read(page)).toContain('ADVERTENCIA En inglés, sin traducir: The header moves');
    expect(page).toContain('<b><span lang="en">The header moves');
    expect(read(page)).toContain('Este procedimiento no está traducido.');
    expect(page).toContain('<p class="limits">3.63 a 4.17\u00a0V</p>');
    // an English sentence keeps its English numbers, and is marked as English
    expect(page).toContain('<span lang="en">Hold <strong>LEARN</strong> for 2 to 3\u00a0s.</span>');
  });
});
