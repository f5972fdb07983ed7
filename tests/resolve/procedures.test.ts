import { describe, expect, it } from 'vitest';
import { rigLabel } from '../../src/model/rig.js';
import { type Changes, learn, plain, procedureFor, variantsOf, workOut } from './resolved.js';

const id = 'learn-height-range';
const inLearn = (...pairs: readonly (readonly [string, string])[]): Changes => ({ [learn]: pairs });
const park = '  - id: park\n';

/** A small procedure with some of its lines given. */
const small = (steps: string, more = 'applies: all'): string => `---
title: A small one
kind: inspection
summary: Looks at it.
revision: 1
status: released
${more}
tools: none
supplies: none
hazards: none
requires: none
steps:
${steps}
leaves: none
---
`;

describe('steps', () => {
  const changes = inLearn([park, `  - { id: tilt, do: Centre the tilt., only: { option: lateral-tilt } }\n${park}`]);

  it('are numbered over all rigs, and a rig that lacks one has a gap', () => {
    const numbers = variantsOf(workOut(changes), id).map(({ rigs, procedure }) => [
      rigs.map(rigLabel).join(' '),
      procedure.steps.slice(-3).map((step) => `${step.number} ${step.id}`),
    ]);
    expect(numbers).toEqual([
      ['tarn-40+row-12x20+lateral-tilt', ['9 tilt', '10 park', '11 void']],
      ['tarn-40+row-12x20~lateral-tilt', ['8 store-high', '10 park', '11 void']],
      ['tarn-60+row-12x20', ['8 store-high', '10 park', '11 void']],
    ]);
  });

  it('that lead to a step which some rigs lack are an error for these', () => {
    const worked = workOut({
      [learn]: [
        [park, `  - { id: tilt, do: Centre the tilt., only: { option: lateral-tilt } }\n${park}`],
        ['then: done', 'then: tilt'],
      ],
    });
    expect(worked.found).toEqual(['missing-target: tilt']);
    expect(worked.diagnostics[0]?.rigs).toEqual(['tarn-40+row-12x20~lateral-tilt', 'tarn-60+row-12x20']);
  });

  it('that have nothing left to read are an error for these rigs', () => {
    const worked = workOut(
      inLearn(
        [
          'steps:\n',
          '  tilt:\n    label: Tilt\n    limits: 2.0 to 3.0 V\n    only: { option: lateral-tilt }\nsteps:\n',
        ],
        [park, `  - { id: read-tilt, do: Read it., measure: tilt, when: { outside: call-service } }\n${park}`],
      ),
    );
    expect(worked.found).toEqual(['value-not-on-rig: tilt']);
    expect(worked.diagnostics[0]?.rigs).toEqual(['tarn-40+row-12x20~lateral-tilt', 'tarn-60+row-12x20']);
  });

  it('read what the rig has of a list', () => {
    const worked = workOut(
      inLearn(
        [
          'steps:\n',
          '  tilt:\n    label: Tilt\n    limits: 2.0 to 3.0 V\n    only: { option: lateral-tilt }\nsteps:\n',
        ],
        ['measure: [raised, travel]', 'measure: [raised, travel, tilt]'],
      ),
    );
    expect(worked.found).toEqual([]);
    const measured = variantsOf(worked, id).map(({ procedure }) => procedure.steps[3]?.measure);
    expect(measured).toEqual([
      ['raised', 'travel', 'tilt'],
      ['raised', 'travel'],
      ['raised', 'travel'],
    ]);
  });

  it('cannot work a value out from one that the rig has not', () => {
    const worked = workOut(
      inLearn([
        '    source: common practice\n  travel:',
        '    source: common practice\n    only: { option: lateral-tilt }\n  travel:',
      ]),
    );
    // and then tarn-60 has no use for its entry of the choice
    expect(worked.found).toEqual(['unused-choice-entry: tarn-60', 'value-not-on-rig: raised']);
    expect(worked.diagnostics[1]?.rigs).toEqual(['tarn-40+row-12x20~lateral-tilt', 'tarn-60+row-12x20']);
  });

  it('have bundles filled in, with where these come from', () => {
    const worked = workOut(inLearn([park, `  - { id: reach, do: Look inside., needs: safe-to-reach-in }\n${park}`]));
    const step = procedureFor(worked, id, 'tarn-40').steps.find((one) => one.id === 'reach');
    expect(step?.needs.map(({ state, test, bundle }) => [state, test.kind === 'words' && test.words, bundle])).toEqual([
      ['automatic-height', ['off'], 'safe-to-reach-in'],
      ['engine', ['off'], 'safe-to-reach-in'],
      ['motion', ['stopped'], 'safe-to-reach-in'],
      ['header', ['on-ground', 'on-stop'], 'safe-to-reach-in'],
    ]);
  });
});

describe('words', () => {
  it('differ by machine where the step does not', () => {
    const worked = workOut();
    const say = (machine: string): string | undefined => procedureFor(worked, id, machine).steps[5]?.do?.en;
    expect([say('tarn-40'), say('tarn-60')].map((text) => plain(text ?? ''))).toEqual([
      'Hold **LEARN** for 2 to 3 s.',
      'Hold **SET RANGE** for 2 to 3 s.',
    ]);
  });

  it('that a machine lacks are an error for its rigs', () => {
    const worked = workOut({ 'machines/tarn-60.yaml': [['words: { learn_key: SET RANGE }\n', '']] });
    expect(worked.found).toEqual([
      'missing-word: {machine.learn_key}',
      'missing-word: {machine.learn_key}',
      'missing-word: {machine.learn_key}',
    ]);
    expect(worked.diagnostics[0]).toMatchObject({
      message: '`tarn-60` has no word or parameter `learn_key`',
      rigs: ['tarn-60+row-12x20'],
    });
  });

  it('show parameters of the rig, joined to their units', () => {
    const worked = workOut(
      inLearn(['Lower the header to the ground.', 'Look: {header.row_spacing}, {machine.sensor_reads}.']),
    );
    expect(procedureFor(worked, id, 'tarn-40').steps[8]?.do?.en).toBe(
      'Look: 20\u00a0in (508\u00a0mm), 0.25 to 4.75\u00a0V.',
    );
  });

  it('show nothing of a value that has no limits', () => {
    const worked = workOut(
      inLearn(
        ['steps:\n', '  odd:\n    label: An odd one\n    quantity: voltage\n    unit: V\nsteps:\n'],
        ['Lower the header to the ground.', 'Look whether it reads {odd}.'],
      ),
    );
    expect(worked.found).toEqual(['placeholder-without-value: {odd}']);
  });

  it('are those of the first language where a translation is missing', () => {
    const worked = workOut({
      'book.yaml': [['languages: [en]', 'languages: [en, es]']],
      'states.yaml': [['{ label: Engine, is: ["off",', '{ label: { en: Engine, es: Motor }, is: ["off",']],
      'sensors/learn-height-range.es.md': `---
translates: 3
title: Aprender la altura del cabezal
summary: Guarda lo que leen los sensores.
steps:
  store-low: { do: "Mantenga **{machine.learn_key}** durante {hold}." }
---

La pantalla muestra {raised}.
`,
    });
    expect(worked.found).toEqual([]);
    const found = procedureFor(worked, id, 'tarn-40');
    expect(found.title).toEqual({ en: 'Learn the header height range', es: 'Aprender la altura del cabezal' });
    expect(found.steps[5]?.do?.es).toBe('Mantenga **LEARN** durante 2 a 3\u00a0s.');
    expect(found.steps[0]?.do?.es).toBe(found.steps[0]?.do?.en);
    expect(found.requires[0]?.words).toEqual({ en: 'Engine: Low idle', es: 'Motor: Low idle' });
    expect(found.prose.es?.map(({ markdown }) => markdown.trim())).toEqual(['La pantalla muestra 0.73 a 1.07\u00a0V.']);
  });
});

describe('a procedure that runs another', () => {
  const run = inLearn([park, `  - { id: shut, run: shut-down }\n${park}`]);

  it('has its steps for the same rig', () => {
    const worked = workOut({
      ...run,
      'sensors/shut-down.md': small('  - { id: off, do: "Press {machine.learn_key}." }'),
    });
    expect(worked.found).toEqual([]);
    const words = variantsOf(worked, id).map(({ procedure }) => procedure.steps[8]?.run?.steps[0]?.do?.en);
    expect(words).toEqual(['Press LEARN.', 'Press SET RANGE.']);
  });

  it('is an error where that one does not apply to the rig', () => {
    const worked = workOut({
      ...run,
      'sensors/shut-down.md': small('  - { id: off, do: Press it. }', 'applies: { machine: tarn-40 }'),
    });
    expect(worked.found).toEqual(['run-does-not-apply: shut-down']);
    expect(worked.diagnostics[0]?.rigs).toEqual(['tarn-60+row-12x20']);
  });

  it('splits where that one does', () => {
    const worked = workOut({
      ...run,
      'sensors/shut-down.md': small(
        '  - { id: off, do: Press it. }\n  - { id: centre, do: Centre it., only: { option: lateral-tilt } }',
      ),
    });
    expect(variantsOf(worked, id).flatMap(({ rigs }) => rigs.map(rigLabel))).toEqual([
      'tarn-40+row-12x20+lateral-tilt',
      'tarn-40+row-12x20~lateral-tilt',
      'tarn-60+row-12x20',
    ]);
  });

  it('changes its content with that one', () => {
    const hashes = ['Press it.', 'Press that.'].map((words) => {
      const worked = workOut({ ...run, 'sensors/shut-down.md': small(`  - { id: off, do: ${words} }`) });
      return variantsOf(worked, id)[0]?.hash;
    });
    expect(hashes[0]).not.toBe(hashes[1]);
  });
});

describe('ends', () => {
  const ends: Changes = {
    'safety.yaml': [['rules:\n', 'ends: { call-service: { run: make-safe, must: { engine: "off" } } }\nrules:\n']],
    'sensors/make-safe.md': small('  - { id: off, do: "Leave {machine.learn_key}." }'),
  };

  it('have what is run at them, for the same rig', () => {
    const worked = workOut(ends);
    expect(worked.found).toEqual([]);
    const found = variantsOf(worked, id).map(({ ends: own }) => own.get('call-service')?.steps[0]?.do?.en);
    expect(found).toEqual(['Leave LEARN.', 'Leave SET RANGE.']);
    expect(worked.book.world.ends.get('call-service')?.must.map(({ state }) => state)).toEqual(['engine']);
  });

  it('are left out where nothing leads to them', () => {
    const worked = workOut(ends);
    expect([...(variantsOf(worked, 'make-safe')[0]?.ends ?? [])]).toEqual([]);
  });
});

describe('the world', () => {
  it('has states in words, physics and rules with their bundles', () => {
    const { world } = workOut().book;
    const engine = world.variables.find((variable) => variable.id === 'engine');
    expect(engine?.values).toEqual(['off', 'low-idle', 'working-speed']);
    expect(engine?.valueLabels.get('low-idle')).toEqual({ en: 'Low idle' });
    expect(world.rules[0]?.must.map(({ state, bundle }) => [state, bundle])).toEqual([
      ['automatic-height', 'safe-to-go-under'],
      ['engine', 'safe-to-go-under'],
      ['key', 'safe-to-go-under'],
      ['motion', 'safe-to-go-under'],
      ['header', 'safe-to-go-under'],
    ]);
    expect(world.physics.map(({ then }) => then.map(({ test }) => test.kind))).toEqual([
      ['words'],
      ['words', 'words'],
      ['words', 'unknown'],
    ]);
  });

  it('cannot depend on the rig', () => {
    const limits =
      'when: { lift-stop: stowed, oil-temperature: { tarn-40: at least 10 degF, other: at least 20 degF } }';
    const worked = workOut({ 'states.yaml': [['when: { lift-stop: stowed }', limits]] });
    expect(worked.found).toEqual(['depends-on-rig: { tarn-40: at least 10 degF, other: at least 20 degF }']);
  });
});

describe('some rigs alone', () => {
  it('are worked out where they are named', () => {
    const worked = workOut({}, 'tarn-60');
    expect(worked.book.variants.flatMap(({ rigs }) => rigs.map(rigLabel))).toEqual(['tarn-60+row-12x20']);
  });

  it('keep the parts that were named', () => {
    const worked = workOut({}, 'tarn-40+row-12x20+lateral-tilt#70-00317');
    expect(worked.book.variants.flatMap(({ rigs }) => rigs.map(rigLabel))).toEqual([
      'tarn-40+row-12x20+lateral-tilt#70-00317..70-00317',
    ]);
  });

  it('are an error where a part is unknown', () => {
    const worked = workOut({}, 'tarn-61');
    expect(worked.diagnostics).toMatchObject([
      { code: 'unknown-rig', help: 'Did you mean `tarn-60` or `tarn-40`?', severity: 'error' },
    ]);
    expect(worked.book.variants).toEqual([]);
  });
});

describe('a machine with thirty options', () => {
  const options = Array.from({ length: 30 }, (_, i) => `  option-${i}: { is: optional, tell: It has part ${i}. }`);
  const machine: Changes = { 'machines/tarn-40.yaml': [['options:\n', `options:\n${options.join('\n')}\n`]] };

  it('has four variants for a procedure that reads two of them', () => {
    const worked = workOut({
      ...machine,
      ...inLearn([
        park,
        `  - { id: a, do: Look., only: { option: option-3 } }\n  - { id: b, do: Look., only: { option: option-17 } }\n${park}`,
      ]),
    });
    const rigs = variantsOf(worked, id).map((variant) => variant.rigs.map(rigLabel).join(' '));
    expect(rigs).toEqual([
      'tarn-40+row-12x20+option-17+option-3',
      'tarn-40+row-12x20+option-17~option-3',
      'tarn-40+row-12x20+option-3~option-17',
      'tarn-40+row-12x20~option-17~option-3',
      'tarn-60+row-12x20',
    ]);
  });

  it('that a procedure reads all is an error, said plainly', () => {
    const steps = options.map((_, i) => `  - { id: s-${i}, do: Look., only: { option: option-${i} } }\n`).join('');
    const worked = workOut({ ...machine, ...inLearn([park, `${steps}${park}`]) });
    expect(worked.diagnostics.map(({ code }) => code)).toEqual(['too-many-rigs']);
  });
});
