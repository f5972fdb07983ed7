// The proof against an explorer written the obvious way, on random small procedures: the same faults, each as early.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildCase, randomCase } from './random.js';
import { searchEverything } from './raw.js';
import { explorePlainly } from './reference.js';

// More with `AGREEMENT_RUNS`; the seed stays, so that the same cases are tried each time.
const runs = Number(process.env.AGREEMENT_RUNS ?? 1000);
const seed = Number(process.env.AGREEMENT_SEED ?? 4711);

describe('The proof and the plain explorer', () => {
  it('find the same faults after as many steps', () => {
    let explored = 0;
    let faults = 0;
    fc.assert(
      fc.property(randomCase, (each) => {
        const { variant, world } = buildCase(each);
        const expected = explorePlainly(variant, world, 3000);
        if (!expected) return;
        explored += 1;
        faults += expected.size;
        expect(Object.fromEntries([...searchEverything(variant, world)].sort())).toEqual(
          Object.fromEntries([...expected].sort()),
        );
      }),
      { seed, numRuns: runs },
    );
    expect(explored).toBeGreaterThan(runs / 2);
    expect(faults).toBeGreaterThan(runs);
  });
});
