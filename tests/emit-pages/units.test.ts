// Units of the fleet, and what is known of a machine: which version it opens, and that customers stay out of the site.

import { describe, expect, it } from 'vitest';
import { isElsewhere, type PageSerials } from '../../src/emit/page-serials.js';
import type { Site } from '../../src/emit/pages/context.js';
import { jobFacts } from '../../src/emit/pages/job-facts.js';
import { questionsOf, rigFacts, serialsText } from '../../src/emit/pages/rig-facts.js';
import { serialsOf } from '../../src/emit/pages/rig-words.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { mapSite } from '../../src/emit/pages/site-map.js';
import { placeUnits } from '../../src/emit/pages/unit-pages.js';
import { fittingVersions, mayBe, type RigFacts } from '../../src/emit/rig-match.js';
import { voiceFor } from '../../src/emit/voice.js';
import type { Machine } from '../../src/model/book.js';
import type { Rig } from '../../src/model/resolved.js';
import { bookOf, demoBook, filesOfBook } from './books.js';

const rig = (change: Partial<RigFacts>): RigFacts => ({ options: {}, software: {}, ...change });
const known = (change: Partial<Parameters<typeof mayBe>[1]>) => ({ options: {}, software: {}, ...change });

describe('telling rigs apart', () => {
  it('never decides by what is not known', () => {
    const with_ = rig({ options: { tilt: true }, software: { display: ['4.2'] } });
    expect(mayBe(with_, known({}))).toBe(true);
    expect(mayBe(with_, known({ options: { tilt: false } }))).toBe(false);
    expect(mayBe(with_, known({ options: { tilt: true }, software: { display: '3.10' } }))).toBe(false);
  });

  it('compares serials as the book does: run by run, ends as written', () => {
    const from = rig({ serials: { from: { serial: '70-00300', included: true } } });
    const before = rig({ serials: { to: { serial: '70-00300', included: false } } });
    const at = (serial: string): readonly number[] => fittingVersions([[before], [from]], known({ serial }));
    expect([at('70-00299'), at('70-00300'), at('70 1000'), at('70-9')]).toEqual([[0], [1], [1], [0]]);
    expect(fittingVersions([[before], [from]], known({}))).toEqual([0, 1]);
  });
});

describe('a page for some serials', () => {
  const whole = serialsOf({ serials: { from: '70-00100', to: '70-04999' } } as Machine);
  const serialsFor = (rigs: readonly Pick<Rig, 'serials'>[], machine: object): PageSerials | undefined => {
    const text = serialsText(rigs, machine as Machine, voiceFor('en', 'en'));
    return text === undefined ? undefined : (JSON.parse(text) as PageSerials);
  };
  const machine = { serials: { from: '70-00100', to: '70-04999' } };

  it('knows a serial that is none of them, and says nothing of one that is not given', () => {
    const serials = serialsFor([{}, {}], machine);
    expect(serials).toEqual({ stretches: [whole], words: 'serial numbers 70\u201100100 to 70\u201104999' });
    const found = ['99-12345', '70-05000', '70-00100', '70 4999', ' ', ''].filter(
      (serial) => serials && isElsewhere(serials, serial),
    );
    expect(found).toEqual(['99-12345', '70-05000']);
  });

  it('has each stretch of its rigs once, and those of the machine where a rig is for all', () => {
    const to = { to: { serial: '70-01999', included: true } };
    const narrow = serialsFor([{ serials: to }, { serials: to }], machine);
    expect(narrow).toEqual({ stretches: [to], words: 'serial numbers up to 70\u201101999' });
    expect(serialsFor([{ serials: to }, {}], machine)?.stretches).toEqual([to, whole]);
  });

  it('claims nothing where the book does not say which serials a machine has', () => {
    expect(serialsFor([{}], {})).toBeUndefined();
  });

  it('says it on its page, for each version its own', () => {
    const home = site.map.homes.find(({ folder }) => folder === 'tarn-40/row-12x20/');
    const versionsOf = (id: string): readonly (string | undefined)[] =>
      (home?.byId.get(id)?.versions ?? []).map(
        (version) =>
          jobFacts({ site, voice: voiceFor('en', 'en'), path: '', ...(home && { home }) }, version)['data-serials'],
      );
    expect(versionsOf('mass-flow')).toEqual([expect.stringContaining('70\u201100100 to 70\u201104999')]);
    const versions = versionsOf('couple-header');
    expect([versions.length, new Set(versions).size]).toEqual([2, 2]);
  });
});

const { texts, figures } = filesOfBook('procedures');
const demo = demoBook();
const site = {
  book: demo.resolved,
  languages: ['en'],
  map: mapSite(demo.resolved, { drafts: false }),
} as unknown as Site;
const units = placeUnits({ site });

describe('units of the demo book', () => {
  it('have a page each, with the headers that the fleet names', () => {
    expect(units.map(({ folder }) => folder)).toEqual(demo.resolved.book.fleet.map(({ id }) => `u/${id.value}/`));
    for (const { unit, homes } of units) {
      expect(homes.map(({ header }) => header.id)).toEqual(unit.headers.map(({ header }) => header.value));
    }
  });

  it('open every procedure of their homes at one version, or at none where it is not for them', () => {
    let several = 0;
    const missing: string[] = [];
    for (const { known: facts, homes } of units) {
      for (const { folder, versions } of homes.flatMap(({ entries }) => entries)) {
        const fitting = fittingVersions(
          versions.map(({ rigs }) => rigs.map(rigFacts)),
          facts,
        );
        // what applies to every rig of the home has a version for each of them
        const narrowed = versions.every(({ rigs }) => rigs.every((one) => one.options.size > 0 || one.serials));
        expect([folder, fitting.length]).toEqual([folder, narrowed ? expect.toBeOneOf([0, 1]) : 1]);
        if (versions.length > 1 && fitting.length === 1) several += 1;
        if (fitting.length === 0) missing.push(folder);
      }
    }
    expect(several).toBeGreaterThan(5);
    // unit-03 has no ground sensing
    expect(missing).toContain('corrie-9/row-6x30/check-height-sensor/');
  });

  it('need for that what the questions of their home ask', () => {
    for (const { homes } of units) {
      for (const home of homes) {
        const { options, software, serial } = questionsOf(home);
        const split = home.entries.some(({ versions }) =>
          versions.some(({ rigs }) => rigs.every((one) => one.options.size + one.software.size > 0 || one.serials)),
        );
        expect(options.length + software.length + Number(serial) > 0).toBe(split);
      }
    }
  });

  it('keep their customers out of every file, unless the book wants them there', () => {
    const customers = demo.resolved.book.fleet.flatMap(({ customer }) => customer?.value ?? []);
    const naming = (files: ReadonlyMap<string, string | Uint8Array>): readonly string[] =>
      [...files].filter(([, text]) => customers.some((name) => String(text).includes(name))).map(([path]) => path);
    expect(customers.length).toBeGreaterThan(5);
    expect(naming(emitSite(demo.resolved, { proofs: demo.proofs, figures }))).toEqual([]);
    const open = new Map(texts).set('book.yaml', `${texts.get('book.yaml')}show-customers: true\n`);
    const named = naming(emitSite(bookOf(open, { figures, proved: false }).resolved));
    expect(named).toContain('units.html');
    expect(named).toContain('u/unit-17/index.html');
  });

  it('do not claim to know an option that the fleet does not speak of', () => {
    const silent = new Map(texts).set(
      'fleet.yaml',
      'units:\n  - { id: unit-1, machine: tarn-40 }\n  - { id: unit-2, machine: tarn-40, options: none }\n',
    );
    const { resolved } = bookOf(silent, { figures, proved: false });
    const [first, second] = placeUnits({ site: { book: resolved, map: mapSite(resolved, { drafts: false }) } as Site });
    expect(first?.known.options['lateral-tilt']).toBe(undefined);
    expect(second?.known.options['lateral-tilt']).toBe(false);
    expect(second?.homes.length).toBe(3);
  });
});

describe('codes', () => {
  const files = emitSite(demo.resolved, { proofs: demo.proofs, figures });
  const codes = [...String(files.get('codes.html')).matchAll(/<li id="([A-Z0-9]{6})"/g)].map(([, code = '']) => code);

  it('are all different, and each has an address that leads to its page', () => {
    expect(new Set(codes).size).toBe(codes.length);
    expect(codes.length).toBeGreaterThan(150);
    for (const code of codes) {
      const page = String(files.get(`c/${code.toLowerCase()}/index.html`));
      const go = /data-go="\.\.\/\.\.\/([^"]*)"/.exec(page)?.[1];
      expect([code, files.has(`${go}index.html`)]).toEqual([code, true]);
    }
  });

  it('stand at the top of every page of a machine', () => {
    for (const [path, page] of files) {
      if (!/^(?:es\/)?(?:tarn|corrie|any)[^.]*\.html$/.test(path) || path.split('/').length < 3) continue;
      const head = String(page).slice(0, String(page).indexOf('</header>'));
      const code = /class="code">([^<]*)</.exec(head)?.[1]?.replaceAll(/\W/g, '') ?? '';
      if (!/^(?:es\/)?[\w-]+\/index\.html$/.test(path)) expect([path, codes.includes(code)]).toEqual([path, true]);
    }
  });
});
