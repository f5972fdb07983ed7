// The words for faults of order, on random small procedures: every fault is said by one rule, in whole sentences, and what is
// left out as a repetition lies behind a fault that is said.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/model/book.js';
import type { ResolvedBook } from '../../src/model/resolved.js';
import { proveVariant } from '../../src/order/prove.js';
import type { Repair, StepPlace, Violation } from '../../src/order/result.js';
import { rules } from '../../src/rules/index.js';
import { withoutRepeats } from '../../src/rules/order/follow-ups.js';
import { helpFor } from '../../src/rules/order/help.js';
import { runRules } from '../../src/rules/run.js';
import { buildCase, type Case, randomCase } from '../order/random.js';

const seed = 1105;
const numRuns = 300;
const patience = 120_000;

const proofRules = rules.filter(({ needs }) => needs === 'proof');

function judge(each: Case) {
  const { variant, world } = buildCase(each);
  const result = proveVariant(variant, world, { budget: 200_000 });
  const settings = { languages: ['en'] };
  const book = { settings, procedures: new Map(), states: new Map(), rules: [] } as unknown as Book;
  const resolved: ResolvedBook = { book, world, variants: [variant], rigs: [] };
  const diagnostics = runRules(proofRules, { resolved, book, proofs: new Map([[variant.id, result]]) });
  return { result, diagnostics };
}

describe('The words for faults of order', () => {
  it('are whole sentences without gaps', { timeout: patience }, () => {
    let said = 0;
    fc.assert(
      fc.property(randomCase, (each) => {
        for (const { message, help, note, related } of judge(each).diagnostics) {
          said += 1;
          const texts = [message, help, note, ...related.map((place) => place.message)];
          for (const text of texts) expect(text ?? '').not.toMatch(/``|undefined| {2}|\[object| ,|: ;|;;/);
          expect(message).not.toMatch(/[.]$/);
          expect(help).toMatch(/^[A-Z`].*[.]$/);
          if (note !== undefined) expect(note).toMatch(/^[A-Z`].*[.]$/);
        }
      }),
      { seed, numRuns },
    );
    expect(said).toBeGreaterThan(numRuns);
  });

  it('leave nothing unsaid that does not lie behind something said', { timeout: patience }, () => {
    let dropped = 0;
    fc.assert(
      fc.property(randomCase, (each) => {
        const { variant, world } = buildCase(each);
        const { violations } = proveVariant(variant, world, { budget: 200_000, repairs: false });
        const kept = withoutRepeats(violations, world);
        const places = new Set(kept.map(keyOf));
        for (const violation of violations) {
          if (kept.some((one) => keyOf(one) === keyOf(violation))) continue;
          dropped += 1;
          const path = violation.trace.map(({ place }) => placeKey(place));
          const before = kept.filter(
            ({ place, end }) => (place && path.includes(placeKey(place))) || end === violation.end,
          );
          expect(before.length).toBeGreaterThan(0);
        }
        expect(places.size > 0).toBe(violations.length > 0);
      }),
      { seed: seed + 1, numRuns },
    );
    expect(dropped).toBeGreaterThan(0);
  });
});

describe('What is unsafe at a step', () => {
  it('is said also where the step leads to a call that begins somewhere else', () => {
    const { variant, world } = buildCase({
      world: {
        states: { a: '0 1', person: 'cab beside start=cab' },
        rules: ['r0: person=beside must a=1'],
      },
      main: { values: { v: 'limits' }, steps: ['s0 | at beside | measure v | outside call-service'] },
      callee: { steps: ['inner'] },
      end: { steps: ['safe'] },
      endRuns: true,
    });
    const { violations } = proveVariant(variant, world, { budget: 200_000, repairs: false });
    expect(violations.map(({ kind }) => kind)).toContain('place-not-met-at-run');
    expect(withoutRepeats(violations, world).map(({ kind }) => kind)).toContain('rule-broken');
  });
});

describe('The words for a repair', () => {
  const at = { file: 'a.md', start: 0, end: 1 };
  const place = (step: string, number: string): StepPlace => ({ procedure: 'a', step, number, calls: [], at });
  const help = (repair: Repair): string => helpFor({ repair } as Violation, 'Do something else', ['mend it']);
  const tried = '(tried: it mends this and breaks nothing else); or mend it.';

  it('say what to write and where', () => {
    const before = place('look', '3');
    const sets = [
      { state: 'engine', values: ['off'] },
      { state: 'header', values: ['on-stop'] },
    ];
    expect(help({ kind: 'insert-step', before, sets, place: 'cab' })).toBe(
      `Before step 3 \`look\`, add the step that does it, with \`at: cab\` and \`sets: { engine: "off", header: on-stop }\` ${tried}`,
    );
    expect(help({ kind: 'insert-run', before, procedure: 'shut-down' })).toBe(
      `Before step 3 \`look\`, add a step with \`run: shut-down\` ${tried}`,
    );
    expect(help({ kind: 'move-step', step: place('wait', '4'), before })).toBe(
      `Move step 4 \`wait\` to before step 3 \`look\` ${tried}`,
    );
    expect(help({ kind: 'set-place', step: before, place: 'cab' })).toBe(`Give step 3 \`look\` \`at: cab\` ${tried}`);
  });

  it('only offer to read something along, since it may not be there to be read', () => {
    expect(help({ kind: 'measure', step: place('look', '3'), value: 'raised' })).toBe(
      `Do something else; or add \`raised\` to what step 3 \`look\` measures, if it can be read there ${tried}`,
    );
  });

  it('name the thing to do where nothing was tried', () => {
    expect(helpFor({} as Violation, 'Do something else')).toBe('Do something else.');
  });
});

function keyOf(violation: Violation): string {
  const { kind, at, place, end, rule, value, input } = violation;
  return JSON.stringify([kind, at, place?.step, place?.calls, end, rule?.id, value, input]);
}

function placeKey({ procedure, step, calls, end }: StepPlace): string {
  return JSON.stringify([procedure, step, calls, end]);
}
