// Cards: what stands on them, that they fit, that their tags are in reading order, and that the same book gives the same bytes.
// Needs `npm run build` before.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import PDFDocument from 'pdfkit';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Checked, checkBook } from '../../src/compile.js';
import { type Card, cardsOf as listCards } from '../../src/emit/cards/card-list.js';
import { emitCards } from '../../src/emit/cards/cards.js';
import { openFonts } from '../../src/emit/cards/fonts.js';
import { runsOf, wrap } from '../../src/emit/cards/text.js';
import { filesOf } from '../rules/page.js';

const root = join(import.meta.dirname, '../..');
const face = (weight: number): Uint8Array =>
  readFileSync(join(root, `dist/card-fonts/b612-latin-${weight}-normal.ttf`));
const fonts = openFonts(face(400), face(700));

function check(change: (path: string, text: string) => string = (_, text) => text): Checked {
  const files = [...filesOf(join(root, 'tests/books/base'))];
  const sources = new Map(files.map(([path, text]) => [path, { path, text: change(path, text) }]));
  return checkBook({ sources, figures: new Set(), today: '2026-11-24', fonts });
}

function cardsOf({ resolved, proofs }: Checked): ReadonlyMap<string, Uint8Array> {
  if (!resolved) throw new Error('not resolved');
  return emitCards(resolved, { proofs, fonts });
}

async function pagesOf(bytes: Uint8Array): Promise<{ texts: readonly string[]; tags: readonly string[] }> {
  const document = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const [texts, tags]: [string[], string[]] = [[], []];
  for (let i = 1; i <= document.numPages; i += 1) {
    const page = await document.getPage(i);
    const { items } = await page.getTextContent();
    texts.push(items.map((item) => ('str' in item ? item.str : '')).join(' '));
    const walk = (node: { role?: string; children?: readonly unknown[] }): void => {
      if (node.role) tags.push(node.role);
      for (const child of node.children ?? []) walk(child as typeof node);
    };
    walk((await page.getStructTree()) as { role?: string });
  }
  return { texts, tags };
}

describe('a card', () => {
  let cards: ReadonlyMap<string, Uint8Array>;
  beforeAll(() => {
    cards = cardsOf(check());
  });

  it('is made for each machine and variant', () => {
    expect([...cards.keys()].every((path) => /^cards\/tarn-(40|60)\/learn-height-range(-\d+)?\.pdf$/.test(path))).toBe(
      true,
    );
    expect(new Set([...cards.keys()].map((path) => path.split('/')[1]))).toEqual(new Set(['tarn-40', 'tarn-60']));
  });

  it.each(['3.6 to 4.2 V', '3.7 to 4.2 V'])(
    "answers to the code that it had before the book got a header that reads %s, and to no other card's",
    (limits) => {
      const listOf = (files: ReadonlyMap<string, string>): readonly Card[] => {
        const sources = new Map([...files].map(([path, text]) => [path, { path, text }]));
        const { resolved } = checkBook({ sources, figures: new Set(), today: '2026-11-24', fonts });
        if (!resolved) throw new Error('not resolved');
        return listCards(resolved);
      };
      const before = filesOf(join(root, 'tests/books/base'));
      const row = before.get('headers/row-12x20.yaml') ?? '';
      const after = new Map([...before].map(([path, text]) => [path, text.replace('headers: [', 'headers: [a-row, ')]));
      after.set(
        'headers/a-row.yaml',
        row.replace(/^name: .*$/m, 'name: Another').replace(/on_ground: .*/, `on_ground: ${limits}`),
      );
      const [old, now] = [listOf(before), listOf(after)];
      expect(old.length).toBeGreaterThan(0);
      for (const { code, machine, variant } of old) {
        const answers = now.filter((card) => [card.code, ...card.alsoCodes].includes(code));
        const headers = variant.rigs.map(({ header }) => header);
        expect(answers.map((card) => card.machine)).toEqual([machine]);
        expect(answers[0]?.variant.rigs.map(({ header }) => header)).toEqual(expect.arrayContaining(headers));
      }
      const codes = now.flatMap(({ code, alsoCodes }) => [code, ...alsoCodes]);
      expect(new Set(codes).size).toBe(codes.length);
    },
  );

  it('holds the title, the caution, the steps by number, the limits in use, the telephone and the revision as text', async () => {
    const path = [...cards.keys()].find((name) => name.includes('tarn-40')) ?? '';
    const { texts, tags } = await pagesOf(cards.get(path) ?? new Uint8Array());
    const text = texts.join(' ').replaceAll(/\s+/g, ' ');
    for (const words of [
      'Learn the header height range',
      'Tarn 40',
      'WARNING',
      'You can be crushed.',
      'Hold LEARN',
      '555-0134',
      'Rev 3',
      'found',
      'left',
    ]) {
      expect(text).toContain(words);
    }
    // The display of ± 0.02 V with 0.01 V steps takes 0.03 V off each end of 3.6 to 4.2 V.
    expect(text).toMatch(/3\.63 to 4\.17\sV/);
    expect(text.indexOf('WARNING')).toBeLessThan(text.indexOf('Lower the header'));
    expect(tags).toEqual(
      expect.arrayContaining(['H1', 'L', 'LI', 'Lbl', 'LBody', 'Table', 'TR', 'TH', 'TD', 'Figure']),
    );
  });

  it('holds letters beyond ASCII as they are', async () => {
    const accented = cardsOf(
      check((path, text) =>
        path.endsWith('learn-height-range.md')
          ? text.replace('The points rest', 'Señal Ångström, ½ of the points rest')
          : text,
      ),
    );
    const { texts } = await pagesOf([...accented.values()][0] ?? new Uint8Array());
    expect(texts.join(' ').replaceAll(/\s+/g, ' ')).toContain('Señal Ångström, ½ of the points rest on the floor.');
  });

  it('is the same bytes from the same book', () => {
    const again = cardsOf(check());
    expect(
      [...again].map(([path, bytes]) => [path, Buffer.from(bytes).equals(Buffer.from(cards.get(path) ?? []))]),
    ).toEqual([...cards.keys()].map((path) => [path, true]));
  });

  it('repeats the caution on each side that has a step it belongs to', async () => {
    const long = cardsOf(
      check((path, text) =>
        path.endsWith('learn-height-range.md')
          ? text.replaceAll(
              'expect: The points rest on the floor.',
              `expect: ${'The points rest on the floor. '.repeat(18).trim()}`,
            )
          : text,
      ),
    );
    const { texts } = await pagesOf([...long.values()][0] ?? new Uint8Array());
    expect(texts.length).toBeGreaterThan(1);
    for (const text of texts.filter((page) => page.includes('Raise the header'))) expect(text).toContain('WARNING');
  });

  it('is refused with what to shorten where a step is taller than a side', () => {
    const { diagnostics } = check((path, text) =>
      path.endsWith('learn-height-range.md')
        ? text.replace(
            'expect: The points rest on the floor.',
            `expect: ${'The points rest on the floor. '.repeat(60).trim()}`,
          )
        : text,
    );
    const errors = diagnostics.filter(({ severity }) => severity === 'error');
    expect(errors.map(({ code }) => code)).toEqual(['card-overflow']);
    expect(errors[0]?.message).toMatch(/step 1 is \d+\u00a0mm too tall/);
    expect(errors[0]?.help).toContain('`card:`');
  });

  it('is refused where its face lacks a sign', () => {
    const { diagnostics } = check((path, text) =>
      path.endsWith('learn-height-range.md') ? text.replace('The points rest', 'The ≥ points rest') : text,
    );
    expect(diagnostics.filter(({ severity }) => severity === 'error').map(({ code }) => code)).toEqual([
      'sign-not-printable',
    ]);
  });
});

describe('the faces', () => {
  it('are as wide as pdfkit would set them, pairs drawn together', () => {
    const document = new PDFDocument({ autoFirstPage: false, font: '' });
    document.font(Buffer.from(face(700)), 1000);
    for (const text of ['AVATAR', 'LVG', 'Tarn', '4.17\u00a0V', 'PATH/Ty', 'Wörter']) {
      expect(fonts.widthOf(text, true) * 1000).toBeCloseTo(document.widthOfString(text), 6);
    }
    expect(fonts.widthOf('LV', true)).toBeLessThan(fonts.widthOf('L', true) + fonts.widthOf('V', true));
  });
});

describe('wrap', () => {
  it('never parts a number from its unit', () => {
    const { lines } = wrap(runsOf('between 3.63 to 4.17\u00a0V and 20\u00a0in wide'), 60, { size: 12, fonts });
    const texts = lines.map((line) => line.map(({ text }) => text).join(''));
    expect(texts.some((text) => text.includes('4.17\u00a0V'))).toBe(true);
    expect(texts.some((text) => text.includes('20\u00a0in'))).toBe(true);
  });

  it('keeps bold words and the stop after them together', () => {
    const { lines } = wrap(runsOf('Hold **LEARN**.'), 500, { size: 12, fonts });
    expect(lines).toEqual([
      [
        { text: 'Hold', bold: false },
        { text: ' LEARN', bold: true },
        { text: '.', bold: false },
      ],
    ]);
  });

  it('says which word is wider than its column', () => {
    expect(wrap(runsOf('a Donaudampfschifffahrt'), 40, { size: 12, fonts }).tooWide).toBe('Donaudampfschifffahrt');
  });
});
