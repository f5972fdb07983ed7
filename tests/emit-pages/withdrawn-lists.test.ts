// Wherever a procedure that was withdrawn is listed, the list says stop, and tells nothing that only it knows.

import { describe, expect, it } from 'vitest';
import { emitSite } from '../../src/emit/pages/site.js';
import { bookOf } from './books.js';
import { smallTexts } from './small-book.js';

const texts = smallTexts();
for (const path of ['sensors/learn-height-range.md', 'wrong/arm-stuck.md']) {
  const text = texts.get(path) ?? '';
  texts.set(path, text.replace('status: released', 'status: withdrawn'));
}
const { resolved, proofs } = bookOf(texts, { pass: ['missing-language', 'raw-html', 'unknown-procedure'] });
const files = emitSite(resolved, { proofs });
const home = 'tarn-40/row-12x20/';
const page = (path: string): string => String(files.get(path));
const stop = '<strong class="taken">Withdrawn. Do not use it.</strong>';

/** What a page says of a procedure: the row, or the section, that is about it. */
function about(text: string, id: string): string {
  const [found = ''] = new RegExp(`<(li|section)[^>]* data-of="${id}"[\\s\\S]*?</\\1>`).exec(text) ?? [];
  return found;
}

describe('a list', () => {
  for (const [name, path] of [
    ['the home', `${home}index.html`],
    ['what to do again after a change', `${home}changes.html`],
    ['all values', `${home}values.html`],
    ['the home of whoever does not know the header', 'tarn-40/any/index.html'],
    ['the codes for the telephone', 'codes.html'],
  ] as const) {
    it(`marks what was withdrawn: ${name}`, () => {
      expect(about(page(path), 'learn-height-range')).toContain(stop);
    });
  }

  it('of all values says no number of it', () => {
    const shown = about(page(`${home}values.html`), 'learn-height-range');
    expect(shown).not.toMatch(/\d V/);
    expect(shown).not.toContain('limits-inline');
  });

  it('of symptoms has the title of work that finds a fault, and no cause or reading of it', () => {
    const shown = page(`${home}symptoms.html`);
    expect(about(shown, 'arm-stuck')).toContain(stop);
    expect(shown).not.toContain('The spring is broken');
    expect(shown).not.toContain('data-of="learn-height-range"');
  });

  it('of hits knows which was withdrawn', () => {
    const { procedures } = JSON.parse(page(`${home}search.json`)) as { procedures: readonly (readonly string[])[] };
    const taken = procedures.filter(([, , mark]) => mark === 'withdrawn').map(([, folder]) => folder);
    expect(taken.sort()).toEqual(['arm-stuck/', 'learn-height-range/', 'withdrawn/']);
  });

  it('says it in the language of its page', () => {
    expect(about(page(`es/${home}index.html`), 'learn-height-range')).toContain('Retirado. No lo use.');
  });
});

describe('a condition', () => {
  it('sends nobody to a withdrawn procedure to bring it about', () => {
    const asking = texts.get('wrong/arm-stuck.md') ?? '';
    const others = new Map(texts).set(
      'wrong/arm-stuck.md',
      asking
        .replace('status: withdrawn', 'status: released')
        .replace('requires: none', 'requires: [{ state: height-range, is: valid, shown-by: The lamp is on. }]'),
    );
    const draw = (changed: Map<string, string>): string => {
      const book = bookOf(changed, { pass: ['missing-language', 'raw-html', 'unknown-procedure'] });
      return String(emitSite(book.resolved).get(`${home}arm-stuck/with-lateral-tilt/index.html`));
    };
    const given = '<a href="../../learn-height-range/">Learn the header height range</a>';
    expect(draw(others)).not.toContain(given);
    const learn = others.get('sensors/learn-height-range.md') ?? '';
    others.set('sensors/learn-height-range.md', learn.replace('status: withdrawn', 'status: released'));
    expect(draw(others)).toContain(given);
  });
});
