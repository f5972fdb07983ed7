// Rigs as boxes: what two share and what is left of one without others, held against single machines; and how they are written.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mayBe } from '../../src/emit/rig-match.js';
import { boxesWithout, sharedBox } from '../../src/history/rig-boxes.js';
import { writeRigs } from '../../src/history/rig-notation.js';
import type { Rig } from '../../src/model/resolved.js';
import type { RigMachines } from '../../src/model/rig-lists.js';

const machines: RigMachines = {
  machines: new Map(
    ['a', 'b'].map((id) => [
      id,
      {
        headers: [{ value: 'row' }, { value: 'draper' }],
        software: [{ module: { value: 'display' }, versions: [{ value: '1' }, { value: '2' }, { value: '3' }] }],
        serials: { from: '100', to: '999' },
      },
    ]),
  ),
};

/** One machine as it stands in a yard: everything of it is known. */
interface Single {
  readonly machine: string;
  readonly header: string;
  readonly tilt: boolean;
  readonly version: string;
  readonly serial: string;
}

const singles: readonly Single[] = ['a', 'b'].flatMap((machine) =>
  ['row', 'draper'].flatMap((header) =>
    [true, false].flatMap((tilt) =>
      ['1', '2', '3'].flatMap((version) =>
        ['100', '299', '300', '301', '600', '999'].map((serial) => ({ machine, header, tilt, version, serial })),
      ),
    ),
  ),
);

function holds({ options, software, serials, ...box }: Rig, single: Single): boolean {
  const known = { options: { tilt: single.tilt }, software: { display: single.version }, serial: single.serial };
  const facts = {
    options: Object.fromEntries(options),
    software: Object.fromEntries(software),
    ...(serials && { serials }),
  };
  return box.machine === single.machine && box.header === single.header && mayBe(facts, known);
}

const end = fc.record({ serial: fc.constantFrom('299', '300', '301', '600'), included: fc.boolean() });
const box: fc.Arbitrary<Rig> = fc
  .record({
    machine: fc.constantFrom('a', 'b'),
    header: fc.constantFrom('row', 'draper'),
    tilt: fc.option(fc.boolean()),
    versions: fc.option(fc.subarray(['1', '2', '3'], { minLength: 1 })),
    from: fc.option(end),
    to: fc.option(end),
  })
  .map(({ machine, header, tilt, versions, from, to }) => ({
    machine,
    header,
    options: new Map(tilt === null ? [] : [['tilt', tilt]]),
    software: new Map(versions === null ? [] : [['display', versions]]),
    ...((from !== null || to !== null) && {
      serials: { ...(from !== null && { from }), ...(to !== null && { to }) },
    }),
  }));

describe('boxes of rigs', () => {
  it('share the single machines that both hold', () => {
    fc.assert(
      fc.property(box, box, (one, other) => {
        const shared = sharedBox(one, other);
        for (const single of singles) {
          const isBoth = holds(one, single) && holds(other, single);
          if (isBoth) expect(shared && holds(shared, single)).toBe(true);
          else expect(shared !== undefined && holds(shared, single)).toBe(false);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('leave, without others, each single machine that those do not hold, once', () => {
    fc.assert(
      fc.property(box, fc.array(box, { maxLength: 3 }), (one, others) => {
        const left = boxesWithout([one], others, machines);
        for (const single of singles) {
          const isLeft = holds(one, single) && !others.some((other) => holds(other, single));
          expect(left.filter((rest) => holds(rest, single)).length).toBe(isLeft ? 1 : 0);
        }
      }),
      { numRuns: 1000 },
    );
  });
});

const rig = (machine: string, header: string, parts: Partial<Rig> = {}): Rig => ({
  machine,
  header,
  options: new Map(),
  software: new Map(),
  ...parts,
});

describe('a stretch without serials', () => {
  it('shares nothing and takes nothing away', () => {
    const end = { serial: '299', included: false };
    const empty = rig('a', 'row', { serials: { from: end, to: end } });
    expect(sharedBox(rig('a', 'row'), empty)).toBeUndefined();
    expect(boxesWithout([rig('a', 'row')], [empty], machines)).toEqual([rig('a', 'row')]);
  });
});

describe('rigs are written', () => {
  const tilted = { options: new Map([['tilt', true]]) };
  const flat = { options: new Map([['tilt', false]]) };
  const boxes = [
    rig('a', 'row', tilted),
    rig('a', 'row', flat),
    rig('a', 'draper', tilted),
    rig('a', 'draper', flat),
    rig('b', 'row'),
  ];
  const write = (...wanted: readonly number[]): readonly string[] =>
    writeRigs(new Set(wanted.flatMap((i) => boxes[i] ?? [])), boxes, machines);

  it('not at all where all are meant', () => {
    expect(write(0, 1, 2, 3, 4)).toEqual([]);
  });

  it('as a machine, a machine with a header, or a machine with an option, where all of those are meant', () => {
    expect(write(0, 1, 2, 3)).toEqual(['a']);
    expect(write(4)).toEqual(['b']);
    expect(write(0, 1)).toEqual(['a+row']);
    expect(write(0, 2)).toEqual(['a+tilt']);
    expect(write(1, 3, 4)).toEqual(['a~tilt', 'b']);
    expect(write(0)).toEqual(['a+row+tilt']);
    expect(write(0, 1, 2)).toEqual(['a+tilt', 'a+row~tilt']);
  });

  it('never wider than they are meant', () => {
    // the draper has all versions; only the row has two boxes
    const versions = (list: readonly string[]): Partial<Rig> => ({ software: new Map([['display', list]]) });
    const all = [rig('a', 'row', versions(['1'])), rig('a', 'row', versions(['2', '3'])), rig('a', 'draper')];
    const [first, second, draper] = all;
    if (!first || !second || !draper) throw new Error('no boxes');
    expect(writeRigs(new Set([first]), all, machines)).toEqual(['a+row@1']);
    expect(writeRigs(new Set([first, draper]), all, machines)).toEqual(['a+draper', 'a+row@1']);
  });
});
