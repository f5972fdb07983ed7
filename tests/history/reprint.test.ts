// Which issued cards still hold, and why others do not: each kind of edit gives the card its state.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineOf, sayChange } from '../../src/emit/changes/say-change.js';
import { voiceFor } from '../../src/emit/voice.js';
import type { IssueFinding } from '../../src/model/reprint.js';
import type { Rig } from '../../src/model/resolved.js';
import { readRigLabel, rigLabel } from '../../src/model/rig.js';
import { filesOfBook } from '../emit-pages/books.js';
import type { Edit } from './books.js';
import { afterIssue, fleet, type Issue, issuedIn, release, reprintIn, withEdits } from './issued.js';

const learn = 'sensors/learn-height-range.md';
const raise: Edit = [learn, 'revision: 3', 'revision: 4'];
const limit: Edit = [learn, 'tarn-40: 0.9 ± 0.2 V', 'tarn-40: 0.9 ± 0.15 V'];
const caution: Edit = ['safety.yaml', 'Let nobody near it', 'Let nobody stand near it'];

function one(edits: readonly Edit[], issue: Issue = {}, before: readonly Edit[] = []): IssueFinding {
  const { cards } = reprintIn(afterIssue(before, edits, issue), [release('spring', '2026-03-01', before)]);
  expect(cards).toHaveLength(1);
  return cards[0]!;
}

function changesOf({ since }: IssueFinding): readonly string[] {
  return (since?.changes ?? []).map((change) =>
    lineOf(sayChange(change, voiceFor('en', 'en'))).replaceAll('\u00a0', ' '),
  );
}

describe('an issued card', () => {
  it('is right while nothing on it changes, whatever else does', () => {
    expect(one([])).toMatchObject({
      state: 'right',
      revision: 3,
      revisionNow: 3,
      place: 'Shop wall',
      on: '2026-09-10',
    });
    const beside: readonly Edit[] = [
      [learn, '## Why the range is learned', '## Why the range has to be learned'],
      [learn, 'reviewed: { on: 2026-09-02', 'reviewed: { on: 2026-09-03'],
      [learn, 'summary: Stores what', 'summary: Keeps what'],
      [learn, 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.7 to 0.95 V'],
    ];
    for (const edit of beside) expect([edit, one([edit]).state]).toEqual([edit, 'right']);
  });

  it('is still right where the revision alone went up', () => {
    expect(one([raise])).toMatchObject({ state: 'old-revision', revision: 3, revisionNow: 4 });
    expect(reprintIn(afterIssue([], [raise])).outOfDate).toBe(0);
  });

  it('is out of date by any limit, step, wait, caution, telephone number and condition that stands on it', () => {
    const edits: readonly Edit[] = [
      limit,
      caution,
      ['headers/row-12x20.yaml', '3.6 to 4.2 V', '3.6 to 4.1 V'],
      ['book.yaml', '555-0134', '555-0135'],
      [learn, 'do: Lower the header until the feeder house stops.', 'do: Lower the header all the way.'],
      [learn, 'hold: 2 to 3 s', 'hold: 2 to 4 s'],
      [learn, 'at least 100 degF', 'at least 90 degF'],
      [learn, 'expect: The points rest on the floor.', 'expect: The points lie on the floor.'],
      ['machines/tarn-40.yaml', 'learn_key: LEARN', 'learn_key: RANGE'],
    ];
    for (const edit of edits) {
      const { state, parts, since } = one([edit]);
      expect([edit, state, parts, since?.release]).toEqual([edit, 'changed', ['text'], 'spring']);
      expect([edit, changesOf(one([edit])).length > 0]).toEqual([edit, true]);
    }
  });

  it('is out of date where its code leads to another site, and where it says that it is for more than it is', () => {
    expect(one([['book.yaml', 'https://book.example/', 'https://other.example/']])).toMatchObject({ parts: ['text'] });
    const named: Edit = ['headers/row-12x20.yaml', 'name: 12-row header, 20 in rows', 'name: 12-row header'];
    expect(one([named]).state).toBe('changed');
    // for all headers of a machine a card names none
    const header = filesOfBook('tests/books/base').texts.get('headers/row-12x20.yaml') ?? '';
    const two: readonly Edit[] = [
      ['headers/row-other.yaml', '', header.replace('12-row header', 'Other 12-row header')],
      ['machines/tarn-40.yaml', 'headers: [row-12x20, platform-30]', 'headers: [row-12x20, row-other]'],
    ];
    const third: Edit = ['machines/tarn-40.yaml', 'headers: [row-12x20, ', 'headers: [row-12x20, platform-30, '];
    expect(one([], {}, two)).toMatchObject({ state: 'right', rigs: ['tarn-40+row-12x20', 'tarn-40+row-other'] });
    expect(one([third], {}, two)).toMatchObject({ state: 'changed', parts: ['text'] });
  });

  it('is right where the card of today names another header first, and its code leads to that card still', () => {
    const header = filesOfBook('tests/books/base').texts.get('headers/row-12x20.yaml') ?? '';
    const more: readonly Edit[] = [
      ['headers/row-other.yaml', '', header.replace('12-row header', 'Other 12-row header')],
      ['machines/tarn-40.yaml', 'headers: [row-12x20, platform-30]', 'headers: [row-other, row-12x20, platform-30]'],
    ];
    expect(one(more)).toMatchObject({ state: 'right', rigs: ['tarn-40+row-12x20'] });
  });

  it('tells what changed for its own rigs alone, safety first', () => {
    const other: Edit = [learn, 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.6 to 1.0 V'];
    const lines = changesOf(one([limit, other, caution, raise]));
    expect(lines[0]).toContain('Let nobody stand near it');
    expect(lines.some((line) => line.includes('0.78 to 1.02 V') || line.includes('0.9 ± 0.15 V'))).toBe(true);
    expect(lines.some((line) => line.includes('0.6 to'))).toBe(false);
  });

  it('of a procedure that is withdrawn, a draft again or gone is to be taken away', () => {
    expect(one([[learn, 'status: released', 'status: withdrawn']]).state).toBe('withdrawn');
    expect(one([[learn, 'status: released', 'status: draft']]).state).toBe('draft');
    const gone = one([[learn, '', '']]);
    expect(gone).toMatchObject({ state: 'gone', procedure: 'learn-height-range' });
    expect(gone).not.toHaveProperty('revisionNow');
  });

  it('is not for it any more where the header, the machine or the applicability went', () => {
    const fit: Edit = ['machines/tarn-40.yaml', 'headers: [row-12x20, platform-30]', 'headers: [platform-30]'];
    expect(one([fit])).toMatchObject({ state: 'not-for-it', rigsLost: ['tarn-40+row-12x20'] });
    const applies: Edit = [learn, 'machine: [tarn-40, tarn-60]', 'machine: [tarn-60]'];
    expect(
      one([
        applies,
        [learn, 'tarn-40: 0.9 ± 0.2 V, ', ''],
        [
          learn,
          '  - { machine: tarn-40, how: on-machine, by: R. Quill, on: 2026-09-02 }',
          '  - { machine: tarn-60, how: on-machine, by: R. Quill, on: 2026-09-02 }',
        ],
      ]).state,
    ).toBe('not-for-it');
  });

  it('is out of date for the part of its rigs that it is for no more', () => {
    const part: Edit = [learn, '  header: { type: row }', '  header: { type: row }\n  not: { software: "3.10" }'];
    const { state, parts, rigsLost } = one([part]);
    expect([state, parts?.includes('rigs'), rigsLost]).toEqual(['changed', true, ['tarn-40+row-12x20@3.10']]);
  });

  it('is judged by what the fleet says of its unit now', () => {
    const unit = { unit: 'unit-17' };
    const serials: Edit = [learn, '  header: { type: row }', '  header: { type: row }\n  serials: from 70-01000'];
    expect(one([serials], unit, [fleet]).state).toBe('not-for-it');
    expect(one([serials, ['fleet.yaml', '70-00317', '70-02317']], unit, [fleet])).toMatchObject({ unit: 'unit-17' });
    expect(one([serials, ['fleet.yaml', '70-00317', '70-02317']], unit, [fleet]).state).not.toBe('not-for-it');
    const sold = one([['fleet.yaml', 'unit-17', 'unit-18']], unit, [fleet]);
    expect(sold).toMatchObject({ state: 'right', unit: 'unit-17', unitGone: true });
  });

  it('is replaced by a later issue to the same place, and by no other', () => {
    const of = ({ machine }: { machine: string }): boolean => machine === 'tarn-40';
    const first = afterIssue([], [limit]);
    const statesAfter = (issue: Issue): readonly string[] =>
      reprintIn(issuedIn(first, { of, ...issue })).cards.map(({ state }) => state);
    expect(statesAfter({ on: '2026-10-01' })).toEqual(['right', 'replaced']);
    expect(statesAfter({ on: '2026-09-10' })).toEqual(['right', 'replaced']);
    expect(statesAfter({ on: '2026-10-01', place: 'Cab' })).toEqual(['changed', 'right']);
  });
});

describe('what changed', () => {
  it('is told since the last release up to the day of issue that holds what was printed', () => {
    const texts = afterIssue([limit], [caution]);
    const releases = [
      release('before', '2026-01-01'),
      release('holds', '2026-03-01', [limit]),
      release('again', '2026-09-01', [limit]),
      release('later', '2026-10-01', [limit, caution]),
    ];
    expect(reprintIn(texts, releases).cards[0]?.since).toMatchObject({ release: 'again', date: '2026-09-01' });
    expect(reprintIn(texts, releases.slice(3)).cards[0]?.since?.release).toBe('later');
    expect(reprintIn(texts, releases.slice(0, 1)).cards[0]).not.toHaveProperty('since');
  });

  it('is no reason to reprint a card in a language whose words are the same', () => {
    const { texts } = filesOfBook('procedures');
    const of = ({ procedure, machine }: { procedure: string; machine: string }): boolean =>
      procedure === 'shut-down' && machine === 'tarn-40';
    const issued = issuedIn(texts, { of });
    const edit: Edit = [
      'safety.yaml',
      'en: Let nobody near it while the engine runs.',
      'en: Let nobody stand near it.',
    ];
    const found = reprintIn(withEdits(issued, [edit])).cards.map(({ language, state }) => [language, state]);
    expect(found.sort()).toEqual([
      ['en', 'changed'],
      ['es', 'right'],
    ]);
  });
});

describe('a rig as it is written', () => {
  const machines = new Map([
    [
      'tarn-40',
      { headers: [], software: [{ module: { value: 'display' }, versions: [{ value: '3.10' }, { value: '4.2' }] }] },
    ],
  ]);
  const end = fc.option(fc.record({ serial: fc.constantFrom('70-00100', 'C9-0218', 'X'), included: fc.boolean() }), {
    nil: undefined,
  });
  const rig = fc
    .record({
      options: fc.dictionary(fc.constantFrom('lateral-tilt', 'ride-damping'), fc.boolean()),
      software: fc.subarray(['3.10', '4.2']),
      from: end,
      to: end,
    })
    .map(
      ({ options, software, from, to }): Rig => ({
        machine: 'tarn-40',
        header: 'row-12x20',
        options: new Map(Object.entries(options)),
        software: new Map(software.length > 0 ? [['display', software]] : []),
        ...((from || to) && { serials: { ...(from && { from }), ...(to && { to }) } }),
      }),
    );

  it('is read as the same rig again', () => {
    fc.assert(
      fc.property(rig, (one) => {
        const again = readRigLabel(rigLabel(one), { machines });
        expect(rigLabel(again)).toBe(rigLabel(one));
        expect(Object.fromEntries(again.options)).toEqual(Object.fromEntries(one.options));
        expect([again.software, again.serials]).toEqual([one.software, one.serials]);
      }),
      { numRuns: 300 },
    );
  });

  it('may have been written without its header', () => {
    const isHeader = (name: string): boolean => name === 'row-12x20';
    const read = (label: string): Rig => readRigLabel(label, { machines }, isHeader);
    expect(read('tarn-40+lateral-tilt')).toMatchObject({ header: '', options: new Map([['lateral-tilt', true]]) });
    expect(read('tarn-40+row-12x20+lateral-tilt')).toMatchObject({ header: 'row-12x20' });
    expect(read('tarn-40@4.2').software).toEqual(new Map([['display', ['4.2']]]));
  });

  it('may name what the book has no more', () => {
    expect(readRigLabel('corrie-9+draper-35+old-kit@9.9', { machines })).toEqual({
      machine: 'corrie-9',
      header: 'draper-35',
      options: new Map([['old-kit', true]]),
      software: new Map(),
    });
  });
});
