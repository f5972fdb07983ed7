// A page never shows a number of another rig; a page for rigs that are not told apart shows only what all of them share.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { reportsJson } from '../../site/client/job/reports.js';
import { thisPage } from '../../site/client/job/this-page.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { mapSite } from '../../src/emit/pages/site-map.js';
import { voiceFor } from '../../src/emit/voice.js';
import type { ResolvedProcedure, Variant } from '../../src/model/resolved.js';
import { bookOf, demoBook, filesOfBook } from './books.js';

const voice = voiceFor('en', 'en');

/** Every number that a procedure shows, with what it runs. */
function numbersOf(procedure: ResolvedProcedure): readonly string[] {
  const shown = [
    ...procedure.values.flatMap((value) => Object.values(value.shown)),
    ...procedure.adjusters.flatMap((adjuster) => Object.values(adjuster.shown)),
    ...procedure.worksheets.flatMap(({ results }) => results.flatMap((result) => result.shown ?? [])),
    ...procedure.steps.flatMap(({ hold, wait }) => [hold, wait].flatMap((time) => time?.text ?? [])),
  ].map((text) => voice.number(text));
  return [...shown, ...procedure.steps.flatMap(({ run }) => (run ? numbersOf(run) : []))];
}

function numbersOfVariant({ procedure, ends }: Variant): ReadonlySet<string> {
  return new Set([...numbersOf(procedure), ...[...ends.values()].flatMap(numbersOf)]);
}

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Which of the numbers stand in a text, whole. */
function found(text: string, numbers: readonly string[]): readonly string[] {
  return numbers.filter(
    (number) => text.includes(number) && new RegExp(`(?<![\\d.])${escaped(number)}(?![\\d.]*\\d)`).test(text),
  );
}

const plain = (page: string | Uint8Array | undefined): string => String(page).replaceAll(/<[^>]*>/g, ' ');

const { resolved, proofs, figures } = demoBook();
const files = emitSite(resolved, { proofs, figures });
const map = mapSite(resolved, { drafts: false });
const commons = [
  ...map.groups.flatMap(({ entries }) => entries),
  ...map.homes.flatMap(({ entries }) => entries.flatMap(({ common }) => common ?? [])),
];

describe('the demo book', () => {
  const all = [...new Set(resolved.variants.flatMap((variant) => [...numbersOfVariant(variant)]))];
  const textOf = new Map(resolved.variants.map((variant) => [variant.id, JSON.stringify(variant.procedure.prose)]));

  it('shows on the page of a version no number that another rig alone has', () => {
    let looked = 0;
    for (const { home, version } of [...map.places.values()].flat()) {
      const own = numbersOfVariant(version.variant);
      // what the author wrote as words is the same for all rigs
      const prose = textOf.get(version.variant.id) ?? '';
      const foreign = all.filter((number) => !own.has(number) && found(prose, [number]).length === 0);
      const page = plain(files.get(`${version.folder}index.html`));
      const strange = found(page, foreign).filter((number) => ![...own].some((one) => one.includes(number)));
      expect([home.folder, version.folder, strange]).toEqual([home.folder, version.folder, []]);
      looked += foreign.length;
    }
    expect(looked).toBeGreaterThan(1000);
  });

  it('shows on the lists and in the search of a home no number that another home alone has', () => {
    for (const home of map.homes) {
      const own = new Set(
        home.entries.flatMap(({ versions }) => versions.flatMap((one) => [...numbersOfVariant(one.variant)])),
      );
      const foreign = all.filter((number) => !own.has(number));
      for (const file of [
        'index.html',
        'symptoms.html',
        'changes.html',
        'values.html',
        'search.json',
        'search-details.json',
      ]) {
        const strange = found(plain(files.get(home.folder + file)), foreign);
        expect([home.folder, file, strange]).toEqual([home.folder, file, []]);
      }
    }
  });

  it('leaves out on a page for rigs that are not told apart what they do not share', () => {
    expect(commons.length).toBeGreaterThan(30);
    let left = 0;
    for (const { folder, places } of commons) {
      const sets = places.map(({ version }) => numbersOfVariant(version.variant));
      const shared = new Set([...(sets[0] ?? [])].filter((number) => sets.every((set) => set.has(number))));
      const foreign = all.filter((number) => !shared.has(number));
      const page = String(files.get(`${folder}index.html`));
      const strange = found(plain(page), foreign).filter((number) => ![...shared].some((one) => one.includes(number)));
      expect([folder, strange]).toEqual([folder, []]);
      const differs = places.some(({ version }) => version.variant.id !== places[0]?.version.variant.id);
      // hazards worded by machine may differ where the content is the same
      if (differs) expect([folder, page.includes('class="differs"')]).toEqual([folder, true]);
      left += page.split('class="differs"').length - 1;
    }
    expect(left).toBeGreaterThan(20);
  });

  it('keeps every caution of every rig on a page for rigs that are not told apart', () => {
    for (const { entries } of map.groups) {
      for (const { folder, places } of entries) {
        const page = String(files.get(`${folder}index.html`));
        for (const { version } of places) {
          for (const id of version.variant.procedure.hazards) {
            const what = resolved.book.hazards.get(id)?.what.languages.get('en');
            const words =
              what?.kind === 'one' ? what.value.parts.map((part) => (part.kind === 'words' ? part.text : '')) : [];
            for (const text of words) expect([folder, id, page.includes(text)]).toEqual([folder, id, true]);
          }
        }
      }
    }
  });
});

describe('a page for rigs that are not told apart', () => {
  const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(
    JSON.parse(readFileSync(join(import.meta.dirname, '../../schema/job-wrong-pages.schema.json'), 'utf8')) as object,
  );
  afterEach(() => vi.unstubAllGlobals());

  it('can be reported as wrong, by its own code and address', () => {
    expect(commons.length).toBeGreaterThan(30);
    for (const language of ['', 'es/']) {
      for (const { folder, code, procedure } of commons) {
        const path = `${language}${folder}`;
        const text = String(files.get(`${path}index.html`));
        expect([path, text.includes('id="page-wrong"')]).toEqual([path, true]);
        vi.stubGlobal('document', { documentElement: { lang: language === '' ? 'en' : 'es' }, body: bodyOf(text) });
        vi.stubGlobal('location', { href: 'https://book.example/' });
        const page = thisPage();
        expect(page).toMatchObject({ code, path, procedure: procedure.id, revision: procedure.revision });
        expect([page?.title, page?.rig, page?.content].filter((fact) => !fact)).toEqual([]);
        const file = reportsJson(page ? [{ page, text: 'The lamp is on the right.', at: '2026-11-29T12:00:00Z' }] : []);
        expect(validate(JSON.parse(file)), JSON.stringify(validate.errors)).toBe(true);
      }
    }
  });

  it('has another content than the page of either rig, and the same in both languages', () => {
    const contentAt = (path: string): string => bodyOf(String(files.get(`${path}index.html`))).dataset.content ?? '';
    const one = commons.find(({ places }) => new Set(places.map(({ version }) => version.variant.hash)).size > 1);
    expect(one).toBeDefined();
    const own = one?.places.map(({ version }) => contentAt(version.folder)) ?? [];
    expect(own).not.toContain(contentAt(one?.folder ?? ''));
    expect(contentAt(`es/${one?.folder ?? ''}`)).toBe(contentAt(one?.folder ?? ''));
  });
});

/** The facts of a page's body, as a browser gives them to the script. */
function bodyOf(page: string): { readonly dataset: Readonly<Record<string, string>> } {
  const [, attributes = ''] = /<body([^>]*)>/.exec(page) ?? [];
  const facts = [...attributes.matchAll(/ data-([a-z-]+)="([^"]*)"/g)].map(([, name = '', text = '']) => [name, text]);
  return { dataset: Object.fromEntries(facts) as Record<string, string> };
}

describe('two machines with limits of their own', () => {
  const { texts } = filesOfBook('tests/books/base');
  const base = bookOf(texts);
  const files = emitSite(base.resolved, { proofs: base.proofs });

  it('share a page that names the value, and neither machine’s limits', () => {
    const path = [...files.keys()].find((one) => /any\/learn-height-range\/index\.html$/.test(one)) ?? '';
    const page = String(files.get(path));
    expect(page).toContain('It may be:');
    expect(page).not.toContain('data-home');
    expect(page).toContain('Height sensor, header fully raised');
    // 0.9 ± 0.2 V on one, 0.7 to 1.0 V on the other; the height on the ground is the header's and so the same
    expect(page).toContain('The limits differ between them and are left out.');
    expect(
      found(plain(page), ['0.73 to 1.07\u00a0V', '0.73 to 0.97\u00a0V', '0.7 to 1.1\u00a0V', '0.7 to 1.0\u00a0V']),
    ).toEqual([]);
    expect(found(plain(page), ['3.63 to 4.17\u00a0V'])).toEqual(['3.63 to 4.17\u00a0V']);
    // LEARN on one, SET RANGE on the other
    expect(page).not.toMatch(/LEARN|SET RANGE/);
  });
});
