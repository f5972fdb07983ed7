// `release` and `compare` as a person calls them: what they write and print, what they refuse, and how they exit.

import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import type { SetList } from '../../src/emit/offline/shapes.js';
import { readRelease } from '../../src/history/release.js';
import { newFolder, stepgauge } from './terminal.js';

const root = join(import.meta.dirname, '../..');
const today = ['--today', '2026-11-24'];
const learn = 'sensors/learn-height-range.md';

function copyOfBase(): string {
  const folder = join(newFolder(), 'book');
  cpSync(join(root, 'tests/books/base'), folder, { recursive: true });
  return folder;
}

function change(folder: string, path: string, from: string, to: string): void {
  const text = readFileSync(join(folder, path), 'utf8');
  if (!text.includes(from)) throw new Error(`${path} has no ${from}`);
  writeFileSync(join(folder, path), text.replace(from, to));
}

function validatorOf(file: string) {
  const schema = JSON.parse(readFileSync(join(root, 'schema', file), 'utf8'));
  return new Ajv2020({ strict: false, allErrors: true }).compile(schema);
}

describe('release', () => {
  it('writes one file that keeps its schema, named by the date, and the same bytes again', async () => {
    const folder = copyOfBase();
    const { code, err } = await stepgauge('release', folder, ...today);
    expect(err).toContain('Released 1 procedure as');
    expect(code).toBe(0);
    const text = readFileSync(join(folder, 'releases/2026-11-24.json'), 'utf8');
    const validate = validatorOf('release.schema.json');
    expect([validate(JSON.parse(text)), validate.errors]).toEqual([true, null]);
    expect(JSON.parse(text)).toMatchObject({ name: '2026-11-24', date: '2026-11-24' });
    const other = copyOfBase();
    await stepgauge('release', other, ...today);
    expect(readFileSync(join(other, 'releases/2026-11-24.json'), 'utf8')).toBe(text);
  });

  it('never writes over a release, and says what to do', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, ...today);
    const before = readFileSync(join(folder, 'releases/2026-11-24.json'), 'utf8');
    change(folder, learn, 'revision: 3', 'revision: 4');
    const again = await stepgauge('release', folder, ...today);
    expect(again.code).toBe(2);
    expect(again.err).toContain('is there already, and a release is never written over: name this one with `--name`');
    expect(readFileSync(join(folder, 'releases/2026-11-24.json'), 'utf8')).toBe(before);
    expect((await stepgauge('release', folder, '--name', 'second', ...today)).code).toBe(0);
    expect(readdirSync(join(folder, 'releases'))).toEqual(['2026-11-24.json', 'second.json']);
  });

  it('writes nothing for a book with errors, and exits with 1; with warnings under --strict too', async () => {
    const folder = copyOfBase();
    change(folder, learn, 'limits: 2.6 to 3.4 V', 'limits: 3.4 to 2.6 V');
    const { code, out, err } = await stepgauge('release', folder, ...today);
    expect(code).toBe(1);
    expect(out).toContain('learn-height-range.md:51');
    expect(err).toContain('Nothing was released.');
    expect(existsSync(join(folder, 'releases'))).toBe(false);
    const warned = copyOfBase();
    writeFileSync(join(warned, 'notes.yml'), 'a: b\n');
    expect((await stepgauge('release', warned, '--strict', ...today)).code).toBe(1);
    expect((await stepgauge('release', warned, ...today)).code).toBe(0);
  });

  it('refuses names that are no file names everywhere', async () => {
    const folder = copyOfBase();
    for (const name of ['../out', 'Spring', 'two words', '.hidden']) {
      const { code, err } = await stepgauge('release', folder, '--name', name, ...today);
      expect([name, code]).toEqual([name, 2]);
      expect(err).toContain('expected small letters');
    }
    expect(existsSync(join(folder, 'releases'))).toBe(false);
  });

  it('is no part of the book afterwards', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, ...today);
    const { code, out } = await stepgauge('check', folder, '--strict', ...today);
    expect(code).toBe(0);
    expect(out).not.toContain('releases');
    writeFileSync(join(folder, 'releases/learn-height-range.md'), readFileSync(join(folder, learn)));
    const stray = await stepgauge('check', folder, '--format', 'json', ...today);
    const warnings = JSON.parse(stray.out).filter(({ severity }: { severity: string }) => severity !== 'hint');
    expect(warnings).toMatchObject([
      { code: 'unread-file', severity: 'warning', file: 'releases/learn-height-range.md' },
    ]);
  });
});

describe('compare', () => {
  it('says plainly that nothing changed, and exits with 0', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, '--name', 'spring', ...today);
    const { code, out } = await stepgauge('compare', join(folder, 'releases/spring.json'), folder, ...today);
    expect(code).toBe(0);
    expect(out).toBe(`From the release spring (24\u00a0Nov\u00a02026) to the book in ${folder}\n\nNothing changed.\n`);
  });

  it('groups what changed by procedure, safety first, and says when a revision did not go up', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, ...today);
    change(folder, learn, 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.6 to 1.0 V');
    change(folder, learn, 'is out., throughout: true }', 'is out. }');
    change(folder, 'safety.yaml', 'Let nobody near it', 'Let nobody stand near it');
    const { code, out } = await stepgauge('compare', join(folder, 'releases/2026-11-24.json'), folder, ...today);
    expect(code).toBe(0);
    expect(`${out.replaceAll(folder, 'BOOK').replaceAll('\u00a0', ' ')}`).toMatchInlineSnapshot(`
      "From the release 2026-11-24 to the book in BOOK

      In the whole book
        Safety
          Caution “The header moves without warning.”, how to avoid it:
            - Let nobody near it while the engine runs.
            + Let nobody stand near it while the engine runs.
            On cards whose revision did not go up: learn-height-range

      Learn the header height range (learn-height-range), revision 3
        ! It changed and its revision did not go up: printed cards look current.
        Safety
          Condition “Automatic height”, throughout: gone: throughout
        Technical
          Value “Height sensor, header fully raised”, limits [tarn-60]:
            - 0.73 to 0.97 V in use (book limits 0.7 to 1.0 V)
            + 0.63 to 0.97 V in use (book limits 0.6 to 1.0 V)
      "
    `);
  });

  it('prints JSON that keeps its schema', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, ...today);
    change(folder, learn, 'hold: 2 to 3 s', 'hold: 2 to 4 s');
    change(folder, 'safety.yaml', 'severity: may-kill', 'severity: may-injure');
    const { out } = await stepgauge('compare', join(folder, 'releases/2026-11-24.json'), folder, '--format', 'json');
    const data = JSON.parse(out);
    const validate = validatorOf('comparison.schema.json');
    expect([validate(data), validate.errors]).toEqual([true, null]);
    expect(data).toMatchObject({
      same: false,
      old: { what: 'release', name: '2026-11-24', date: '2026-11-24' },
      new: { what: 'book', name: folder },
      shared: [{ about: 'severity', weight: 'safety', subject: { kind: 'hazard', id: 'moving-header' } }],
      procedures: [
        {
          id: 'learn-height-range',
          alert: 'kept',
          revision: { before: 3, after: 3 },
          changes: [{ about: 'hold', how: 'changed', before: { en: '2 to 3\u00a0s' }, after: { en: '2 to 4\u00a0s' } }],
        },
      ],
    });
  });

  it('takes a book, the folder of a built site and its data as well, and gives the same', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, ...today);
    const built = join(newFolder(), 'site');
    expect((await stepgauge('build', folder, '--out', built, ...today)).code).toBe(0);
    const release = join(folder, 'releases/2026-11-24.json');
    for (const other of [folder, built, join(built, 'data/book.json')]) {
      expect((await stepgauge('compare', release, other, ...today)).out).toContain('Nothing changed.');
      expect((await stepgauge('compare', other, release, ...today)).out).toContain('Nothing changed.');
    }
  });

  it('lets a phone that keeps the machine say stop to a card of the release that the book prints no more', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, ...today);
    change(folder, learn, 'machine: [tarn-40, tarn-60]', 'machine: [tarn-40]');
    change(folder, learn, ', tarn-60: 0.7 to 1.0 V', '');
    const built = join(newFolder(), 'site');
    expect((await stepgauge('build', folder, '--out', built, ...today)).code).toBe(0);
    const read = readRelease(readFileSync(join(folder, 'releases/2026-11-24.json'), 'utf8'));
    const cards = read.ok ? read.release.book.variants.flatMap((variant) => variant.cards) : [];
    const path = `c/${cards.find(({ machine }) => machine === 'tarn-60')?.code.toLowerCase()}/index.html`;
    expect(readFileSync(join(built, path), 'utf8')).toContain('Do not work by the card');
    const list = JSON.parse(readFileSync(join(built, 'tarn-60/row-12x20/offline.json'), 'utf8')) as SetList;
    expect(list.files.map(([name]) => name)).toContain(path);
  });

  it('exits with 1 where a book has errors, and shows them', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, ...today);
    change(folder, learn, 'limits: 2.6 to 3.4 V', 'limits: 3.4 to 2.6 V');
    const { code, out, err } = await stepgauge('compare', join(folder, 'releases/2026-11-24.json'), folder, ...today);
    expect(code).toBe(1);
    expect(out).toBe('');
    expect(err).toContain('Nothing was compared: mend');
  });

  it('exits with 2 for what is no release, with the way out', async () => {
    const folder = copyOfBase();
    await stepgauge('release', folder, ...today);
    const release = join(folder, 'releases/2026-11-24.json');
    const text = readFileSync(release, 'utf8');
    mkdirSync(join(folder, 'other'));
    writeFileSync(join(folder, 'other/changed.json'), text.replace('3.6', '3.7'));
    writeFileSync(join(folder, 'other/old.json'), '{"format": "stepgauge-book", "version": 1}');
    writeFileSync(join(folder, 'other/half.json'), '{"format": "stepgauge-book", ');
    const refused: readonly (readonly [string, RegExp])[] = [
      ['no-such-release', /is no file, no folder and no release: /],
      [join(folder, 'book.yaml'), /is neither a release nor the data of a built site: name a file of `releases\/`/],
      [join(folder, 'other/changed.json'), /was changed after it was released/],
      [join(folder, 'other/old.json'), /is no compiled book of this version .*build or release it again/],
      [join(folder, 'other/half.json'), /is no whole JSON/],
      [join(folder, 'sensors'), /is no book: it has no `book.yaml`/],
    ];
    for (const [word, message] of refused) {
      const { code, err } = await stepgauge('compare', word, release, ...today);
      expect([word, code]).toEqual([word, 2]);
      expect(err).toMatch(message);
    }
  });
});
