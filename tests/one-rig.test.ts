// What is said of all rigs is not said where only some were asked for: a clean book is clean for each of them alone.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeChecker } from '../src/compile.js';
import { filesOf } from './rules/page.js';

const base = filesOf(join(import.meta.dirname, 'books/base'));

// a hazard, a trial and a step that one machine alone has
const forOne = `---
title: Free the arms
kind: inspection
summary: Free the arms.
revision: 1
status: released
verified:
  - { machine: tarn-40, how: on-machine, by: R. Quill, on: 2026-09-02 }
  - { machine: tarn-60, how: on-machine, by: R. Quill, on: 2026-09-02 }
applies: all
tools: none
supplies: none
hazards: [moving-header]
requires:
  - { state: engine, is: low-idle, shown-by: The engine runs at its lowest speed. }
  - { state: header, is: raised, shown-by: The header is up. }
steps:
  - { id: lower, only: { machine: tarn-60 }, do: Lower the header., hazard: [moving-header], sets: { header: on-ground } }
  - { id: raise, do: Raise the header., only: { machine: tarn-60 }, hazard: [moving-header], sets: { header: raised } }
  - { id: look, do: Look at the arms. }
leaves: none
---
`;

const texts = new Map([...base, ['sensors/free-arms.md', forOne]]);
const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
const check = makeChecker();

describe('a clean book', () => {
  it.each([undefined, 'tarn-40', 'tarn-60', 'tarn-40+row-12x20', 'tarn-60+row-12x20', 'tarn-40+platform-30'])(
    'is clean for %s',
    (rig) => {
      const { diagnostics } = check({ sources, figures: new Set(), ...(rig === undefined ? {} : { rig }) });
      expect(diagnostics.filter(({ severity }) => severity !== 'hint')).toEqual([]);
    },
  );
});
