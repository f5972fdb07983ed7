import { describe, expect, it } from 'vitest';
import type { Variant } from '../../src/model/resolved.js';
import { rigLabel } from '../../src/model/rig.js';
import { type Changes, learn, plain, variantsOf, workOut } from './resolved.js';

const id = 'learn-height-range';
const limits = '{ tarn-40: 0.9 ± 0.2 V, tarn-60: 0.7 to 1.0 V }';
const withLimits = (text: string, more: readonly (readonly [string, string])[] = []): Changes => ({
  [learn]: [[limits, text], ...more],
});

/** Rigs to the tolerance of the raised reading, variant by variant. */
const raised = (variants: readonly Variant[]): readonly (readonly [string, string])[] =>
  variants.map(({ rigs, procedure }) => [
    rigs.map(rigLabel).join(' '),
    plain(procedure.values.find((value) => value.id === 'raised')?.shown.tolerance ?? ''),
  ]);

describe('a choice', () => {
  it('by machine', () => {
    expect(raised(variantsOf(workOut(), id))).toEqual([
      ['tarn-40+row-12x20', '0.7 to 1.1 V'],
      ['tarn-60+row-12x20', '0.7 to 1.0 V'],
    ]);
  });

  it('by header, with `other`', () => {
    const worked = workOut(
      withLimits('{ platform-30: 0.8 to 1.2 V, other: 0.7 to 1.0 V }', [['  header: { type: row }\n', '']]),
    );
    expect(worked.found).toEqual([]);
    expect(raised(variantsOf(worked, id))).toEqual([
      ['tarn-40+row-12x20', '0.7 to 1.0 V'],
      ['tarn-40+platform-30', '0.8 to 1.2 V'],
      ['tarn-60+row-12x20', '0.7 to 1.0 V'],
    ]);
  });

  it('by header type', () => {
    const worked = workOut(
      withLimits('{ row: 0.8 to 1.2 V, platform: 0.7 to 1.0 V }', [['  header: { type: row }\n', '']]),
    );
    expect(worked.found).toEqual([]);
    expect(raised(variantsOf(worked, id)).map(([, shown]) => shown)).toEqual([
      '0.8 to 1.2 V',
      '0.7 to 1.0 V',
      '0.8 to 1.2 V',
    ]);
  });

  it('by option splits the rigs that may have it', () => {
    const worked = workOut(withLimits('{ lateral-tilt: 0.8 to 1.2 V, other: 0.7 to 1.0 V }'));
    expect(worked.found).toEqual([]);
    expect(raised(variantsOf(worked, id))).toEqual([
      ['tarn-40+row-12x20+lateral-tilt', '0.8 to 1.2 V'],
      ['tarn-40+row-12x20~lateral-tilt', '0.7 to 1.0 V'],
      ['tarn-60+row-12x20', '0.7 to 1.0 V'],
    ]);
  });

  it('by software version', () => {
    const worked = workOut(withLimits('{ "3.10": 0.8 to 1.2 V, "4.2": 0.7 to 1.0 V, other: 0.6 to 1.0 V }'));
    expect(worked.found).toEqual([]);
    expect(raised(variantsOf(worked, id))).toEqual([
      ['tarn-40+row-12x20@3.10', '0.8 to 1.2 V'],
      ['tarn-40+row-12x20@4.2', '0.7 to 1.0 V'],
      ['tarn-60+row-12x20', '0.6 to 1.0 V'],
    ]);
  });

  it('inside a choice', () => {
    const worked = workOut(
      withLimits('{ tarn-40: { lateral-tilt: 0.8 to 1.2 V, other: 0.7 to 1.0 V }, tarn-60: 0.6 to 1.0 V }'),
    );
    expect(worked.found).toEqual([]);
    expect(raised(variantsOf(worked, id)).map(([, shown]) => shown)).toEqual([
      '0.8 to 1.2 V',
      '0.7 to 1.0 V',
      '0.6 to 1.0 V',
    ]);
  });

  it('of equal content is one variant', () => {
    const worked = workOut(
      withLimits('{ lateral-tilt: 0.7 to 1.0 V, other: 0.7 to 1.0 V }', [
        ['card: Hold {machine.learn_key} 2', 'card: Hold it 2'],
        ['Hold **{machine.learn_key}** for {hold}.       #', 'Hold it for {hold}.       #'],
        ['Hold **{machine.learn_key}** for {hold}.\n', 'Hold it for {hold}.\n'],
      ]),
    );
    expect(worked.found).toEqual([]);
    expect(raised(variantsOf(worked, id))).toEqual([['tarn-40+row-12x20 tarn-60+row-12x20', '0.7 to 1.0 V']]);
    expect(variantsOf(worked, id)[0]?.id).toBe(id);
  });

  it('without an entry for a rig that uses it', () => {
    const worked = workOut(withLimits('{ tarn-40: 0.9 ± 0.2 V }'));
    expect(worked.found).toEqual(['choice-not-covered: { tarn-40: 0.9 ± 0.2 V }']);
    expect(worked.diagnostics[0]).toMatchObject({
      message: 'This choice has no entry for `tarn-60`',
      rigs: ['tarn-60+row-12x20'],
      severity: 'error',
    });
  });

  it('in a parameter needs no entry for a rig that does not use it', () => {
    const parameter = {
      'machines/tarn-40.yaml': [['  sensor_reads: 0.25 to 4.75 V', '  sensor_reads: { row-12x20: 0.25 to 4.75 V }']],
    } as const;
    expect(workOut(parameter).found).toEqual([]);
    const worked = workOut({ ...parameter, [learn]: [['  header: { type: row }\n', '']] });
    expect(worked.found).toEqual(['choice-not-covered: { row-12x20: 0.25 to 4.75 V }']);
    expect(worked.diagnostics[0]?.rigs).toEqual(['tarn-40+platform-30']);
  });

  it('with two entries for one rig', () => {
    const worked = workOut({
      'machines/tarn-40.yaml': [['options:\n', 'options:\n  ride-damping: standard\n']],
      ...withLimits('{ lateral-tilt: 0.8 to 1.2 V, ride-damping: 0.7 to 1.0 V, other: 0.6 to 1.0 V }'),
    });
    expect(worked.found).toEqual(['choice-ambiguous: ride-damping']);
    expect(worked.diagnostics[0]?.message).toBe(
      'Two entries of this choice fit the same rig: `lateral-tilt` and `ride-damping`',
    );
    expect(worked.diagnostics[0]?.rigs).toEqual(['tarn-40+row-12x20+lateral-tilt']);
    expect(worked.diagnostics[0]?.related).toHaveLength(1);
  });

  it('with an entry that no rig picks', () => {
    const worked = workOut(withLimits('{ row: 0.9 ± 0.2 V, platform: 0.7 to 1.0 V }'));
    expect(worked.found).toEqual(['unused-choice-entry: platform']);
    expect(worked.diagnostics[0]?.severity).toBe('warning');
  });

  it('says nothing of unused entries where only some rigs are looked at', () => {
    expect(workOut({}, 'tarn-40').found).toEqual([]);
  });

  it('of texts counts like one of numbers', () => {
    const worked = workOut({
      [learn]: [['do: Leave automatic height off.', 'do: { tarn-40: Leave it off., tarn-60: Leave it so. }']],
    });
    expect(worked.found).toEqual([]);
    const last = variantsOf(worked, id).map(({ procedure }) => procedure.steps.at(-1)?.do);
    expect(last).toEqual([{ en: 'Leave it off.' }, { en: 'Leave it so.' }]);
  });
});

describe('serials and software in `only`', () => {
  const step = (only: string): Changes => ({
    [learn]: [['  - id: park\n', `  - { id: x, do: Look at it., only: ${only} }\n  - id: park\n`]],
  });
  const rigsWithStep = (only: string): readonly string[] =>
    variantsOf(workOut(step(only)), id)
      .filter(({ procedure }) => procedure.steps.some((one) => one.id === 'x'))
      .flatMap(({ rigs }) => rigs.map(rigLabel));

  it.each([
    ['{ serials: from 70-00300 }', ['tarn-40+row-12x20#70-00300..70-04999', 'tarn-60+row-12x20#70-00300..']],
    ['{ machine: tarn-40, serials: to 70-00300 }', ['tarn-40+row-12x20#70-00100..70-00300']],
    ['{ machine: tarn-40, serials: 70-00300 to 70-00400 }', ['tarn-40+row-12x20#70-00300..70-00400']],
    [
      '{ machine: tarn-40, not: { serials: 70-00300 to 70-00400 } }',
      ['tarn-40+row-12x20#70-00100..(70-00300)', 'tarn-40+row-12x20#(70-00400)..70-04999'],
    ],
    ['{ software: at least 4.2 }', ['tarn-40+row-12x20@4.2']],
    ['{ software: at least 3.10 }', ['tarn-40+row-12x20']],
    ['{ not: { software: at least 4.2 } }', ['tarn-40+row-12x20@3.10', 'tarn-60+row-12x20']],
    ['{ not: { machine: tarn-40 } }', ['tarn-60+row-12x20']],
    ['{ machine: [tarn-40, tarn-60], option: lateral-tilt }', ['tarn-40+row-12x20+lateral-tilt']],
  ])('%s', (only, rigs) => {
    expect(workOut(step(only)).found).toEqual([]);
    expect(rigsWithStep(only)).toEqual(rigs);
  });

  it('is reported where no rig can meet it', () => {
    const worked = workOut(step('{ machine: tarn-60, option: lateral-tilt }'));
    expect(worked.found).toEqual(['only-for-nothing: { machine: tarn-60, option: lateral-tilt }']);
  });

  it('is reported where the ends are reversed or outside the machine', () => {
    expect(workOut(step('{ machine: tarn-40, serials: 70-00400 to 70-00300 }')).found[0]).toBe(
      'serials-reversed: 70-00400 to 70-00300',
    );
    expect(workOut(step('{ machine: tarn-40, serials: from 7-00300 }')).found).toEqual([
      'serial-outside-machine: 7-00300',
    ]);
  });
});

describe('applies', () => {
  it('to nothing is an error', () => {
    const worked = workOut({ [learn]: [['  header: { type: row }', '  header: { type: draper }']] });
    expect(worked.diagnostics.map(({ code }) => code)).toEqual(['applies-to-nothing']);
  });

  it('to a machine that meets no other key is pointed out', () => {
    const worked = workOut({
      [learn]: [
        ['  header: { type: row }', '  header: { type: platform }'],
        [limits, '0.9 ± 0.2 V'],
      ],
    });
    expect(worked.found).toEqual(['applies-in-part: tarn-60']);
    expect(worked.diagnostics[0]?.severity).toBe('hint');
  });

  it('to all has every rig of the book', () => {
    const worked = workOut({
      [learn]: [['applies:\n  machine: [tarn-40, tarn-60]\n  header: { type: row }', 'applies: all']],
    });
    expect(variantsOf(worked, id).flatMap(({ rigs }) => rigs.map(rigLabel))).toEqual([
      'tarn-40+row-12x20',
      'tarn-40+platform-30',
      'tarn-60+row-12x20',
    ]);
  });
});
