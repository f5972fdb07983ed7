// How to tell which machine, header and software one has before oneself: by text and by picture.

import { beforeAll, describe, expect, it } from 'vitest';
import { emitSite } from '../../src/emit/pages/site.js';
import { demoBook, filesOfBook } from './books.js';

describe('telling apart', () => {
  let files: ReadonlyMap<string, string | Uint8Array>;
  const page = (path: string): string => String(files.get(path) ?? '');
  const tellings = (path: string): readonly string[] =>
    (/<ul class="tells">([\s\S]*?)<\/ul>/.exec(page(path))?.[1] ?? '').split('<li>').slice(1);

  beforeAll(() => {
    const { resolved, proofs } = demoBook();
    files = emitSite(resolved, {
      proofs,
      figures: filesOfBook('procedures').figures,
      assets: new Map(),
      cards: [],
      drafts: false,
      rules: [],
    });
  });

  it('shows for each header its words and a picture: the one of the book, or what its numbers draw', () => {
    for (const path of ['tarn-40/index.html', 'es/tarn-40/index.html']) {
      const told = tellings(path);
      expect(told.length).toBeGreaterThan(1);
      for (const one of told) {
        expect(one).toContain('class="tell"');
        expect(one).toMatch(/<svg|<img/);
      }
    }
    expect(tellings('tarn-40/index.html').join('')).toContain('12 rows');
  });

  it('says where the version of the software is read, wherever it is asked', () => {
    const words = 'beside its clock';
    const choosing = page('tarn-40/row-12x20/learn-height-range/index.html');
    expect(choosing).toContain('Software of the display:');
    expect(choosing).toContain(words);
    expect(page('es/tarn-40/row-12x20/learn-height-range/index.html')).toContain('junto al reloj');
    expect(page('tarn-40/row-12x20/rig.html')).toContain(words);
  });
});
