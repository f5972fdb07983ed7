// A checker that keeps what has not changed says what a check from scratch says, whatever is edited and in which order.

import { join } from 'node:path';
import { type Arbitrary, array, assert, constantFrom, nat, oneof, property, record } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Checked, checkBook, makeChecker } from '../src/compile.js';
import { filesOf } from './rules/page.js';

const folder = join(import.meta.dirname, '../procedures');
// the shared files, and some procedures of which some run others
const wanted = /\.yaml$|^put-away\/|^first-pass\/learn-height-range|^wrong\/range-not-stored/;
const demo = new Map([...filesOf(folder)].filter(([path]) => wanted.test(path)));
const figures = new Set([...filesOf(folder).keys()].filter((path) => path.startsWith('figures/')));
const paths = [...demo.keys()];

/** One change: of a digit, of a letter, of a line, of a whole file; or back to the demo book as it is. */
interface Edit {
  readonly kind: 'digit' | 'letter' | 'drop-line' | 'swap-lines' | 'drop-file' | 'copy-file' | 'back';
  readonly path: string;
  readonly at: number;
}

const edits: Arbitrary<Edit> = record({
  kind: oneof(
    { arbitrary: constantFrom('digit' as const, 'swap-lines' as const), weight: 3 },
    {
      arbitrary: constantFrom(
        'letter' as const,
        'drop-line' as const,
        'drop-file' as const,
        'copy-file' as const,
        'back' as const,
      ),
      weight: 1,
    },
  ),
  path: constantFrom(...paths),
  at: nat(10_000),
});

function edited(files: ReadonlyMap<string, string>, { kind, path, at }: Edit): ReadonlyMap<string, string> {
  const text = files.get(path);
  if (kind === 'back' || text === undefined) return demo;
  const changed = new Map(files);
  const lines = text.split('\n');
  const line = at % lines.length;
  const places = [...text.matchAll(kind === 'digit' ? /\d/g : /[a-z]/g)].map(({ index }) => index);
  const place = places[at % Math.max(1, places.length)] ?? 0;
  if (kind === 'drop-file') changed.delete(path);
  else if (kind === 'copy-file') changed.set(path.replace(/(\.\w+)$/, '-copy$1'), text);
  else if (kind === 'drop-line') changed.set(path, lines.toSpliced(line, 1).join('\n'));
  else if (kind === 'swap-lines') {
    const [moved = ''] = lines.slice(line);
    changed.set(
      path,
      lines
        .toSpliced(line, 1)
        .toSpliced(line + 1, 0, moved)
        .join('\n'),
    );
  } else changed.set(path, `${text.slice(0, place)}${kind === 'digit' ? at % 10 : 'x'}${text.slice(place + 1)}`);
  return changed;
}

function inputOf(files: ReadonlyMap<string, string>, rig?: string) {
  const sources = new Map([...files].map(([path, text]) => [path, { path, text }]));
  return { sources, figures, today: '2026-11-24', ...(rig === undefined ? {} : { rig }) };
}

function saidBy({ diagnostics, waived, proofs, resolved }: Checked): string {
  const variants = resolved?.variants.map(({ id, hash, rigs }) => ({ id, hash, rigs }));
  const all = { diagnostics, waived, variants, proofs: [...proofs] };
  return JSON.stringify(all, (_, part: unknown) => {
    if (typeof part === 'bigint') return `${part}n`;
    return part instanceof Map || part instanceof Set ? [...part] : part;
  });
}

describe('A checker', () => {
  // every edit is checked from scratch as well, which takes long where others use the machine
  it('says what a check from scratch says, over any edits', { timeout: 300_000 }, () => {
    assert(
      property(array(edits, { minLength: 3, maxLength: 6 }), (changes) => {
        const check = makeChecker();
        let files: ReadonlyMap<string, string> = demo;
        check(inputOf(files));
        for (const change of changes) {
          files = edited(files, change);
          const again = saidBy(check(inputOf(files)));
          expect(again === saidBy(checkBook(inputOf(files)))).toBe(true);
        }
      }),
      { numRuns: 4, seed: 7 },
    );
  });

  it('says what a check from scratch says when dates and rigs change', () => {
    const check = makeChecker();
    const files = edited(demo, { kind: 'drop-line', path: 'states.yaml', at: 3 });
    const inputs = [
      inputOf(demo),
      { ...inputOf(demo), today: '2030-01-01' },
      { ...inputOf(demo), figures: new Set<string>() },
      inputOf(demo, 'tarn-40'),
      inputOf(files, 'tarn-40'),
      inputOf(demo, 'no-such-rig'),
      { ...inputOf(demo), unreadable: new Set(['wrong/odd.md']) },
      inputOf(demo),
    ];
    for (const input of inputs) expect(saidBy(check(input))).toBe(saidBy(checkBook(input)));
  });

  it('gives the very same objects for what an edit does not touch', () => {
    const check = makeChecker();
    const before = check(inputOf(demo));
    const path = 'first-pass/learn-height-range.md';
    const after = check(inputOf(new Map(demo).set(path, `${demo.get(path)}\nOne more line.\n`)));
    const others = (checked: Checked) =>
      checked.resolved?.variants.filter(({ procedure }) => procedure.id === 'make-safe') ?? [];
    expect(others(before).length).toBeGreaterThan(0);
    others(after).forEach((variant, i) => {
      expect(variant).toBe(others(before)[i]);
      expect(after.proofs.get(variant.id)).toBe(before.proofs.get(variant.id));
    });
    expect(after.book?.machines).toBe(before.book?.machines);
    expect(after.resolved?.world).toBe(before.resolved?.world);
  });
});
