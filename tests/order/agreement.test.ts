// The proof against an explorer written the obvious way, on random small procedures: the same faults, each as early; and
// what the proof tells of them is true and leaves nothing out.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainMembers } from '../../src/order/any-order.js';
import { proveVariant } from '../../src/order/prove.js';
import type { OrderResult, Violation, ViolationKind } from '../../src/order/result.js';
import { buildCase, groupCase, randomCase } from './random.js';
import { searchEverything } from './raw.js';
import { explorePlainly } from './reference.js';

// More with `AGREEMENT_RUNS`; the seed stays, so that the same cases are tried each time.
const runs = Number(process.env.AGREEMENT_RUNS ?? 1000);
const seed = Number(process.env.AGREEMENT_SEED ?? 4711);
const patience = 60_000 + runs * 200;

describe('The proof and the plain explorer', () => {
  it('find the same faults after as many steps', { timeout: patience }, () => {
    let explored = 0;
    let faults = 0;
    fc.assert(
      fc.property(randomCase, (each) => {
        const { variant, world } = buildCase(each);
        const expected = explorePlainly(variant, world, 1500);
        if (!expected) return;
        explored += 1;
        faults += expected.size;
        const found = searchEverything(variant, world);
        expect(Object.fromEntries([...found].sort())).toEqual(Object.fromEntries([...expected].sort()));
      }),
      { seed, numRuns: runs },
    );
    expect(explored).toBeGreaterThan(runs / 2);
    expect(faults).toBeGreaterThan(runs);
  });

  it('find the same faults where steps in any order are not tried in every order', { timeout: patience }, () => {
    let spared = 0;
    let faults = 0;
    fc.assert(
      fc.property(groupCase, (each) => {
        const { variant, world } = buildCase(each);
        const expected = explorePlainly(variant, world, 1500);
        if (!expected) return;
        const found = searchEverything(variant, world);
        expect(Object.fromEntries([...found].sort())).toEqual(Object.fromEntries([...expected].sort()));
        spared += plainMembers(variant.procedure, [1, 2, 3, 4]).length > 0 ? 1 : 0;
        faults += expected.size;
      }),
      { seed: seed + 2, numRuns: Math.ceil(runs / 4) },
    );
    expect(spared).toBeGreaterThan(runs / 80);
    expect(faults).toBeGreaterThan(runs / 4);
  });

  it('agree on what is safe, and on every fact that is told', { timeout: patience }, () => {
    let clean = 0;
    let told = 0;
    fc.assert(
      fc.property(randomCase, (each) => {
        const { variant, world } = buildCase(each);
        const expected = explorePlainly(variant, world, 1500);
        if (!expected) return;
        const result = proveVariant(variant, world, { budget: 1_000_000, repairs: false });
        expect(result.complete).toBe(true);
        if (result.violations.some(({ kind }) => kind === 'start-impossible')) return;
        const faults = [...expected.keys()].filter((key) => !key.startsWith('trigger'));
        const facts = new Set(result.violations.filter(({ kind }) => !ownKinds.has(kind)).flatMap(factsOf));
        const wanted = new Set(faults.map(factOf));
        // a need that a safety rule misses at the same step is told by the rule alone
        const byRule = new Set([...facts].flatMap((fact) => /^rule-broken \w+ (.*)$/.exec(fact)?.[1] ?? []));
        const apart = (fact: string): boolean =>
          !byRule.has(fact.replace(/^want /, '').replace(/^person \d/, 'person'));
        expect([...facts].filter(apart).sort()).toEqual([...wanted].filter(apart).sort());
        expect(triggersOf(result)).toEqual(expectedTriggers(expected));
        clean += faults.length === 0 ? 1 : 0;
        told += facts.size;
      }),
      { seed: seed + 1, numRuns: runs },
    );
    expect(clean).toBeGreaterThan(runs / 50);
    expect(told).toBeGreaterThan(runs);
  });
});

// Of these the reference knows nothing.
const ownKinds: ReadonlySet<ViolationKind> = new Set<ViolationKind>([
  'outside-without-branch',
  'else-missing',
  'target-missing',
  'unbounded-loop',
  'sent-to-wrong-adjuster',
  'instrument-place',
  'back-into-step',
  'physics-conflict',
]);

const wants = 'want';

// A fact is told once on a path however many steps want it: what counts is the fact, not the step.
const familyOf: Readonly<Record<string, string>> = {
  'need-not-met': wants,
  'moves-when': wants,
  'instrument-needs': wants,
  'throughout-broken': wants,
  'requires-not-met-at-run': wants,
  'place-not-met-at-run': wants,
  'leaves-not-met': wants,
  'end-must-not-met': wants,
};

function factOf(key: string): string {
  const [kind = '', at = '', detail = ''] = key.split(' @ ');
  const family = familyOf[kind];
  if (family) return `${family} ${/(?:person \d|\w+)=.*$/.exec(detail)?.[0]}`;
  if (kind === 'unchanged-broken') return `${kind} ${detail.split(' ')[0]}`;
  if (kind === 'rule-broken') return `${kind} ${detail.replace(/ person \d=/, ' person=')}`;
  if (kind === 'adjust-without-reading' || kind === 'physics-forbids-set' || kind === 'derived-from-stale') {
    return `${kind} ${at} ${detail.replace(/ (absent|stale)$/, '')}`;
  }
  return `${kind} ${at} ${detail.replace(/^person \d/, 'person')}`;
}

function factsOf(violation: Violation): readonly string[] {
  const { kind, place, end, rule, value, input, changed, missing } = violation;
  const at =
    end && kind !== 'rule-broken' ? `end ${end}` : [place?.end ?? '', ...(place?.calls ?? []), place?.step].join('/');
  if (familyOf[kind]) {
    return missing.map(({ state, person, wanted }) => {
      const name = state === 'person' ? `person ${person ?? 1}` : state;
      return `${familyOf[kind]} ${name}=${wanted.join('|')}`;
    });
  }
  if (kind === 'rule-broken')
    return missing.map(({ state, wanted }) => `${kind} ${rule?.id} ${state}=${wanted.join('|')}`);
  if (kind === 'unchanged-broken') return [`${kind} ${rule?.id}`];
  if (kind === 'not-restored') return missing.map(({ state }) => `${kind} ${at} ${state}`);
  if (kind === 'physics-forbids-set') return [`${kind} ${at} ${changed?.state} ${changed?.by}`];
  if (kind === 'derived-from-stale') return [`${kind} ${at} ${value} ${input}`];
  return [`${kind} ${at} ${value}`];
}

function triggersOf({ triggered }: OrderResult): readonly string[] {
  return [...triggered].sort();
}

function expectedTriggers(expected: ReadonlyMap<string, number>): readonly string[] {
  const ids = [...expected.keys()].filter((key) => key.startsWith('trigger')).map((key) => key.split(' @ ')[2] ?? '');
  return [...new Set(ids)].sort();
}
