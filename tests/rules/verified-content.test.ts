// The content that a verification stands for: it changes with what is done and decided, and with nothing else.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../../src/compile.js';
import { contentDigest } from '../../src/rules/review/verified-content.js';
import { filesOf } from './page.js';

const base = filesOf(join(import.meta.dirname, '../books/base'));
const file = 'sensors/learn-height-range.md';

function digestOf(change: (text: string) => string, machine = 'tarn-40'): string {
  const texts = new Map(base);
  const before = texts.get(file) ?? '';
  const after = change(before);
  texts.set(file, after);
  const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
  const { resolved } = checkBook({ sources, figures: new Set() });
  const variants = resolved?.variants.filter(({ rigs }) => rigs.some((rig) => rig.machine === machine)) ?? [];
  expect(variants.length).toBeGreaterThan(0);
  return contentDigest(variants, 'en');
}

const same = digestOf((text) => text);

describe('the content of a verification', () => {
  it.each([
    ['a limit', '0.9 ± 0.2 V', '0.9 ± 0.3 V'],
    ['an action', 'do: Leave automatic height off.', 'do: Leave automatic height on.'],
    ['what a step sets', 'sets: { height-range: valid }', 'sets: { height-range: invalid }'],
    ['a branch', 'then: call-service', 'then: stop'],
    ['a step', '  - id: void\n', '  - id: wait\n    do: Wait.\n  - id: void\n'],
    ['a requirement', 'is: at least 100 degF', 'is: at least 110 degF'],
    ['an expectation', 'expect: The points rest on the floor.', 'expect: The points hang free.'],
  ])('changes with %s', (_, from, to) => {
    expect(digestOf((text) => text.replace(from, to))).not.toBe(same);
  });

  it.each([
    ['the title', 'title: Learn the header height range', 'title: Learn the range'],
    ['the revision', 'revision: 3', 'revision: 4'],
    ['prose', '## Why the range is learned', '## What it is for'],
    ['a comment', '# half learned is not learned', '# not yet'],
    ['the limits of another machine', 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.6 to 1.0 V'],
    ['how a number is written', '0.9 ± 0.2 V', '0.7 to 1.1 V'],
  ])('does not change with %s', (_, from, to) => {
    expect(digestOf((text) => text.replace(from, to))).toBe(same);
  });

  it('is another for another machine', () => {
    expect(digestOf((text) => text, 'tarn-60')).not.toBe(same);
  });
});
