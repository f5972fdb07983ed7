// The example of the book format: the right procedure is clean, the wrong step breaks both safety rules, with the path.

import { describe, expect, it } from 'vitest';
import { exampleProcedure, exampleWorld, wrongProcedure } from './example.js';
import { pathOf, prove, summarize } from './summary.js';

describe('The example procedure of the format', () => {
  const result = prove(exampleWorld, exampleProcedure);

  it('compiles clean', () => {
    expect(summarize(result)).toEqual([]);
    expect(result.complete).toBe(true);
    expect(result.unreachable).toEqual([]);
    expect(result.idle).toEqual([]);
    expect([...result.ends].sort()).toEqual(['call-service', 'done']);
  });

  it('triggers no rule: nobody leaves the cab', () => {
    expect([...result.triggered]).toEqual([]);
  });

  it('knows what is certain before each step', () => {
    const store = result.facts.find(({ place }) => place.step === 'store-high');
    expect(Object.fromEntries((store?.before ?? []).map(({ state, values }) => [state, values.join('|')]))).toEqual({
      engine: 'low-idle',
      header: 'raised',
      'lift-stop': 'stowed',
      key: 'in',
      electrics: 'live',
      person: 'cab',
      'automatic-height': 'off',
      'threshing-drive': 'disengaged',
      'height-range': 'invalid',
      'oil-temperature': 'at least 311',
    });
    expect(store?.hazards).toEqual([]);
    expect(result.facts.find(({ place }) => place.step === 'lower')?.hazards).toEqual(['moving-header']);
  });
});

describe('The wrong step of the format', () => {
  const result = prove(exampleWorld, wrongProcedure);
  const broken = result.violations.filter(({ rule }) => rule);

  it('breaks both safety rules', () => {
    const told = broken.map(({ kind, rule, place }) => `${kind} ${rule?.id} ${place?.step}`);
    expect(told).toEqual(['unchanged-broken nothing-moves-over-people lower', 'rule-broken under-the-header turn-now']);
  });

  it('says what is missing and who took it away', () => {
    const [, under] = broken;
    expect(summarize({ ...result, violations: under ? [under] : [] })).toEqual([
      'rule-broken 3 turn-now under-the-header: engine is low-idle, wanted off, lost start; ' +
        'key is in, wanted removed, lost start; motion is running|coasting|stopped, wanted stopped, lost start; ' +
        'header is on-ground, wanted on-stop, lost lower sets',
    ]);
    expect(under?.triggeredBy).toEqual([{ state: 'person', values: ['under-header'] }]);
  });

  it('shows the shortest way there', () => {
    const [unchanged, under] = broken;
    expect(under && pathOf(under)).toBe('1 2 3');
    expect(under?.trace.at(-1)).toMatchObject({ stands: ['cab', 'under-header'], moved: true });
    // a person who reads the display while turning is in the cab or still under the header
    expect(unchanged && pathOf(unchanged)).toBe('1 2 3(then) 1');
    expect(unchanged?.changed).toEqual({ state: 'header', by: 'sets' });
  });

  it('belongs to the hazard of the rules', () => {
    expect(result.facts.find(({ place }) => place.step === 'turn-now')).toMatchObject({
      hazards: ['moving-header'],
      rules: ['under-the-header', 'nothing-moves-over-people'],
    });
  });
});
