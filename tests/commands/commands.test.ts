// The commands as a person calls them: what they print, what they write, how they exit. Needs `npm run build` before.

import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { filesOf } from '../rules/page.js';
import { newFolder, stepgauge } from './terminal.js';

const base = join(import.meta.dirname, '../books/base');
const today = ['--today', '2026-11-24'];

function copyOfBase(): string {
  const folder = join(newFolder(), 'book');
  cpSync(base, folder, { recursive: true });
  return folder;
}

function change(folder: string, path: string, from: string, to: string): void {
  const text = readFileSync(join(folder, path), 'utf8');
  if (!text.includes(from)) throw new Error(`${path} has no ${from}`);
  writeFileSync(join(folder, path), text.replace(from, to));
}

describe('check', () => {
  it('says that a clean book is clean, and exits with 0', async () => {
    const { code, out, err } = await stepgauge('check', base, ...today);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out.trim().split('\n').at(-1)).toMatch(/no errors/i);
  });

  it('exits with 1 on an error and shows its line', async () => {
    const folder = copyOfBase();
    change(folder, 'sensors/learn-height-range.md', 'limits: 2.6 to 3.4 V', 'limits: 3.4 to 2.6 V');
    const { code, out } = await stepgauge('check', folder, ...today);
    expect(code).toBe(1);
    expect(out).toContain('sensors/learn-height-range.md:51:13');
    expect(out).toContain('limits: 3.4 to 2.6 V');
  });

  it('prints JSON of the shape that is agreed', async () => {
    const folder = copyOfBase();
    change(folder, 'sensors/learn-height-range.md', 'limits: 2.6 to 3.4 V', 'limits: 3.4 to 2.6 V');
    const { out } = await stepgauge('check', folder, '--format', 'json', ...today);
    const errors = JSON.parse(out).filter(({ severity }: { severity: string }) => severity === 'error');
    expect(errors).toHaveLength(1);
    expect(errors[0]).toMatchObject({
      file: 'sensors/learn-height-range.md',
      line: 51,
      column: 13,
      endLine: 51,
      rigs: [],
    });
    expect(Object.keys(errors[0])).toEqual(
      expect.arrayContaining([
        'code',
        'severity',
        'message',
        'file',
        'line',
        'column',
        'endLine',
        'endColumn',
        'rigs',
        'related',
        'help',
      ]),
    );
  });

  it('prints SARIF that keeps its schema, with the path through the steps as a code flow', async () => {
    const folder = copyOfBase();
    const page = 'sensors/learn-height-range.md';
    change(
      folder,
      page,
      '  - id: read-on-ground\n',
      '  - id: turn\n    at: under-header\n    do: Look at it.\n  - id: read-on-ground\n',
    );
    const { out } = await stepgauge('check', folder, '--format', 'sarif', '--only', 'safety-rule-broken', ...today);
    const log = JSON.parse(out);
    const schema = JSON.parse(readFileSync(join(base, '../../diagnostic/sarif-2.1.0.schema.json'), 'utf8'));
    const validate = new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false }).compile(schema);
    expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
    const [result] = log.runs[0].results;
    const said = (locations: { message: { text: string } }[]) => locations.map(({ message }) => message.text);
    expect(said(result.relatedLocations)).toEqual([
      'step 1 `lower`: sets `header: on-ground`',
      'step 2 `turn`: the person goes to `under-header`',
      'the rule `under-the-header`',
    ]);
    const steps = result.codeFlows[0].threadFlows[0].locations.map(({ location }: { location: unknown }) => location);
    expect(said(steps)).toEqual([...said(result.relatedLocations).slice(0, 2), expect.stringContaining('is broken')]);
  });

  it('lets a warning pass, but not under --strict or --max-warnings 0', async () => {
    const folder = copyOfBase();
    change(folder, 'sensors/learn-height-range.md', 'next: 2027-08-01', 'next: 2026-10-01');
    expect((await stepgauge('check', folder, ...today)).code).toBe(0);
    expect((await stepgauge('check', folder, '--strict', ...today)).code).toBe(1);
    expect((await stepgauge('check', folder, '--max-warnings', '0', ...today)).code).toBe(1);
  });

  it('lists what is waived with the reason, and reports a waiver that covers nothing', async () => {
    const folder = copyOfBase();
    const file = 'sensors/learn-height-range.md';
    const waiver = '    waive: [{ code: vague-word, because: The label reads so. }]';
    change(
      folder,
      file,
      '    do: Leave automatic height off.',
      `    do: Leave automatic height properly off.\n${waiver}`,
    );
    const waived = await stepgauge('check', folder, '--waived', ...today);
    expect(waived.code).toBe(0);
    expect(waived.out).toContain('[vague-word]');
    expect(waived.out).toContain('waived here: The label reads so.');
    expect(waived.out.trim().split('\n').at(-1)).toMatch(/^1 warning waived; besides these no errors/);
    expect((await stepgauge('check', folder, '--strict', ...today)).code).toBe(0);
    change(folder, file, ' properly off.', ' off.');
    const unneeded = await stepgauge('check', folder, '--only', 'unneeded-waiver', ...today);
    expect([unneeded.code, unneeded.out.match(/\[unneeded-waiver\]/g)?.length]).toEqual([0, 1]);
  });

  it('says with --only what counts besides, since that decides the exit code', async () => {
    const folder = copyOfBase();
    change(folder, 'sensors/learn-height-range.md', 'next: 2027-08-01', 'next: 2026-10-01');
    const { code, out } = await stepgauge('check', folder, '--strict', '--only', 'long-sentence', ...today);
    expect([code, out.trim()]).toEqual([
      1,
      expect.stringMatching(/^none of `long-sentence`; in all no errors, 1 warning/),
    ]);
  });

  it('refuses a call that makes no sense with 2 and one sentence', async () => {
    for (const words of [
      ['check', '/nowhere/at/all'],
      ['check', base, '--today', '2026-13-01'],
      ['check', base, '--format', 'xml'],
      ['check', base, '--only', 'no-such-code'],
      ['check', base, '--max-warnings', 'some'],
      ['biuld'],
      ['explain', 'unused-valeu'],
    ]) {
      const { code, err } = await stepgauge(...words);
      expect([words, code]).toEqual([words, 2]);
      expect(err).not.toMatch(/\bat .*\.ts:\d+/);
      expect(err.length).toBeGreaterThan(10);
    }
  });

  it('never shows the insides of the program for a bad folder', async () => {
    const folder = newFolder();
    mkdirSync(join(folder, 'book'));
    for (const [path, bytes] of [
      ['book.yaml', 'title: [\n'],
      ['empty.md', ''],
      ['latin.md', Buffer.from([0x2d, 0x2d, 0x2d, 0x0a, 0xe9, 0x0a])],
      ['open.md', '---\ntitle: never closed\n'],
      ['plain.md', 'no front matter\n'],
      ['bomb.yaml', `a: &a [x,x]\n${Array.from({ length: 20 }, (_, i) => `b${i}: &b${i} [*a,*a]`).join('\n')}`],
    ] as const) {
      writeFileSync(join(folder, 'book', path), bytes);
    }
    symlinkSync('.', join(folder, 'book/loop'));
    const { code, out, err } = await stepgauge('check', join(folder, 'book'), ...today);
    expect(code).toBe(1);
    expect(out + err).not.toMatch(/\bat .*\.ts:\d+|undefined|NaN/);
    for (const name of ['empty.md', 'latin.md', 'open.md', 'plain.md', 'loop']) expect(out).toContain(name);
  });
});

describe('build', () => {
  it('writes the site, the cards and the open book, the same each time', async () => {
    const [first, second] = [join(newFolder(), 'out'), join(newFolder(), 'out')];
    expect((await stepgauge('build', base, '--out', first, ...today)).code).toBe(0);
    expect((await stepgauge('build', base, '--out', second, ...today)).code).toBe(0);
    const files = filesOf(first);
    expect([...files.keys()]).toEqual(expect.arrayContaining(['index.html', 'data/book.json']));
    expect([...files.keys()].filter((path) => path.endsWith('.pdf')).length).toBeGreaterThan(1);
    expect(filesOf(second)).toEqual(files);
  });

  it('leaves the old output as it was where the book has an error', async () => {
    const folder = copyOfBase();
    const out = join(newFolder(), 'out');
    expect((await stepgauge('build', folder, '--out', out, ...today)).code).toBe(0);
    const before = filesOf(out);
    change(folder, 'headers/row-12x20.yaml', 'working_width: 20 ft', 'working_width: 20 lb');
    const { code, err } = await stepgauge('build', folder, '--out', out, ...today);
    expect(code).toBe(1);
    expect(err).toContain('Nothing was built');
    expect(filesOf(out)).toEqual(before);
  });

  it('does not write over a folder that is not its own', async () => {
    const out = newFolder();
    writeFileSync(join(out, 'letter.txt'), 'mine');
    const { code } = await stepgauge('build', base, '--out', out, ...today);
    expect(code).toBe(2);
    expect(readdirSync(out)).toEqual(['letter.txt']);
  });
});

describe('cards', () => {
  it('writes the cards of one machine', async () => {
    const out = join(newFolder(), 'cards');
    expect((await stepgauge('cards', base, '--machine', 'tarn-60', '--out', out, ...today)).code).toBe(0);
    expect(
      [...filesOf(out).keys()].filter((path) => path.endsWith('.pdf')).every((path) => path.startsWith('tarn-60/')),
    ).toBe(true);
  });

  it('asks whether another machine was meant', async () => {
    const { code, err } = await stepgauge(
      'cards',
      base,
      '--machine',
      'tarn-06',
      '--out',
      join(newFolder(), 'x'),
      ...today,
    );
    expect(code).toBe(2);
    expect(err).toContain('`tarn-60`');
  });
});

describe('export', () => {
  it('writes a procedure as single files, for one rig with the code that its page has on the site', async () => {
    const [out, site] = [join(newFolder(), 'stick'), join(newFolder(), 'site')];
    const rig = ['--rig', 'tarn-40+row-12x20', '--language', 'en'];
    const { code, err } = await stepgauge('export', 'learn-height-range', base, ...rig, '--out', out, ...today);
    expect([code, err]).toEqual([0, `1 file is in ${out}\n`]);
    await stepgauge('build', base, '--out', site, ...today);
    const codeIn = (path: string): string => /<b class="code">([^<]+)/.exec(readFileSync(path, 'utf8'))?.[1] ?? '';
    const copy = codeIn(join(out, 'tarn-40-row-12x20-learn-height-range.html'));
    expect(copy).toMatch(/^\w{3}\u00a0\w{3}$/);
    expect(copy).toBe(codeIn(join(site, 'tarn-40/row-12x20/learn-height-range/index.html')));
  });

  it('says what is not there', async () => {
    const ask = async (...words: readonly string[]): Promise<string> => {
      const { code, err } = await stepgauge('export', ...words, '--out', join(newFolder(), 'x'), ...today);
      expect(code).toBe(2);
      return err;
    };
    expect(await ask('learn-height-rang', base)).toContain('did you mean `learn-height-range`?');
    expect(await ask('learn-height-range', base, '--rig', 'tarn-41')).toContain('Did you mean `tarn-40`');
    expect(await ask('learn-height-range', base, '--language', 'es')).toContain('The book has no language `es`');
    expect(await ask('learn-height-range', base, '--rig', 'tarn-40+platform-30')).toContain('There is no page of');
  });
});

describe('new', () => {
  it('makes a book that is clean, builds, and has its schemas beside it', async () => {
    const folder = join(newFolder(), 'mybook');
    expect((await stepgauge('new', 'book', folder)).code).toBe(0);
    expect((await stepgauge('check', folder, '--strict', ...today)).code).toBe(0);
    expect((await stepgauge('build', folder, '--out', join(newFolder(), 'out'), ...today)).code).toBe(0);
    for (const [path, text] of [...filesOf(folder)].filter(([name]) => /^(?!schema).*\.yaml$/.test(name))) {
      const reference = /\$schema=(\S+)/.exec(text)?.[1] ?? '';
      expect([path, existsSync(join(folder, path, '..', reference))]).toEqual([path, true]);
    }
  });

  it('writes over nothing', async () => {
    const folder = join(newFolder(), 'mybook');
    await stepgauge('new', 'book', folder);
    expect((await stepgauge('new', 'book', folder)).code).toBe(2);
  });

  it('says how an id is written', async () => {
    const { code, err } = await stepgauge('new', 'machine', 'Tarn 40');
    expect(code).toBe(2);
    expect(err).toContain('`tarn-40`');
  });
});

describe('explain', () => {
  it('prints the page of a code, and without one the list of all', async () => {
    const page = await stepgauge('explain', 'unused-value');
    expect(page.code).toBe(0);
    expect(page.out).toMatch(/^# unused-value\n/);
    const list = await stepgauge('explain');
    expect(list.out).toMatch(/^unused-value +warning +\S/m);
  });
});

describe('help', () => {
  it('is there for each command, with 0', async () => {
    for (const command of ['check', 'build', 'serve', 'cards', 'export', 'new', 'explain', 'calc']) {
      const { code, out } = await stepgauge(command, '--help');
      expect([command, code]).toEqual([command, 0]);
      expect(out).toContain(`stepgauge ${command}`);
    }
  });
});

describe('calc', () => {
  it('works out a width from rows', async () => {
    const { code, out } = await stepgauge('calc', '12 * 20 in', '--to', 'ft', '--format', 'json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toEqual({ value: 20, low: 20, high: 20, unit: 'ft' });
  });

  it('is sharp where a name stands twice', async () => {
    const { out } = await stepgauge('calc', 'x * (1 - x)', '--let', 'x=0 to 1', '--format', 'json');
    expect(JSON.parse(out)).toEqual({ value: null, low: 0, high: 0.25, unit: '' });
  });

  it('exits with 1 for an expression that makes no sense', async () => {
    expect((await stepgauge('calc', '3 ft + 2 V')).code).toBe(1);
  });
});
