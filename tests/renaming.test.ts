// Ids are names and nothing more: a book whose ids are all called otherwise gets the same messages at the same lines, with the
// names in them called otherwise, whatever is wrong with it.

import { assert, constantFrom, nat, property, subarray, tuple } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { base, damaged, diagnosticsOf, type Files, slips } from './damaged-book.js';

/** Ids of every kind that no text for people holds as a word of its own. */
const ids = [
  ...['tarn-40', 'tarn-60', 'row-12x20', 'platform-30', 'lateral-tilt', 'learn-height-range'],
  ...['on_ground', 'sensor_reads', 'learn_key', 'row_spacing', 'working_width'],
  ...['read-on-ground', 'read-raised', 'lower-again', 'store-low', 'raise-again', 'store-high'],
  ...['moving-header', 'safe-to-reach-in', 'safe-to-go-under', 'under-the-header', 'nothing-moves-over-people'],
  ...['automatic-height', 'threshing-drive', 'oil-temperature', 'height-range', 'lift-stop'],
  ...['low-idle', 'working-speed', 'on-ground', 'on-stop', 'header-swap', 'sensor-change'],
];

const renamed = (id: string): string => (id.includes('_') ? `${id}_q` : `${id}-q`);

function rename(text: string, chosen: readonly string[]): string {
  return chosen.reduce((now, id) => now.replaceAll(new RegExp(`(?<![\\w-])${id}(?![\\w-])`, 'g'), renamed(id)), text);
}

function renameBook(files: Files, chosen: readonly string[]): Files {
  return new Map([...files].map(([path, text]) => [rename(path, chosen), rename(text, chosen)]));
}

function messagesOf(files: Files): readonly string[] {
  return diagnosticsOf(files).map(
    ({ code, severity, at, line, message }) => `${severity} ${code} ${at.file}:${line} ${message}`,
  );
}

describe('ids', () => {
  it('are all in the base book', () => {
    const whole = [...base].flat().join('\n');
    expect(ids.filter((id) => rename(whole, [id]) === whole)).toEqual([]);
    expect(messagesOf(base).filter((message) => !message.startsWith('hint'))).toEqual([]);
  });

  it('change nothing but names when they are called otherwise', () => {
    let faults = 0;
    assert(
      property(tuple(nat(1000), constantFrom(...slips), subarray(ids, { minLength: 1 })), ([line, slip, chosen]) => {
        const files = damaged(line, slip);
        const [before, after] = [messagesOf(files), messagesOf(renameBook(files, chosen))];
        faults += before.length;
        expect([...after].sort()).toEqual(before.map((message) => rename(message, chosen)).sort());
      }),
      { numRuns: 120, seed: 11 },
    );
    expect(faults).toBeGreaterThan(120);
  });
});
