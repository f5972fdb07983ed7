import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/model/book.js';
import { rigLabel } from '../../src/model/rig.js';
import { readBook } from '../../src/read/book.js';
import { resolveBook } from '../../src/resolve/resolve.js';
import { filesWith, learn, workOutFiles } from './resolved.js';

const files = filesWith({
  [learn]: [
    ['  machine: [tarn-40, tarn-60]\n', ''],
    ['{ tarn-40: 0.9 ± 0.2 V, tarn-60: 0.7 to 1.0 V }', '{ tarn-60: 0.7 to 1.0 V, other: 0.9 ± 0.2 V }'],
    [
      '  - id: park\n',
      '  - { id: tilt, do: Centre it., only: { option: lateral-tilt, serials: from 70-00300 } }\n  - id: park\n',
    ],
  ],
});

/** What each rig of a machine reads, by label. */
function readingsOf(some: ReadonlyMap<string, string>, machine: string): readonly string[] {
  return workOutFiles(some).book.variants.flatMap(({ procedure, rigs, hash }) =>
    rigs.filter((rig) => rig.machine === machine).map((rig) => `${procedure.id} ${rigLabel(rig)} ${hash}`),
  );
}

const machine = (parts: { readonly words: boolean; readonly option: boolean; readonly both: boolean }): string =>
  [
    'name: Another',
    'tell: It has another plate.',
    `headers: [${parts.both ? 'row-12x20, platform-30' : 'row-12x20'}]`,
    ...(parts.option ? ['options:', '  lateral-tilt: { is: optional, tell: It has a cylinder. }'] : []),
    `words: { learn_key: ${parts.words ? 'KEY' : 'LEARN'} }`,
    'parameters:',
    '  sensor_reads: 0.25 to 4.75 V',
    '',
  ].join('\n');

describe('working a book out', () => {
  it('gives a machine the same, whatever other machines there are', () => {
    const before = ['tarn-40', 'tarn-60'].map((id) => readingsOf(files, id));
    expect(before.map(({ length }) => length)).toEqual([3, 1]);
    const parts = fc.record({ words: fc.boolean(), option: fc.boolean(), both: fc.boolean() });
    fc.assert(
      fc.property(parts, fc.constantFrom('aaa-1', 'tarn-50', 'zzz-9'), (own, id) => {
        const more = new Map(files).set(`machines/${id}.yaml`, machine(own));
        expect(['tarn-40', 'tarn-60'].map((one) => readingsOf(more, one))).toEqual(before);
      }),
      { numRuns: 20 },
    );
  });

  it('does not depend on the order of files', () => {
    const sources = new Map([...files].map(([path, text]) => [path, { path, text }]));
    const { value: book } = readBook(sources, new Set());
    if (!book) throw new Error('No book');
    const labels = (of: Book): unknown =>
      resolveBook(of).value.variants.map(({ id, rigs, hash }) => [id, rigs.map(rigLabel), hash]);
    const expected = labels(book);
    const order = <T>(of: ReadonlyMap<string, T>): fc.Arbitrary<ReadonlyMap<string, T>> =>
      fc.shuffledSubarray([...of], { minLength: of.size }).map((entries) => new Map(entries));
    fc.assert(
      fc.property(
        order(book.machines),
        order(book.headers),
        order(book.procedures),
        (machines, headers, procedures) => {
          expect(labels({ ...book, machines, headers, procedures })).toEqual(expected);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('gives the same hash where places alone differ', () => {
    const [before] = workOutFiles(files).book.variants;
    const moved = new Map(files).set(learn, (files.get(learn) ?? '').replace('steps:\n', '\n\nsteps:  # a comment\n'));
    expect(workOutFiles(moved).book.variants[0]?.hash).toBe(before?.hash);
  });

  it.each([
    ['a digit of a limit', 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.70 to 1.0 V'],
    ['a word', 'Lower the header to the ground.', 'Lower the header on the ground.'],
    [
      'a branch',
      'measure: on_ground\n    when: { outside: call-service }',
      'measure: on_ground\n    when: { outside: stop }',
    ],
    ['prose', 'with the header at the top.', 'with the header up.'],
    ['an effect', 'sets: { height-range: valid }', 'sets: { height-range: invalid }'],
  ])('gives another hash where it differs in %s', (_, from, to) => {
    const hashes = (of: ReadonlyMap<string, string>): readonly string[] =>
      workOutFiles(of)
        .book.variants.filter(({ rigs }) => rigs.some((rig) => rig.machine === 'tarn-60'))
        .map(({ hash }) => hash);
    const changed = new Map(files).set(learn, (files.get(learn) ?? '').replace(from, to));
    expect(hashes(changed)).not.toEqual(hashes(files));
  });
});
