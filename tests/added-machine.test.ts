// A machine more in the book changes nothing for the others, whatever is wrong with the book.

import { assert, constantFrom, nat, pre, property, record } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { base, damaged, diagnosticsOf, type Files, procedure, slips } from './damaged-book.js';

const added = 'machines/tarn-50.yaml';
const machines = 'machine: [tarn-40, tarn-60]';

/** Ranges in which the readings of the learned range may fall, or not. */
const ranges = ['0.25 to 4.75 V', '0.3 to 4.7 V', '2.5 to 3.5 V', '4 to 4.9 V'];

function withMachine(files: Files, range: string, key: string): Files {
  return new Map([
    ...files,
    [
      added,
      `name: Tarn 50\ntell: The plate inside the cab door reads TARN 50.\nheaders: [row-12x20]\nwords: { learn_key: ${key} }\nparameters:\n  sensor_reads: ${range}\n`,
    ],
  ]);
}

/** What is wrong, without the words, which may name all machines that it is true of. Hints look at the book as a whole. */
function placesOf(files: Files): readonly string[] {
  return diagnosticsOf(files)
    .filter(({ at, severity }) => at.file !== added && severity !== 'hint')
    .map(({ code, severity, at, line }) => `${severity} ${code} ${at.file}:${line}`);
}

const damage = record({
  line: nat(1000),
  slip: constantFrom(...slips),
  range: constantFrom(...ranges),
  key: constantFrom('LEARN', 'RANGE'),
});

describe('a machine more', () => {
  it('changes no message where no procedure is for it', () => {
    let faults = 0;
    assert(
      property(damage, ({ line, slip, range, key }) => {
        const files = damaged(line, slip);
        // where that line is the damage, the procedure is for every machine
        pre(files.get(procedure)?.includes(machines) ?? false);
        const before = diagnosticsOf(files);
        faults += before.length;
        const after = diagnosticsOf(withMachine(files, range, key)).filter(({ at }) => at.file !== added);
        expect(after.map(({ message }) => message)).toEqual(before.map(({ message }) => message));
      }),
      { numRuns: 40, seed: 12 },
    );
    expect(faults).toBeGreaterThan(40);
  });

  it('hides nothing of the others where the same procedure is for it, and adds only what is wrong with it', () => {
    let more = 0;
    assert(
      property(damage, ({ line, slip, range, key }) => {
        const files = damaged(line, slip);
        const wider = (files.get(procedure) ?? '')
          .replace(machines, 'machine: [tarn-40, tarn-60, tarn-50]')
          .replace('tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.7 to 1.0 V, tarn-50: 0.7 to 1.0 V');
        const before = placesOf(files);
        const after = placesOf(new Map([...withMachine(files, range, key), [procedure, wider]]));
        expect(after).toEqual(expect.arrayContaining([...before]));
        more += after.length - before.length;
        if (range === ranges[0]) expect([...after].sort()).toEqual([...before].sort());
      }),
      { numRuns: 60, seed: 13 },
    );
    expect(more).toBeGreaterThan(0);
  });

  it('leaves the clean book clean', () => {
    const files = withMachine(base, ranges[0] ?? '', 'LEARN');
    expect(placesOf(files)).toEqual([]);
  });
});
