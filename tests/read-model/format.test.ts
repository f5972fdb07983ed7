// The examples of the book format, letter by letter, are read without a fault; and each part comes out as it was meant.

import { describe, expect, it } from 'vitest';
import { englishFiles, formatFiles, placesOf, read, withoutHints } from './books.js';

const { book, diagnostics } = read(formatFiles);
const procedure = (id: string) => {
  const found = book.procedures.get(id);
  if (!found) throw new Error(`no procedure ${id}`);
  return found;
};

describe('the examples of the format', () => {
  it('give no error and no warning in a book of one language', () => {
    expect(placesOf(read(englishFiles).diagnostics, englishFiles)).toEqual([]);
  });

  it('lack only the Spanish safety texts, which a book with Spanish must have', () => {
    expect(placesOf(withoutHints(diagnostics), formatFiles)).toEqual([
      'safety.yaml:4:11-4:44 missing-language',
      'safety.yaml:5:11-5:30 missing-language',
      'safety.yaml:6:12-6:53 missing-language',
    ]);
    expect(book.unread).toEqual(new Set());
  });

  it('give every kind of file', () => {
    expect([...book.procedures.keys()].sort()).toEqual(['everything-else', 'learn-height-range', 'wrong-step']);
    expect([...book.machines.keys()]).toEqual(['tarn-40']);
    expect([...book.headers.keys()]).toEqual(['row-12x20']);
    expect([...book.instruments.keys()]).toEqual(['display', 'multimeter', 'truck-scale']);
    expect([...book.states.keys()]).toHaveLength(8);
    expect([...book.hazards.keys()]).toEqual(['moving-header']);
    expect([...book.bundles.keys()]).toEqual(['safe-to-reach-in', 'safe-to-go-under']);
    expect(book.rules.map(({ id }) => id)).toEqual(['under-the-header', 'nothing-moves-over-people']);
    expect([...book.ends.keys()]).toEqual(['stop']);
    expect(book.physics).toHaveLength(3);
    expect(book.terms).toHaveLength(2);
    expect(book.fleet.map(({ id }) => id.value)).toEqual(['unit-17']);
    expect([...book.crops.keys()]).toEqual(['corn']);
  });

  it('keep the settings of the book', () => {
    const { languages, jobs, units, decision, reviewEvery, phone } = book.settings;
    expect({ languages, units, decision, phone: phone.value }).toEqual({
      languages: ['en', 'es'],
      units: 'us',
      decision: 'guarded',
      phone: '555-0134',
    });
    expect(jobs.map(({ id }) => id.value)).toEqual(['hook-up', 'first-pass', 'in-the-crop', 'wrong', 'put-away']);
    expect(reviewEvery?.value).toBe(12);
  });

  it('keep versions and serials as text', () => {
    const machine = book.machines.get('tarn-40');
    expect(machine?.software.map(({ module, versions }) => [module.value, versions.map(({ value }) => value)])).toEqual(
      [['display', ['3.10', '4.2']]],
    );
    expect(machine?.serials).toMatchObject({ from: '70-00100', to: '70-04999' });
    expect(machine?.options.map(({ id, is }) => [id, is])).toEqual([
      ['lateral-tilt', 'optional'],
      ['ride-damping', 'standard'],
    ]);
    expect(machine?.tell?.figure?.file.value).toBe('figures/tarn-40-plate.svg');
  });

  it('keep what a procedure says of itself', () => {
    const { kind, revision, status, reviewed, verified, due, voidedBy, folder, time, leaves } =
      procedure('learn-height-range');
    expect([kind.value, revision.value, status.value, folder]).toEqual(['calibration', 3, 'released', 'sensors']);
    expect([reviewed?.on?.value, reviewed?.by?.value, reviewed?.next?.value]).toEqual([
      '2026-09-02',
      'Service desk',
      '2027-08-01',
    ]);
    expect(verified.map(({ machine, how }) => [machine.value, how.value])).toEqual([['tarn-40', 'on-machine']]);
    expect(due?.kind).toBe('season');
    expect(voidedBy).toHaveLength(4);
    expect(time && Object.keys(time).sort()).toEqual(['at', 'handsOn', 'waiting']);
    expect([...leaves.keys()]).toEqual(['done']);
  });

  it('tell a state with words from one with a quantity', () => {
    const tests = procedure('learn-height-range').requires.map(({ state, test }) => [state.value, test.kind]);
    expect(tests).toEqual([
      ['engine', 'words'],
      ['automatic-height', 'words'],
      ['threshing-drive', 'words'],
      ['oil-temperature', 'limits'],
    ]);
  });

  it('parse limits, choices and derived values', () => {
    const [onGround, raised, travel] = procedure('learn-height-range').values;
    expect(onGround?.limits).toMatchObject({ kind: 'one', value: { expr: { kind: 'single' } } });
    expect(raised?.limits).toMatchObject({
      kind: 'choice',
      entries: [{ key: { value: 'tarn-40' } }, { key: { value: 'tarn-60' } }],
    });
    expect(travel?.from?.expr).toMatchObject({ kind: 'binary', op: '-' });
  });

  it('find the places of texts', () => {
    const step = procedure('learn-height-range').steps.find(({ id }) => id.value === 'store-low');
    const text = step?.do?.languages.get('en');
    expect(
      text?.kind === 'one' && text.value.parts.map((part) => (part.kind === 'place' ? part.path : part.text)),
    ).toEqual(['Hold **', 'machine.learn_key', '** for ', 'hold', '.']);
    expect(step?.otherwise).toMatchObject({ go: { value: 'void' }, means: { kind: 'map' } });
  });

  it('find the headings that are steps', () => {
    const sections = procedure('learn-height-range').prose.get('en') ?? [];
    expect(sections.map(({ heading, step }) => [heading?.text, step])).toEqual([
      ['Why the range is learned', undefined],
      ['lower', 'lower'],
    ]);
  });

  it('read adjusters, worksheets, questions, loops and groups', () => {
    const { adjusters, worksheets, steps, anyOrder, people, waivers, forEach } = procedure('everything-else');
    expect(adjusters[0]?.moves.map(({ value }) => value.value)).toEqual(['on_ground', 'raised']);
    expect(worksheets[0]?.columns.map(({ id }) => id)).toEqual(['flow', 'shown', 'scale', 'error']);
    expect(worksheets[0]?.results.map(({ id }) => id)).toEqual(['worst']);
    expect(
      steps.find(({ id }) => id.value === 'which')?.answers.map(({ key, branch }) => [key.value, branch.go.value]),
    ).toEqual([
      ['yes', 'clean'],
      ['no', 'sweep'],
    ]);
    expect(steps.find(({ id }) => id.value === 'try')?.then).toMatchObject({
      go: { value: 'lower' },
      atMost: { value: 3 },
      otherwise: { go: { value: 'call-service' } },
    });
    expect(steps.find(({ id }) => id.value === 'chain')?.mark).toHaveLength(5);
    expect(anyOrder.map((group) => group.map(({ value }) => value))).toEqual([['check-left', 'check-right']]);
    expect(people.value).toBe(2);
    expect(forEach?.values.map(({ value }) => value)).toEqual(['left', 'right']);
    expect(waivers.map(({ code }) => code.value)).toEqual(['long-sentence']);
  });
});
