// Cards as they are issued, and the list of those to reprint, as a desk calls for them. Needs `npm run build` before.

import { cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { filesOf } from '../rules/page.js';
import { newFolder, type Outcome, stepgauge } from './terminal.js';

const base = join(import.meta.dirname, '../books/base');
const learn = 'sensors/learn-height-range.md';
const today = ['--today', '2026-11-24'];

const fleet = `units:
  - { id: unit-17, customer: Larch Hollow, machine: tarn-40, serial: 70-00317, options: none, headers: [row-12x20] }
  - { id: unit-26, customer: Fennick Acres, machine: tarn-60, headers: [row-12x20] }
`;

/** A book of its own, and what is done with it. */
class Desk {
  readonly book = join(newFolder(), 'book');
  readonly out = join(newFolder(), 'cards');

  constructor() {
    cpSync(base, this.book, { recursive: true });
    writeFileSync(join(this.book, 'fleet.yaml'), fleet);
  }

  read(path: string): string {
    return readFileSync(join(this.book, path), 'utf8');
  }

  edit(path: string, from: string, to: string): void {
    const text = this.read(path);
    if (!text.includes(from)) throw new Error(`${path} has no ${from}`);
    writeFileSync(join(this.book, path), text.replace(from, to));
  }

  issue(to: string, ...words: readonly string[]): Promise<Outcome> {
    return stepgauge('cards', this.book, '--out', this.out, '--issue', to, ...words, ...today);
  }

  reprint(...words: readonly string[]): Promise<Outcome> {
    return stepgauge('reprint', this.book, ...words, ...today);
  }
}

describe('cards --issue', () => {
  it('enters what it prints, and says what no release holds', async () => {
    const desk = new Desk();
    const { code, err } = await desk.issue('Larch Hollow cab', '--unit', 'unit-17');
    expect(code).toBe(0);
    expect(err).toContain('1 card is entered in issued.yaml as issued to Larch Hollow cab');
    expect(err).toContain('1 of them in no release');
    const register = desk.read('issued.yaml');
    expect(register.match(/^ {2}- /gm)).toHaveLength(1);
    expect(register).toMatch(
      /procedure: learn-height-range, revision: 3, language: "en", rigs: \["tarn-40\+row-12x20.*"\], printed: \S+, content: \S+, unit: "unit-17", for: "Larch Hollow cab", on: 2026-11-24 }/,
    );
    expect([...filesOf(desk.out).keys()].filter((path) => path.endsWith('.pdf'))).toHaveLength(1);
    expect((await stepgauge('check', desk.book, ...today)).code).toBe(0);
    await stepgauge('release', desk.book, '--name', 'autumn', ...today);
    expect((await desk.issue('Shop wall')).err).not.toContain('no release');
    expect(desk.read('issued.yaml').startsWith(register)).toBe(true);
  });

  it('prints and enters nothing where the register cannot take it, the card is of a draft, or nobody is named', async () => {
    const desk = new Desk();
    expect((await desk.issue('  ')).code).toBe(2);
    await desk.issue('Shop wall', '--machine', 'tarn-40');
    const line = desk.read('issued.yaml').split('\n').at(-2)?.replace(/^ *- /, '');
    const flow = `cards: [${line}]\n`;
    writeFileSync(join(desk.book, 'issued.yaml'), flow);
    const before = [...filesOf(desk.out)];
    const { code, err } = await desk.issue('Shop wall');
    expect([code, err.includes('one card a line')]).toEqual([2, true]);
    desk.edit(learn, 'status: released', 'status: draft');
    writeFileSync(join(desk.book, 'issued.yaml'), '# none\n');
    expect((await desk.issue('Shop wall')).code).toBe(2);
    expect(desk.read('issued.yaml')).toBe('# none\n');
    expect([...filesOf(desk.out)]).toEqual(before);
    for (const words of [
      ['--procedure', 'learn'],
      ['--language', 'fr'],
      ['--unit', 'unit-71'],
    ]) {
      expect([words, (await desk.issue('Shop wall', ...words)).code]).toEqual([words, 2]);
    }
  });
});

describe('reprint', () => {
  it('exits with 0 while every card holds, and says so', async () => {
    const desk = new Desk();
    expect(await desk.reprint()).toMatchObject({ code: 0, out: expect.stringContaining('No card was issued') });
    await desk.issue('Cab', '--unit', 'unit-17');
    const { code, out } = await desk.reprint();
    expect([code, out]).toEqual([0, 'None of 1 issued card is out of date\n\nRight as they are: 1\n']);
  });

  it('says which cards, for whom and because of which change, and exits with 1', async () => {
    const desk = new Desk();
    await stepgauge('release', desk.book, '--name', 'autumn', ...today);
    await desk.issue('Cab', '--unit', 'unit-17');
    await desk.issue('Cab', '--unit', 'unit-26');
    desk.edit(learn, 'tarn-40: 0.9 ± 0.2 V', 'tarn-40: 0.9 ± 0.15 V');
    desk.edit(learn, 'revision: 3', 'revision: 4');
    const { code, out } = await desk.reprint();
    expect(code).toBe(1);
    expect(out.replace(/[A-Z0-9]{3} [A-Z0-9]{3}(?= {2})/g, 'CODE 00')).toMatchInlineSnapshot(`
      "1 of 2 issued cards is out of date

      Something on them is otherwise now:
        CODE 00  Learn the header height range (learn-height-range), revision 3, now 4, en
                 for unit-17, Larch Hollow, Cab, issued 2026-11-24; tarn-40+row-12x20
          Since the release autumn:
          Technical
            Value “Height sensor, header fully raised”, limits:
              - 0.73 to 1.07 V in use (book limits 0.7 to 1.1 V)
              + 0.78 to 1.02 V in use (book limits 0.75 to 1.05 V)

      Still right, though the revision on them is old:
        CODE 00  Learn the header height range (learn-height-range), revision 3, now 4, en
                 for unit-26, Fennick Acres, Cab, issued 2026-11-24; tarn-60+row-12x20
      "
    `);
    expect((await desk.reprint('--unit', 'unit-26')).code).toBe(0);
    expect((await desk.reprint('--unit', 'unit-17')).code).toBe(1);
    expect((await desk.reprint('--unit', 'unit-71')).code).toBe(2);
  });

  it('prints JSON that keeps its schema', async () => {
    const desk = new Desk();
    await stepgauge('release', desk.book, '--name', 'autumn', ...today);
    await desk.issue('Cab', '--unit', 'unit-17');
    await desk.issue('Wall', '--machine', 'tarn-60');
    desk.edit('safety.yaml', 'Let nobody near it', 'Let nobody stand near it');
    desk.edit('fleet.yaml', 'unit-17', 'unit-18');
    const { code, out } = await desk.reprint('--format', 'json');
    expect(code).toBe(1);
    const schema = (name: string): object =>
      JSON.parse(readFileSync(join(import.meta.dirname, '../../schema', `${name}.schema.json`), 'utf8'));
    const ajv = new Ajv2020({ strict: false });
    ajv.addSchema(schema('comparison'));
    const validate = ajv.compile(schema('reprint'));
    expect(validate(JSON.parse(out)), JSON.stringify(validate.errors)).toBe(true);
    expect(JSON.parse(out)).toMatchObject({
      outOfDate: 2,
      cards: [{ unitGone: true, since: { changes: [{ weight: 'safety' }] } }, {}],
    });
  });

  it('looks at nothing in a book with errors', async () => {
    const desk = new Desk();
    await desk.issue('Cab', '--unit', 'unit-17');
    desk.edit('issued.yaml', 'on: 2026-11-24', 'on: 2026-11-31');
    const { code, err } = await desk.reprint();
    expect(code).toBe(1);
    expect(err).toContain('`2026-11-31` is no day');
  });
});

describe('the page about issued cards', () => {
  it('is there once a card was issued, with the unit, and names customer and place only where the book says so', async () => {
    const desk = new Desk();
    const built = async (): Promise<ReadonlyMap<string, string>> => {
      const out = join(newFolder(), 'out');
      expect((await stepgauge('build', desk.book, '--out', out, ...today)).code).toBe(0);
      return filesOf(out);
    };
    expect((await built()).has('staff/issued.html')).toBe(false);
    await desk.issue('The red shed', '--unit', 'unit-17');
    desk.edit('safety.yaml', 'Let nobody near it', 'Let nobody stand near it');
    const files = await built();
    const page = files.get('staff/issued.html') ?? '';
    expect(page).toContain('Out of date: 1 of 1 issued cards.');
    expect(page).toContain('unit-17');
    expect(files.get('staff/index.html')).toContain('issued.html');
    expect([...files].filter(([, text]) => /red shed|Larch/.test(text)).map(([path]) => path)).toEqual([]);
    desk.edit('book.yaml', 'units: us', 'units: us\nshow-customers: true');
    const shown = (await built()).get('staff/issued.html') ?? '';
    expect(shown).toContain('unit-17, Larch Hollow, The red shed');
    expect(existsSync(join(desk.book, 'issued.yaml'))).toBe(true);
  });
});
