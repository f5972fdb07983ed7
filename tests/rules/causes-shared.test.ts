// A fault of a shared file, and one that shows in what an end runs, is told once, where it is to be mended.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../../src/compile.js';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import { filesOf } from './page.js';

const base = new Map(filesOf(join(import.meta.dirname, '../books/base')));
const procedure = 'sensors/learn-height-range.md';

type Texts = Map<string, string>;

function change(texts: Texts, path: string, from: string, to: string): void {
  const before = texts.get(path) ?? '';
  expect(before).toContain(from);
  texts.set(path, before.replace(from, to));
}

function check(texts: Texts): readonly Diagnostic[] {
  const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
  return checkBook({ sources, figures: new Set() }).diagnostics.filter(({ severity }) => severity !== 'hint');
}

function copies(count: number): Texts {
  const texts = new Map(base);
  const own = texts.get(procedure) ?? '';
  for (let i = 1; i < count; i += 1) {
    texts.set(
      `sensors/learn-${i}.md`,
      own.replace('title: Learn the header', `title: Learn once more ${i} the header`),
    );
  }
  return texts;
}

const moves = 'moves-when: { engine: [low-idle, working-speed] }';

describe('a fault of a shared file', () => {
  it('is one, with all procedures that show it beside the first', () => {
    const texts = copies(3);
    change(texts, 'states.yaml', moves, 'moves-when: { engine: working-speed }');
    const found = check(texts);
    expect(new Set(found.map(({ code }) => code))).toEqual(new Set(['cannot-move-here']));
    expect(new Set(found.map(({ at }) => at.file)).size).toBe(1);
    expect(found[0]?.note).toContain('`states.yaml`');
    expect(new Set(found[0]?.related.map(({ at }) => at.file)).size).toBeGreaterThan(2);
  });

  it('is told of each of two procedures: these may be wrong themselves', () => {
    const texts = copies(2);
    change(texts, 'states.yaml', moves, 'moves-when: { engine: working-speed }');
    expect(new Set(check(texts).map(({ at }) => at.file)).size).toBe(2);
  });
});

describe('an entry of physics by which no machine can begin', () => {
  const wrong = (count: number): readonly Diagnostic[] => {
    const texts = copies(count);
    change(texts, 'states.yaml', 'then: { key: in,', 'then: { key: removed,');
    change(texts, 'states.yaml', 'physics:\n', 'physics:\n  - { when: { key: removed }, then: { engine: "off" } }\n');
    return check(texts).filter(({ code }) => code === 'start-impossible');
  };

  it('is one fault, with all procedures that begin so beside the first', () => {
    const [first, ...others] = wrong(3);
    expect(others).toEqual([]);
    expect(first?.note).toContain('`states.yaml`');
    expect(first?.related.filter(({ at }) => at.file.startsWith('sensors/')).length).toBe(2);
  });

  it('is told of each of two procedures: these may be wrong themselves', () => {
    expect(wrong(2).length).toBe(2);
  });
});

describe('what cannot be done in the procedure that an end runs', () => {
  const safe = `---
title: Make the machine safe
kind: setup
summary: Stops the engine.
revision: 1
status: released
applies: all
tools: none
supplies: none
hazards: none
requires: none
steps:
  - { id: lower, do: Stop the engine., sets: { engine: "off" } }
  - { id: key, do: Take out the key., sets: { key: removed }, then: done }
leaves: { engine: "off" }
---
`;

  it('is told once, at the branch that leads there', () => {
    const texts = new Map([...base, ['sensors/make-safe.md', safe]]);
    texts.set('safety.yaml', `${texts.get('safety.yaml')}ends: { call-service: { run: make-safe } }\n`);
    change(texts, procedure, 'people: 1', 'people: 2');
    change(texts, procedure, '  - id: void\n', '  - id: void\n    by: 2\n    at: beside\n');
    const found = check(texts);
    expect(found.map(({ code }) => code)).toEqual(['unchanged-rule-broken']);
    const [{ at, message, related }] = found as [Diagnostic];
    const text = texts.get(procedure) ?? '';
    expect(at.file).toBe(procedure);
    expect(text.slice(at.start, at.end)).toBe('call-service');
    expect(text.slice(0, at.start)).toMatch(/- id: void[^-]*then: $/);
    expect(message).toContain('`call-service`');
    expect(related.map((place) => place.at.file)).toContain('sensors/make-safe.md');
  });

  it('says nothing where the person is away', () => {
    const texts = new Map([...base, ['sensors/make-safe.md', safe]]);
    texts.set('safety.yaml', `${texts.get('safety.yaml')}ends: { call-service: { run: make-safe } }\n`);
    expect(check(texts)).toEqual([]);
  });
});

describe('a need that is a bundle', () => {
  it('is told at the step, also where another rule has said a part of it', () => {
    const texts = new Map(base);
    change(
      texts,
      procedure,
      'steps:\n',
      'steps:\n  - { id: reach, at: under-header, needs: safe-to-reach-in, do: Look at the arms. }\n',
    );
    const found = check(texts);
    expect(found.length).toBeGreaterThan(0);
    expect(new Set(found.map(({ at }) => at.file))).toEqual(new Set([procedure]));
  });
});

describe('a failing reading that has nowhere to go', () => {
  it('is told beside the branches that are there', () => {
    const texts = new Map(base);
    change(texts, procedure, 'when: { outside: call-service }', 'when: { low: call-service }');
    const [{ at, code } = { at: undefined, code: '' }] = check(texts);
    expect(code).toBe('failing-reading-without-branch');
    expect(at && (texts.get(procedure) ?? '').slice(0, at.start)).toMatch(/when: \{ (?:low: )?$/);
  });
});

describe('one slip in what a procedure is for', () => {
  it('is one fault with the entries of choices that are then missing or idle', () => {
    const texts = new Map(base);
    change(
      texts,
      procedure,
      '{ tarn-40: 0.9 ± 0.2 V, tarn-60: 0.7 to 1.0 V }',
      '{ row-12x20: 0.9 ± 0.2 V, platform-30: 0.7 to 1.0 V }',
    );
    change(texts, procedure, 'header: { type: row }', 'header: { type: [row, pickup] }');
    texts.set(
      'headers/pickup-14.yaml',
      'name: Pickup, 14 ft\ntype: pickup\ntell: Belts with teeth.\nparameters: { on_ground: 3.6 to 4.2 V }\n',
    );
    change(texts, 'machines/tarn-40.yaml', 'platform-30]', 'platform-30, pickup-14]');
    const found = check(texts);
    expect(found.map(({ code }) => code)).toEqual(['choice-not-covered']);
    expect(found[0]?.related.map(({ message }) => message).join()).toContain('`platform-30`');
  });
});

describe('a procedure that was edited after it was tried', () => {
  const caller = [
    '---\ntitle: Learn and look\nkind: inspection\nsummary: Learns, and looks.\nrevision: 1\nstatus: released',
    'reviewed: { on: 2026-09-02, by: Service desk, next: 2027-08-01 }',
    'verified: [{ machine: tarn-40, how: both, by: R. Quill, on: 2026-09-02, content: 0000-0000-0000 }]',
    'applies: { machine: tarn-40, header: { type: row } }\ntools: none\nsupplies: none\nhazards: [moving-header]',
    'requires:\n  - { state: engine, is: low-idle }\n  - { state: automatic-height, is: "off" }',
    '  - { state: threshing-drive, is: disengaged }\n  - { state: oil-temperature, is: at least 100 degF }',
    'steps:\n  - { id: learn, run: learn-height-range }\n  - { id: look, do: Look at the arms., then: done }',
    'leaves: { height-range: valid }\n---\n',
  ].join('\n');
  const own = '  - { machine: tarn-40, how: on-machine';
  const tried = (machine: string): string =>
    `  - { machine: ${machine}, how: both, by: R. Quill, on: 2026-09-02, content: 0000-0000-0000 }\n`;

  it('is told once, with the other machine and what runs it beside it', () => {
    const texts = new Map([...base, ['sensors/learn-and-look.md', caller]]);
    change(texts, procedure, own, `${tried('tarn-60')}${own}`);
    change(texts, procedure, 'on: 2026-09-02 }', 'on: 2026-09-02, content: 0000-0000-0000 }');
    const found = check(texts);
    expect(found.map(({ code, at }) => `${code} ${at.file}`)).toEqual([`edited-after-verification ${procedure}`]);
    expect(found[0]?.related.map(({ at }) => at.file).sort()).toEqual(['sensors/learn-and-look.md', procedure]);
  });

  it('does not hush what runs it and was edited itself for another machine', () => {
    const texts = new Map([...base, ['sensors/learn-and-look.md', caller]]);
    change(texts, procedure, own, `${tried('tarn-60')}${own}`);
    const found = check(texts);
    expect(found.map(({ at }) => at.file)).toEqual(['sensors/learn-and-look.md', procedure]);
  });
});
