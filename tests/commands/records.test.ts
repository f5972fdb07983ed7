// Records that phones sent back: taken in, refused in plain words, never lost; and what they say together.

import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { recordCsv, recordJson } from '../../site/client/job/record-file.js';
import type { JobRecord } from '../../src/model/job-record.js';
import { ground, type Made, made, set } from '../history/records/made.js';
import { filesOf } from '../rules/page.js';
import { newFolder, type Outcome, stepgauge } from './terminal.js';

const base = join(import.meta.dirname, '../books/base');
const picture = 'data:image/jpeg;base64,/9j/4AAQ';
const stem = '2026-03-02-learn-height-range-00000000000000000000000000000001';

const fleet = `units:
  - { id: unit-17, customer: Aldous Farm, machine: tarn-40, serial: 70-00317, options: none, headers: [{ header: row-12x20 }] }
`;

/** A book, and a folder that files come into. */
class Desk {
  readonly book = join(newFolder(), 'book');
  readonly inbox = newFolder();

  constructor() {
    cpSync(base, this.book, { recursive: true });
    writeFileSync(join(this.book, 'fleet.yaml'), fleet);
  }

  receive(name: string, content: string | JobRecord): string {
    const path = join(this.inbox, name);
    writeFileSync(
      path,
      typeof content === 'string' ? content : recordJson(content, new Map([['f'.repeat(32), picture]])),
    );
    return path;
  }

  import(...files: readonly string[]): Promise<Outcome> {
    return stepgauge('records', 'import', ...files, '--book', this.book);
  }

  report(...words: readonly string[]): Promise<Outcome> {
    return stepgauge('records', 'report', this.book, ...words);
  }

  kept(): readonly string[] {
    const folder = join(this.book, 'records');
    return existsSync(folder) ? readdirSync(folder).sort() : [];
  }
}

const job = (more: Partial<Made> = {}): JobRecord =>
  made({ id: 1, day: '2026-03-02', acts: set('3.41', '3.92'), ...more });

describe('records import', () => {
  it('takes a record in, its pictures beside it, and says so', async () => {
    const desk = new Desk();
    const photo = { kind: 'photo', step: '2', photo: 'f'.repeat(32), type: 'image/jpeg' } as const;
    const file = desk.receive(
      'a.json.txt',
      `\uFEFF${recordJson(job({ acts: [...set('3.41', '3.92'), photo] }), new Map([['f'.repeat(32), picture]]))}`,
    );
    const { code, out } = await desk.import(file);
    expect(out.split('\n').at(-2)).toBe('1 imported');
    expect(out).toContain('1 picture');
    expect(code).toBe(0);
    expect(desk.kept()).toEqual([`${stem}-photo-7.jpg`, `${stem}.json`]);
    expect([...readFileSync(join(desk.book, 'records', `${stem}-photo-7.jpg`))]).toEqual([255, 216, 255, 224, 0, 16]);
  });

  it('passes over what is there, also in an earlier state, and takes more of it', async () => {
    const desk = new Desk();
    const open = desk.receive('1.json', job({ acts: [ground('3.41')], open: true }));
    const closed = desk.receive('2.json', job({ acts: [ground('3.41')] }));
    const amended = desk.receive('3.json', job({ acts: [ground('3.41')], later: [{ kind: 'note', text: 'Seen.' }] }));
    const { code, out } = await desk.import(open, open, closed, amended, open, amended);
    expect(
      out
        .split('\n')
        .filter((line) => !line.startsWith(' '))
        .map((line) => line.split(/ +\/|:/)[0]),
    ).toEqual([
      'imported',
      'there already',
      'amended',
      'amended',
      'there already',
      'there already',
      '1 imported, 2 amended, 3 there already',
      '',
    ]);
    expect(code).toBe(0);
    expect(desk.kept()).toHaveLength(1);
    const kept = JSON.parse(readFileSync(join(desk.book, 'records', `${stem}.json`), 'utf8'));
    expect(kept).toEqual(job({ acts: [ground('3.41')], later: [{ kind: 'note', text: 'Seen.' }] }));
  });

  it('refuses another state of the same job, and leaves what is kept as it is', async () => {
    const desk = new Desk();
    await desk.import(desk.receive('1.json', job()));
    const before = readFileSync(join(desk.book, 'records', `${stem}.json`), 'utf8');
    const { code, out } = await desk.import(desk.receive('2.json', job({ acts: set('3.41', '3.99') })));
    expect(code).toBe(1);
    expect(out).toContain('act 5 (readings');
    expect(readFileSync(join(desk.book, 'records', `${stem}.json`), 'utf8')).toBe(before);
  });

  it('refuses in plain words what is no record of this book, and still takes the others', async () => {
    const desk = new Desk();
    const plain = JSON.parse(recordJson(job()));
    const text = (changes: object): string => JSON.stringify({ ...plain, ...changes });
    const page = (changes: object) => text({ page: { ...plain.page, ...changes } });
    const cases: readonly (readonly [string, string])[] = [
      ['', 'The file is empty'],
      [recordJson(job()).slice(0, 300), 'cut off'],
      [recordCsv(job()), 'table of a record'],
      ['Dear all,', 'no record of a job'],
      ['{"format":"something"}', 'no record of a job'],
      [text({ version: 2 }), 'later shape (2)'],
      [text({ more: 1 }), 'a key `more`'],
      [text({ state: 'half' }), 'at `state` it must be equal to one of the allowed values'],
      [text({ begun: '2026-02-30T08:00:00.000Z' }), 'at `begun` it must match format "date-time"'],
      [page({ procedure: 'other' }), 'no procedure `other`'],
      [page({ revision: 9 }), 'revision 9 of `learn-height-range`; this book has revision 3'],
      [page({ path: 'tarn-99/row-12x20/learn-height-range/' }), '`tarn-99/row-12x20/learn-height-range/`'],
      [
        recordJson(made({ id: 2, day: '2026-03-02', acts: [ground('3.9', { value: 'on_grund' })] })),
        'does not read `on_grund`',
      ],
      [
        recordJson(made({ id: 3, day: '2026-03-02', acts: [ground('3.9', { text: '39 or so' })] })),
        'is no number: `39 or so V`',
      ],
      [text({ notes: [{ order: 1, at: plain.begun, text: 'Twice.' }] }), 'Two acts stand in place 1'],
      [text({ values: [{ ...plain.values[0], asFound: 40 }] }), 'not among the readings'],
    ];
    const files = cases.map(([content], i) => desk.receive(`${String(i).padStart(2, '0')}.json`, content));
    const good = desk.receive('good.json', job({ id: 9 }));
    const { code, out } = await desk.import(...files, join(desk.inbox, 'none.json'), desk.inbox, good);
    expect(code).toBe(1);
    const blocks = out.split(/\n(?=\S)/);
    cases.forEach(([, said], i) => {
      expect([said, blocks[i]?.includes(said), blocks[i]?.includes('help: ')]).toEqual([said, true, true]);
    });
    expect(out).toContain(`1 imported, ${cases.length + 2} refused`);
    expect(desk.kept()).toHaveLength(1);
  });

  it('takes a record of an earlier revision, and says what the book reads no more', async () => {
    const desk = new Desk();
    const acts = [ground('3.9'), ground('2.5', { value: 'old_value' })];
    const { code, out } = await desk.import(
      desk.receive('a.json', job({ acts, page: { revision: 2, unit: 'unit-99' } })),
    );
    expect(code).toBe(0);
    expect(out).toContain('revision 2 read `old_value`');
    expect(out).toContain('no unit `unit-99`');
  });

  it('takes pages found wrong without a job, once', async () => {
    const desk = new Desk();
    const page = { ...job().page, rig: 'Tarn 40' };
    const list = {
      format: 'stepgauge-wrong-pages',
      version: 1,
      reports: [{ at: '2026-03-02T08:00:00.000Z', page, step: '2', text: 'The lamp is on the right.' }],
    };
    const file = desk.receive('wrong.json', JSON.stringify(list));
    expect((await desk.import(file, file)).out).toContain('1 imported, 1 there already');
    expect((await desk.report()).out).toContain('step 2: The lamp is on the right.');
    const other = { ...list, reports: [{ ...list.reports[0], page: { ...page, procedure: 'other' } }] };
    expect((await desk.import(desk.receive('other.json', JSON.stringify(other)))).code).toBe(1);
  });

  it('refuses to work on a book with errors, and a call without files', async () => {
    const desk = new Desk();
    writeFileSync(join(desk.book, 'book.yaml'), 'title: [');
    const { code, err } = await desk.import(desk.receive('a.json', job()));
    expect(code).toBe(1);
    expect(err).toContain('mend');
    expect(desk.kept()).toEqual([]);
    expect((await stepgauge('records', 'import')).code).toBe(2);
    expect((await stepgauge('records', 'import', 'x.json', '--book', '/nowhere')).code).toBe(2);
  });
});

describe('records report', () => {
  async function deskWithJobs(): Promise<Desk> {
    const desk = new Desk();
    const files = [
      job({
        page: { unit: 'unit-17' },
        acts: [{ kind: 'wrong', step: '2', text: 'Otherwise.' }, ...set('3.41', '3.92')],
      }),
      job({ id: 2, day: '2026-05-02', page: { unit: 'unit-17' }, acts: set('3.60', '3.90') }),
      job({
        id: 3,
        day: '2026-06-02',
        page: { path: 'tarn-60/row-12x20/learn-height-range/' },
        acts: [ground('3.80')],
      }),
    ].map((record, i) => desk.receive(`${i}.json`, record));
    expect((await desk.import(...files)).code).toBe(0);
    return desk;
  }

  it('tells found and left, drift and pages found wrong, with the customer for the desk alone', async () => {
    const desk = await deskWithJobs();
    const { code, out } = await desk.report();
    expect(code).toBe(0);
    expect(out).toMatchInlineSnapshot(`
      "3 jobs of 1 machine known by unit or serial, from 2026-03-02 to 2026-06-02

      Learn the header height range (learn-height-range)
        Height sensor, header on the ground: on_ground, tarn-40+row-12x20, all of unit-17 Aldous Farm
          limits in use 3.63 to 4.17 V (revision 3)
                                         readings     pass     fail   unsure    fault      min     mean      max        s
          as found                              2        0        2        0        0     3.41    3.505     3.60    0.134
          as left                               2        2        0        0        0     3.90    3.910     3.92    0.014
          too few readings to claim anything of them together
        Height sensor, header on the ground: on_ground, tarn-60+row-12x20
          limits in use 3.63 to 4.17 V (revision 3)
                                         readings     pass     fail   unsure    fault      min     mean      max        s
          as found                              1        1        0        0        0     3.80    3.800     3.80
          as left                               1        1        0        0        0     3.80    3.800     3.80
          too few readings to claim anything of them together

      Between two jobs: as left then, as found now
        unit-17 Aldous Farm: Height sensor, header on the ground, tarn-40+row-12x20, V
             left on   as left    found on  as found    change  of width   days  hours
          2026-03-02      3.92  2026-05-02      3.60     -0.32     -59 %     61         went outside

      Pages found wrong
        Learn the header height range (learn-height-range)
          step 2: Otherwise. (2026-03-02, revision 3, tarn-40/row-12x20/learn-height-range/; 2026-03-02-learn-height-range-00000000000000000000000000000001.json)

      What stands in parentheses is where the true figure lies with 95 % confidence. Below 10 readings nothing is claimed,
      below 30 no index. Faults count, and are in no mean.
      "
    `);
  });

  it('prints JSON that keeps its schema and names no customer', async () => {
    const desk = await deskWithJobs();
    const { out } = await desk.report('--format', 'json');
    const schema = JSON.parse(
      readFileSync(join(import.meta.dirname, '../../schema/records-report.schema.json'), 'utf8'),
    );
    const validate = new Ajv2020({ strict: false }).compile(schema);
    expect(validate(JSON.parse(out)), JSON.stringify(validate.errors)).toBe(true);
    expect(out).not.toContain('Aldous');
    expect(validate({ ...JSON.parse(out), more: 1 })).toBe(false);
  });

  it('chooses by machine, unit, procedure and day, and refuses names that nothing has', async () => {
    const desk = await deskWithJobs();
    const countOf = async (...words: readonly string[]): Promise<number> =>
      JSON.parse((await desk.report('--format', 'json', ...words)).out).jobs.count;
    expect(await countOf()).toBe(3);
    expect(await countOf('--machine', 'tarn-60')).toBe(1);
    expect(await countOf('--unit', 'unit-17')).toBe(2);
    expect(await countOf('--procedure', 'learn-height-range')).toBe(3);
    expect(await countOf('--since', '2026-05-02')).toBe(2);
    for (const words of [
      ['--machine', 'tarn-4'],
      ['--unit', 'unit-71'],
      ['--procedure', 'learn'],
      ['--since', '2026-02-30'],
      ['--calibrated-within', 'a year'],
    ]) {
      expect([words, (await desk.report(...words)).code]).toEqual([words, 2]);
    }
  });

  it('names a file that it cannot use, and exits with 1', async () => {
    const desk = await deskWithJobs();
    writeFileSync(join(desk.book, 'records', 'mine.json'), '{"a":1}');
    const { code, out } = await desk.report();
    expect(code).toBe(1);
    expect(out).toContain('mine.json: This is no record of a job');
    expect(out).toContain('3 jobs');
  });

  it('says that there are none', async () => {
    const { code, out } = await new Desk().report();
    expect([code, out]).toEqual([0, 'No records\n']);
  });
});

describe('a book with records', () => {
  it('is checked and built without them', async () => {
    const desk = new Desk();
    const photo = { kind: 'photo', step: '2', photo: 'f'.repeat(32), type: 'image/jpeg' } as const;
    const note = { kind: 'note', text: 'Said by Quillfeather.' } as const;
    await desk.import(desk.receive('a.json', job({ acts: [...set('3.41', '3.92'), photo, note] })));
    const [before, after] = [join(newFolder(), 'out'), join(newFolder(), 'out')];
    const today = ['--today', '2026-11-24'];
    expect((await stepgauge('build', desk.book, '--out', after, ...today)).code).toBe(0);
    const without = join(newFolder(), 'book');
    cpSync(desk.book, without, { recursive: true, filter: (path) => !path.endsWith('records') });
    expect((await stepgauge('build', without, '--out', before, ...today)).code).toBe(0);
    const built = filesOf(after);
    expect([...built.keys()]).toEqual([...filesOf(before).keys()]);
    expect([...built].filter(([, text]) => text.includes('Quillfeather') || text.includes('/9j/4AAQ'))).toEqual([]);
  });

  it('is warned of a file that would be read elsewhere', async () => {
    const desk = new Desk();
    mkdirSync(join(desk.book, 'records'));
    writeFileSync(join(desk.book, 'records', 'notes.md'), '# Notes\n');
    const { out } = await stepgauge('check', desk.book, '--only', 'unread-file', '--today', '2026-11-24');
    expect(out).toContain('`records/` holds records of jobs');
  });
});
