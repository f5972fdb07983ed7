// Every slip in a Good example of a rule page is noticed by a rule, or stands in survivors.txt with the reason why it is not.
// That list may only shrink: a slip that is noticed by now is taken out of it.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeChecker } from '../../src/compile.js';
import { catalogue } from '../../src/rules/catalogue.js';
import { type Mutant, mutantsOf, operators } from './mutants.js';
import { bookOf, filesOf, pagesBelow } from './page.js';

const root = join(import.meta.dirname, '../..');
const base = filesOf(join(root, 'tests/books/base'));
const check = makeChecker();
// of files as bytes, and of cards in their faces, no line is the example
const pages = pagesBelow(join(root, 'src/rules')).filter(({ file }) => !/rules.(?:files|cards)./.test(file));

/** Codes of errors and warnings; a hint never counts, nor does it that a hash of the content is another. */
function noticedBy({ files }: Mutant): readonly string[] {
  const figures = new Set([...files.keys()].filter((path) => path.startsWith('figures/')));
  const texts = [...files].filter(([path]) => !figures.has(path));
  const sources = new Map(texts.map(([path, text]) => [path, { path, text }]));
  const { diagnostics } = check({ sources, figures, today: '2026-11-24' });
  const counted = diagnostics.filter(({ severity }) => severity !== 'hint').map(({ code }) => code);
  return counted.filter((code) => code !== 'edited-after-verification');
}

/** Each slip once. */
function distinctMutants(): readonly Mutant[] {
  const found = new Map<string, Mutant>();
  for (const page of pages) {
    for (const example of page.good.filter(({ rig }) => rig === undefined)) {
      for (const mutant of mutantsOf(bookOf(base, example), example)) {
        const key = lineOf(mutant);
        if (!found.has(key)) found.set(key, mutant);
      }
    }
  }
  return [...found.values()];
}

function lineOf({ operator, before, after }: Mutant): string {
  return `${operator} | ${before.trim()} | ${operator === 'swap two steps' ? 'below' : ''} ${after.trim()}`.trimEnd();
}

/** `# reason` above the lines that it holds for. */
function readSurvivors(): ReadonlyMap<string, string> {
  const known = new Map<string, string>();
  let reason = '';
  for (const line of readFileSync(join(import.meta.dirname, 'survivors.txt'), 'utf8').split('\n')) {
    if (line.startsWith('# ')) reason = line.slice(2);
    else if (reason !== '' && line.trim() !== '') known.set(line, reason);
  }
  return known;
}

describe('slips in the Good examples', () => {
  const mutants = distinctMutants();
  const survivors = readSurvivors();

  it('are many, of every kind', () => {
    const kinds = new Set(mutants.map(({ operator }) => operator));
    expect([...kinds].sort()).toEqual([...Object.keys(operators), 'swap two steps'].sort());
    expect(mutants.length).toBeGreaterThan(300);
  });

  it('are noticed by a rule, or have a reason why not', { timeout: 600_000 }, () => {
    const alive = new Set<string>();
    const unexplained: string[] = [];
    for (const mutant of mutants) {
      const codes = noticedBy(mutant);
      expect(codes.filter((code) => !catalogue.has(code))).toEqual([]);
      if (codes.length > 0) continue;
      const line = lineOf(mutant);
      alive.add(line);
      if (!/\w+ \w+/.test(survivors.get(line) ?? '')) unexplained.push(line);
    }
    expect(unexplained, 'nothing notices these: name the reason for each in survivors.txt').toEqual([]);
    const noticed = [...survivors.keys()].filter((line) => !alive.has(line));
    expect(noticed, 'noticed by now, or gone: take it out of survivors.txt').toEqual([]);
  });

  it('survive in less than a third', () => {
    expect(survivors.size / mutants.length).toBeLessThan(0.33);
  });
});
