// What must hold of any procedure: dependent steps cannot be exchanged unnoticed, names do not matter, the same input
// gives the same proof.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { proveVariant } from '../../src/order/prove.js';
import { makeProcedure, makeVariant, makeWorld } from './build.js';
import { buildCase, type Case, randomCase } from './random.js';
import { pathOf, proveFully, summarize } from './summary.js';

const seed = 20_241;

interface Chain {
  readonly states: number;
  /** For each step: the earlier steps whose state it needs. */
  readonly needs: readonly (readonly number[])[];
}

// Each step sets a state of its own and needs those of some steps before it.
const chain: fc.Arbitrary<Chain> = fc.integer({ min: 2, max: 8 }).chain((states) =>
  fc
    .tuple(
      ...Array.from({ length: states }, (_, i) =>
        fc.subarray(
          Array.from({ length: i }, (__, j) => j),
          { maxLength: Math.min(i, 3) },
        ),
      ),
    )
    .map((needs) => ({ states, needs })),
);

function proveChain({ states, needs }: Chain, order: readonly number[]): readonly string[] {
  const world = makeWorld({
    states: Object.fromEntries(Array.from({ length: states }, (_, i) => [`x${i}`, 'no yes'])),
    physics: ['x0=yes -> x1=yes|no'],
  });
  const steps = order.map((i) => {
    const wanted = (needs[i] ?? []).map((j) => `x${j}=yes`).join(', ');
    return `s${i} | sets x${i}=yes${wanted === '' ? '' : ` | needs ${wanted}`}`;
  });
  return summarize(
    proveVariant(makeVariant(makeProcedure('main', { steps })), world, { budget: 100_000, repairs: false }),
  );
}

describe('Two dependent steps', () => {
  it('are always reported when they are exchanged', () => {
    let reversed = 0;
    fc.assert(
      fc.property(chain, fc.nat(), (each, pick) => {
        const order = each.needs.map((_, i) => i);
        expect(proveChain(each, order)).toEqual([]);
        const pairs = each.needs.flatMap((needed, later) => needed.map((earlier) => [earlier, later] as const));
        const pair = pairs[pick % Math.max(1, pairs.length)];
        if (!pair) return;
        reversed += 1;
        const [earlier, later] = pair;
        const exchanged = order.map((i) => (i === earlier ? later : i === later ? earlier : i));
        const told = proveChain(each, exchanged);
        expect(
          told.some(
            (text) =>
              text.startsWith('need-not-met') && text.includes(` s${later}: `) && text.includes(`x${earlier} is`),
          ),
        ).toBe(true);
      }),
      { seed, numRuns: 300 },
    );
    expect(reversed).toBeGreaterThan(200);
  });

  it('are never reported when neither needs the other', () => {
    fc.assert(
      fc.property(chain, fc.nat(), (each, pick) => {
        const free = each.needs.flatMap((needed, i) => (i > 0 && !needed.includes(i - 1) ? [i] : []));
        const later = free[pick % Math.max(1, free.length)];
        if (later === undefined) return;
        const order = each.needs.map((_, i) => (i === later ? i - 1 : i === later - 1 ? later : i));
        expect(proveChain(each, order)).toEqual([]);
      }),
      { seed, numRuns: 100 },
    );
  });
});

function renamed(text: string): string {
  return text
    .replaceAll(/\b([abcqvwd])\b/g, 'other-$1')
    .replaceAll(/\bs(\d)\b/g, 'step-$1')
    .replaceAll(/\br(\d)\b/g, 'rule-$1');
}

function tell(each: Case): readonly string[] {
  const { variant, world } = buildCase(each);
  const result = proveVariant(variant, world, { budget: 1_000_000, repairs: false });
  const paths = result.violations.map((violation) => pathOf(violation));
  return summarize(result)
    .map((text, i) => `${text} by ${paths[i]}`)
    .sort();
}

describe('Names', () => {
  it('change nothing but names', () => {
    fc.assert(
      fc.property(randomCase, (each) => {
        const other = JSON.parse(renamed(JSON.stringify(each))) as Case;
        expect(tell(other)).toEqual(tell(each).map(renamed).sort());
      }),
      { seed, numRuns: 150 },
    );
  });
});

describe('A proof', () => {
  it('is the same each time, and changes nothing that it is given', () => {
    fc.assert(
      fc.property(randomCase, (each) => {
        const { variant, world } = buildCase(each);
        const frozen = freeze({ variant, world });
        const strip = (result: ReturnType<typeof proveFully>): unknown => ({
          ...result,
          violations: summarize(result),
        });
        expect(strip(proveFully(frozen.variant, frozen.world))).toEqual(strip(proveFully(variant, world)));
      }),
      { seed, numRuns: 60 },
    );
  });
});

function freeze<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  Object.freeze(value);
  for (const part of value instanceof Map ? value.values() : Object.values(value)) freeze(part);
  return value;
}
