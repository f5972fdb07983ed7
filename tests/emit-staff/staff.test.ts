// The pages for desk and staff of the demo book: what they must say, where they lead, and that they name no customer.

import { HtmlValidate } from 'html-validate';
import { describe, expect, it } from 'vitest';
import { emitSite } from '../../src/emit/pages/site.js';
import { mapSite } from '../../src/emit/pages/site-map.js';
import { staffTables } from '../../src/emit/words/staff.js';
import { catalogue } from '../../src/rules/catalogue.js';
import { demoBook } from '../emit-pages/books.js';
import { filesOf } from '../rules/page.js';

const { resolved, proofs, figures } = demoBook();
const pagesOfRules = new Map(
  [...filesOf('src/rules')].map(([path, text]) => [path.replace(/^.*\//, '').replace(/\.md$/, ''), text]),
);
const rules = [...catalogue].map(([code, severity]) => ({ code, severity, markdown: pagesOfRules.get(code) ?? '' }));
const files = emitSite(resolved, { proofs, figures, rules });
const read = (path: string): string =>
  String(files.get(path))
    .replaceAll(/<(head|svg)[ >][\s\S]*?<\/\1>/g, '')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll(/[\s\u00a0]+/g, ' ');

describe('the words of these pages', () => {
  it('are there in every language, with the same places', () => {
    const places = (text: string): readonly string[] => (text.match(/\{\w+\}/g) ?? []).sort();
    const english: Readonly<Record<string, string>> = staffTables.en ?? {};
    const spanish: Readonly<Record<string, string>> = staffTables.es ?? {};
    expect(Object.keys(spanish)).toEqual(Object.keys(english));
    for (const [key, text] of Object.entries(english)) {
      const other = spanish[key] ?? '';
      expect([key, places(other)]).toEqual([key, places(text)]);
    }
    const same = Object.entries(english).filter(([key, text]) => spanish[key] === text);
    expect(same.map(([key]) => key)).toEqual(['error']);
  });
});

describe('from a symptom to the first three questions', () => {
  it('asks one to three things of every sign of a rig, each with a place to look', () => {
    for (const { machine, header } of resolved.rigs) {
      const page = String(files.get(`staff/questions/${machine}/${header}/index.html`));
      const signs = page.split('<h2>').slice(1);
      expect([machine, header, signs.length > 5]).toEqual([machine, header, true]);
      for (const sign of signs) {
        const questions = /<ol>(.*?)<\/ol>/s.exec(sign)?.[1]?.split('<li>').slice(1) ?? [];
        expect(questions.length).toBeGreaterThan(0);
        expect(questions.length).toBeLessThanOrEqual(3);
        for (const question of questions) expect(question).toContain('<a href="');
      }
    }
  });

  it('asks for the condition that was missed, and how it is seen', () => {
    const page = read('staff/questions/tarn-40/row-12x20/index.html');
    expect(page).toMatch(/The range is not stored and no message appears\. Is it so: Threshing drive disengaged\?/);
  });
});

describe('after a change', () => {
  it('leads a unit to its own version, and not to what is not for it', () => {
    const page = String(files.get('staff/changes/unit-17/index.html'));
    expect(page).toContain('learn-height-range/display-4.2/"');
    expect(page).not.toContain('display-3.10');
    expect(read('staff/changes/unit-03/index.html')).not.toContain('Check and set the height sensors');
    expect(read('staff/changes/unit-08/index.html')).toContain('Check and set the height sensors');
  });
});

describe('the lists', () => {
  it('cover every rig and every procedure', () => {
    const page = read('staff/coverage.html');
    for (const id of ['Tarn 60 · Draper, 35 ft', 'Make the draper belts run true', 'tried on the machine']) {
      expect(page).toContain(id);
    }
    const cells = String(files.get('staff/coverage.html')).split('<td>').length - 1;
    const procedures = new Set(resolved.variants.map(({ procedure }) => procedure.id)).size;
    expect(cells).toBe(procedures * resolved.rigs.length);
  });

  it('give every review its day, in the page and in the calendar', () => {
    const calendar = String(files.get('staff/reviews.ics'));
    const due = [...resolved.book.procedures.values()].filter(({ reviewed }) => reviewed?.next);
    expect(calendar.split('BEGIN:VEVENT').length - 1).toBe(resolved.book.procedures.size);
    for (const { reviewed } of due) {
      expect(calendar).toContain(`DTSTART;VALUE=DATE:${reviewed?.next?.value.replaceAll('-', '')}`);
    }
    expect(read('staff/reviews.html')).toContain('1 Aug 2027');
  });

  it('say what was proved, of every version that has a page', () => {
    const page = read('staff/proofs.html');
    expect(page).toContain(`Proved: ${resolved.variants.length} of ${resolved.variants.length} versions`);
    for (const { id } of resolved.world.rules) expect(page).toContain(id);
    expect(String(emitSite(resolved, { figures }).get('staff/proofs.html'))).toContain('Proved: 0 of');
  });

  it('list versions whose proofs are alike once, with a link to each', () => {
    const page = read('staff/proofs.html');
    const markup = String(files.get('staff/proofs.html'));
    const proofs = resolved.variants.filter(({ procedure }) => procedure.id === 'learn-height-range');
    expect(proofs.length).toBeGreaterThan(2);
    const title = proofs[0]?.procedure.title.en ?? '';
    const rows = page.split(title).length - 1;
    expect(rows).toBeLessThan(proofs.length);
    expect(page).toMatch(/\d+ versions, with the same counts for each/);
    const shown = [...markup.matchAll(/href="\.\.\/([\w./-]+\/)"/g)].map(([, folder]) => folder);
    for (const { id } of proofs) {
      const places = mapSite(resolved, { drafts: false }).places.get(id) ?? [];
      expect(shown).toContain(places[0]?.version.folder);
    }
  });

  it('show waivers with their reasons, and the words of the book', () => {
    const waivers = [...resolved.book.procedures.values()].flatMap((procedure) => procedure.waivers);
    const page = read('staff/waivers.html');
    for (const { code } of waivers) expect(page).toContain(code.value);
    expect(read('staff/terms.html')).toMatch(/row header cabezal maicero corn head, maize header/);
  });

  it('name no customer', () => {
    const customers = resolved.book.fleet.flatMap(({ customer }) => customer?.value ?? []);
    for (const [path, text] of files) {
      if (/staff\/(?!rules)/.test(path))
        expect([path, customers.some((name) => String(text).includes(name))]).toEqual([path, false]);
    }
  });
});

describe('practice and clinic', () => {
  it('lead to every released procedure with practice on, and print a sheet to sign', () => {
    const start = String(files.get('staff/clinic/index.html'));
    expect(start).toContain('tarn-40/row-12x20/mass-flow/?practice"');
    const sheet = String(files.get('staff/clinic/tarn-40/row-12x20/index.html'));
    expect(sheet.split('class="scan"').length - 1).toBeGreaterThan(10);
    expect(read('staff/clinic/tarn-40/row-12x20/index.html')).toMatch(/Name Farm Signature/);
    expect(sheet).toContain('DANGER');
  });
});

describe('every rule explained', () => {
  it('has a page for each code, and links among them lead somewhere', () => {
    for (const { code, markdown } of rules) {
      expect([code, markdown.length > 100]).toEqual([code, true]);
      const page = String(files.get(`staff/rules/${code}/index.html`));
      expect(page).toContain(`<h1>${code}</h1>`);
      for (const [, target = ''] of page.matchAll(/ href="([^"#?]*)"/g)) {
        if (/^(?:tel|https?):/.test(target) || target.includes('assets/') || target === '') continue;
        const path = new URL(target, `https://book.example/staff/rules/${code}/`).pathname.slice(1);
        const file = path === '' || path.endsWith('/') ? `${path}index.html` : path;
        expect([code, target, files.has(file)]).toEqual([code, target, true]);
      }
    }
  });

  it('is valid HTML, as are the other pages for staff', async () => {
    const validate = new HtmlValidate({ extends: ['html-validate:standard'] });
    const chosen = [...files].filter(
      ([path]) =>
        path.endsWith('.html') &&
        (/^(?:es\/)?staff\/[^/]*$/.test(path) ||
          /^(?:es\/)?staff\/(?:questions|clinic|changes|rules)\/index/.test(path) ||
          /^staff\/(?:questions|clinic)\/tarn-40\/row-12x20\//.test(path) ||
          /^staff\/(?:changes\/unit-17|rules\/(?:review-overdue|unit-mismatch))\//.test(path)),
    );
    expect(chosen.length).toBeGreaterThan(20);
    for (const [path, page] of chosen) {
      const report = await validate.validateString(String(page), path);
      const faults = report.results.flatMap(({ messages }) =>
        messages.map(({ ruleId, message }) => `${ruleId}: ${message}`),
      );
      expect([path, faults]).toEqual([path, []]);
    }
  });
});
