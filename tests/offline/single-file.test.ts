// A procedure as one file: all inside, nothing fetched, nothing that runs, and a policy that holds it to that.

import { createHash } from 'node:crypto';
import { HtmlValidate } from 'html-validate';
import { describe, expect, it } from 'vitest';
import { exportPages, type Wanted } from '../../src/emit/offline/export-pages.js';
import { singleFile } from '../../src/emit/offline/single-file.js';
import { bookOf } from '../emit-pages/books.js';
import { smallTexts } from '../emit-pages/small-book.js';

const picture = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 8"><path d="M0 0h8v8H0z"/></svg>';
const figures = new Map([['figures/arm.svg', new TextEncoder().encode(picture)]]);
const face = new Uint8Array([7, 7, 7]);
const assets = new Map([
  ['client.js', new Uint8Array([1])],
  ['icon.svg', new Uint8Array([1])],
  ['style.css', new TextEncoder().encode('@font-face{src:url("./fonts/a.woff2")}rect{fill:url(#hatch)}')],
  ['fonts/a.woff2', face],
]);

function filesOf(wanted: Partial<Wanted> = {}): ReadonlyMap<string, string> {
  const texts = smallTexts();
  const path = 'wrong/arm-stuck.md';
  texts.set(path, `${texts.get(path) ?? ''}\n![An arm](figures/arm.svg)\n`);
  const pass = ['missing-language', 'raw-html', 'unknown-procedure'];
  const { resolved, proofs } = bookOf(texts, { figures, pass });
  return exportPages(
    resolved,
    { proofs, figures, assets },
    { procedure: 'arm-stuck', isWanted: () => true, ...wanted },
  );
}
const all = filesOf();

describe('a procedure as single files', () => {
  it('has one for each page that it has on the site', () => {
    expect([...all.keys()].filter((name) => name.includes('row-12x20')).sort()).toEqual(
      ['es-', ''].flatMap((language) => [
        `${language}tarn-40-row-12x20-arm-stuck-any.html`,
        `${language}tarn-40-row-12x20-arm-stuck-with-lateral-tilt.html`,
        `${language}tarn-40-row-12x20-arm-stuck-without-lateral-tilt.html`,
        `${language}tarn-60-row-12x20-arm-stuck.html`,
      ]),
    );
    const few = filesOf({
      language: 'es',
      isWanted: ({ machine }) => machine === 'tarn-60',
    });
    expect([...few.keys()]).toEqual(['es-tarn-60-row-12x20-arm-stuck.html']);
    expect(filesOf({ procedure: 'no-such' }).size).toBe(0);
  });

  it('has one for whoever does not know option, header or machine, with what holds either way', () => {
    for (const name of ['tarn-40-row-12x20-arm-stuck-any', 'tarn-40-any-arm-stuck', 'any-arm-stuck']) {
      const file = all.get(`${name}.html`) ?? '';
      expect([name, file]).toEqual([name, expect.stringContaining('Is there mud on the arm?')]);
      expect([name, /class="differs"/.test(file)]).toEqual([name, true]);
      // the step that only some of these machines have is not told as if of all
      expect([name, file]).toEqual([name, expect.stringContaining('Not all of them have this step.')]);
    }
    // who asks for one machine knows it, and who asks for one content knows all
    const one = filesOf({ language: 'en', isWanted: ({ machine }) => machine === 'tarn-40' });
    expect([...one.keys()]).toContain('tarn-40-any-arm-stuck.html');
    expect([...one.keys()].filter((name) => name.startsWith('any-'))).toEqual([]);
    const known = filesOf({
      language: 'en',
      isWanted: ({ machine, header }) => machine === 'tarn-60' && header === 'row-12x20',
    });
    expect([...known.keys()]).toEqual(['tarn-60-row-12x20-arm-stuck.html']);
  });

  it('holds the style, the faces and the pictures, and asks for nothing', () => {
    for (const [name, file] of all) {
      expect(file).toContain(`url(data:font/woff2;base64,${Buffer.from(face).toString('base64')})`);
      expect(file).toContain('fill:url(#hatch)');
      expect(file).toContain(`src="data:image/svg+xml;base64,${Buffer.from(picture).toString('base64')}"`);
      const outward = [...file.matchAll(/ (?:href|src|action|srcset)="(?!#|tel:|data:)[^"]*"/g)].map(([link]) => link);
      expect([name, outward]).toEqual([name, []]);
      expect([name, /<script|<link|<iframe|<form| on[a-z]+="| style="/.test(file)]).toEqual([name, false]);
    }
  });

  // W3C, Content Security Policy Level 3, section 8.3: the digest is over the text between the tags
  it('allows the one style that it holds, by its digest, and nothing else', () => {
    for (const file of all.values()) {
      const [, style = ''] = /<style>([\s\S]*?)<\/style>/.exec(file) ?? [];
      const [, policy = ''] = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(file) ?? [];
      const digest = createHash('sha256').update(style, 'utf8').digest('base64');
      expect(policy.split('; ').sort()).toEqual(
        [
          "base-uri 'none'",
          "default-src 'none'",
          'font-src data:',
          "form-action 'none'",
          'img-src data:',
          `style-src 'sha256-${digest}'`,
        ].sort(),
      );
      expect(file.match(/<style/g)?.length).toBe(1);
    }
  });

  it('says that it cannot find out whether it still holds, and to call first where the work can kill', () => {
    for (const file of all.values()) {
      expect(file).toMatch(/class="standing"><p>(?:This copy stands by itself|Esta copia va sola)/);
      expect(file).not.toContain('call-first');
    }
    const deadly = filesOf({ procedure: 'learn-height-range', language: 'en' });
    expect(deadly.size).toBeGreaterThan(0);
    for (const file of deadly.values())
      expect(file).toMatch(/class="call-first"><b>This work can kill\. Call <a class="phone"/);
  });

  it('is of a withdrawn procedure no more than the stop', () => {
    const files = filesOf({ procedure: 'withdrawn', language: 'en' });
    for (const file of files.values()) {
      expect(file).toContain('Withdrawn. Do not use it.');
      expect(file).not.toContain('Pull the arm');
    }
    expect(files.size).toBeGreaterThan(0);
  });

  it('keeps the words of links that lead out of it, and is valid', async () => {
    const [first = ''] = all.values();
    expect(first).toMatch(/<span>the range<\/span>/);
    const validate = new HtmlValidate({ extends: ['html-validate:standard'] });
    const { results } = await validate.validateString(first);
    expect(results.flatMap(({ messages }) => messages.map(({ ruleId, message }) => `${ruleId}: ${message}`))).toEqual(
      [],
    );
  });

  it('fails rather than leave a part out', () => {
    const page =
      '<html><head><link rel="stylesheet" href="a.css"></head><body><main id="main"><img src="x.svg" alt=""></main></body></html>';
    const notice = { html: '' };
    const files = new Map([
      ['a.html', page],
      ['a.css', ''],
    ]);
    expect(() => singleFile({ path: 'a.html', files, notice })).toThrow('x.svg cannot be put into the file');
    expect(() => singleFile({ path: 'b.html', files, notice })).toThrow('There is no page b.html');
  });
});
