// What a printed card is told when it is scanned: what changed for its own rigs since its revision, and what became of a card
// that is printed no more. Pages are drawn from it in both languages.

import { HtmlValidate } from 'html-validate';
import { describe, expect, it } from 'vitest';
import { compileBook } from '../../src/build.js';
import { cardsOf } from '../../src/emit/cards/card-list.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { historyOf } from '../../src/history/history.js';
import type { Release } from '../../src/history/release.js';
import type { BookHistory } from '../../src/model/history.js';
import { bookOf, filesOfBook, type TestBook } from '../emit-pages/books.js';
import { type Edit, edited } from './books.js';

const learn = 'sensors/learn-height-range.md';
const spanish: Edit = ['book.yaml', 'languages: [en]', 'languages: [en, es]'];

/** The base book as it is now: later than its releases by revision 4 and a limit. */
const edits: readonly Edit[] = [
  [learn, 'revision: 3', 'revision: 4'],
  [learn, 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.6 to 1.0 V'],
  [
    learn,
    '  - id: read-on-ground\n',
    '  - { id: look, do: Look at the display., note: Twice. }\n  - id: read-on-ground\n',
  ],
  ['safety.yaml', 'Let nobody near it', 'Let nobody stand near it'],
];

function release(name: string, date: string, changes: readonly Edit[]): Release {
  return { name, date, sources: '', book: edited(changes) };
}

function bookWith(changes: readonly Edit[]): TestBook {
  const { texts, figures } = filesOfBook('tests/books/base');
  for (const [file, from, to] of changes) texts.set(file, (texts.get(file) ?? '').replace(from, to));
  return bookOf(texts, { figures, proved: false, pass: ['missing-language'] });
}

function siteOf(book: TestBook, history: BookHistory): ReadonlyMap<string, string> {
  const cards = cardsOf(book.resolved).map(({ variant, ...card }) => ({ ...card, variant: variant.id }));
  const site = emitSite(book.resolved, { figures: book.figures, cards, history });
  return new Map([...site].map(([path, content]) => [path, String(content)]));
}

const told = (html: string): string =>
  html
    .replaceAll(/<(head|svg)[ >][\s\S]*?<\/\1>/g, '')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll(/[\s\u00a0]+/g, ' ');

const codeOf = (book: { readonly variants: Release['book']['variants'] }, machine: string): string =>
  book.variants.flatMap(({ cards }) => cards).find((card) => card.machine === machine)?.code ?? '';

describe('a card', () => {
  const releases = [
    release('spring', '2026-03-01', []),
    release('summer', '2026-07-01', [[learn, 'hold: 2 to 3 s', 'hold: 2 to 4 s']]),
  ];
  const now = edited(edits);
  const { cards, gone } = historyOf(releases, now);

  it('is told what changed for its own machine since the oldest release of its revision', () => {
    const [since, ...others] = cards.get(codeOf(now, 'tarn-60')) ?? [];
    expect(others).toEqual([]);
    expect(since).toMatchObject({ revision: 3, date: '2026-03-01', procedure: { revision: 4 } });
    expect(since?.changes.map(({ about, how, rigs }) => [about, how, rigs])).toEqual([
      ['avoid', 'changed', []],
      ['limits', 'changed', []],
      ['itself', 'added', []],
    ]);
    const [other] = cards.get(codeOf(now, 'tarn-40')) ?? [];
    expect(other?.changes.map(({ about }) => about)).toEqual(['avoid', 'itself']);
  });

  it('is gone where the book prints none with its code any more', () => {
    expect(gone).toEqual([]);
    const less = edited([
      [learn, 'machine: [tarn-40, tarn-60]', 'machine: [tarn-40]'],
      [learn, ', tarn-60: 0.7 to 1.0 V', ''],
    ]);
    const left = historyOf(releases, less).gone;
    expect(left.map(({ machine, revision, date }) => [machine, revision, date])).toContainEqual([
      'tarn-60',
      3,
      '2026-07-01',
    ]);
  });
});

describe('the pages that cards lead to', () => {
  const book = bookWith([spanish, ...edits]);
  const now = compileBook(book.resolved, book.figures);
  const history = historyOf([release('spring', '2026-03-01', [])], now);
  const site = siteOf(book, history);
  const code = codeOf(now, 'tarn-60').toLowerCase();

  it('say what is no longer as on the card, in its words: limits in use alone, numbers of steps on the card', () => {
    const page = site.get(`c/${code}/index.html`) ?? '';
    expect(page).toMatch(/<section class="card-since" data-since="3" hidden>/);
    const text = told(page);
    expect(text).toContain('What is no longer as on a card of revision 3:');
    expect(text).toContain('limits 0.73 to 0.97 V → 0.63 to 0.97 V');
    expect(text).not.toContain('book limits');
    expect(text).toContain('Step 2 new Look at the display.');
    expect(text).not.toContain('Twice.');
    expect(text).toContain('No release of this book holds that revision');
  });

  it('say it in Spanish too, and mark what the book has in English alone', () => {
    const text = told(site.get(`es/c/${code}/index.html`) ?? '');
    expect(text).toContain('Lo que ya no es como en una tarjeta de la revisión 3:');
    expect(text).toContain('0.73 a 0.97 V → 0.63 a 0.97 V');
    expect(text).toContain('Look at the display. (inglés)');
  });

  it('say so where the revision stayed and its content did not', () => {
    const same = bookWith(edits.slice(1));
    const compiled = compileBook(same.resolved, same.figures);
    const kept = siteOf(same, historyOf([release('spring', '2026-03-01', [])], compiled));
    const text = told(kept.get(`c/${codeOf(compiled, 'tarn-60').toLowerCase()}/index.html`) ?? '');
    expect(text).toContain('This revision was changed without a new number. A card printed on 1 Mar 2026 or before');
  });

  it('say stop for a card of a procedure that is withdrawn or gone, and that one holds which only has another code', () => {
    const pageOf = (changes: readonly Edit[], earlier: readonly Edit[] = []): string => {
      const changed = bookWith(changes);
      const compiled = compileBook(changed.resolved, changed.figures);
      const before = release('spring', '2026-03-01', earlier);
      const pages = siteOf(changed, historyOf([before], compiled));
      const codes = before.book.variants.flatMap(({ cards }) => cards.map(({ code }) => code));
      const code = earlier.length > 0 ? (codes[1] ?? '') : codeOf(before.book, 'tarn-60');
      return pages.get(`c/${code.toLowerCase()}/index.html`) ?? '';
    };
    expect(told(pageOf([[learn, 'status: released', 'status: withdrawn']]))).toContain(
      'The procedure of this card is withdrawn. Do not work by it: call 555',
    );
    const oneMachine: readonly Edit[] = [
      [learn, 'machine: [tarn-40, tarn-60]', 'machine: [tarn-40]'],
      [learn, ', tarn-60: 0.7 to 1.0 V', ''],
    ];
    expect(told(pageOf(oneMachine))).toContain('The book has no such procedure for this machine any more.');
    // the second software reads as before, and is told apart from the first no more
    const joined = pageOf(
      [],
      [[learn, '{ tarn-40: 0.9 ± 0.2 V,', '{ tarn-40: { "3.10": 0.8 ± 0.2 V, "4.2": 0.9 ± 0.2 V },']],
    );
    expect(told(joined)).toContain('What your card says still holds.');
    expect(joined).toMatch(/<div class="stop card-old" role="alert">/);
  });

  it('are valid pages', async () => {
    const validator = new HtmlValidate({ extends: ['html-validate:standard'] });
    for (const path of [`c/${code}/index.html`, 'staff/releases.html', 'es/staff/releases.html']) {
      const report = await validator.validateString(site.get(path) ?? '');
      expect([
        path,
        report.results.flatMap(({ messages }) => messages.map(({ ruleId, message }) => `${ruleId}: ${message}`)),
      ]).toEqual([path, []]);
    }
  });
});

describe('the page for the desk', () => {
  const book = bookWith([spanish, ...edits]);
  const now = compileBook(book.resolved, book.figures);
  const releases = [release('spring', '2026-03-01', []), release('2026-07-01', '2026-07-01', edits.slice(1, 2))];
  const site = siteOf(book, historyOf(releases, now));

  it('compares the book with the last release first, then each release with the one before', () => {
    const text = told(site.get('staff/releases.html') ?? '');
    const heads = ['Since the release 1 Jul 2026', 'From spring (1 Mar 2026) to 1 Jul 2026'];
    expect(heads.map((head) => text.includes(head))).toEqual([true, true]);
    expect(text.indexOf(heads[0] ?? '')).toBeLessThan(text.indexOf(heads[1] ?? ''));
    const older = text.slice(text.indexOf(heads[1] ?? ''));
    expect(older).toContain(
      'Printed cards of these look current, and are not: the revision did not go up. Learn the header',
    );
    expect(older).toContain('tarn-60 before: 0.73 to 0.97 V in use (book limits 0.7 to 1.0 V)');
    expect(told(site.get('es/staff/releases.html') ?? '')).toContain('De spring (1 mar 2026) a 1 jul 2026');
  });

  it('is on the list of pages for staff only where the book has releases', () => {
    expect(site.get('staff/index.html')).toContain('releases.html');
    const bare = emitSite(book.resolved, { figures: book.figures });
    expect(String(bare.get('staff/index.html'))).not.toContain('releases.html');
    expect(bare.has('staff/releases.html')).toBe(false);
  });
});
