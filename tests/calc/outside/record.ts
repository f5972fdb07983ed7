// Comparing a computed number with one from outside, and keeping what was compared for the table in src/calc/README.md.
// Nothing is written unless CALC_TABLE names a folder.

import { appendFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';

/** What is checked against what. */
export interface Claim {
  /** The exported function. */
  readonly of: string;
  /** The published source, or the second method. */
  readonly against: string;
}

/** Deviation that was found in one comparison; `unit` is `relative`, `absolute`, `ulp`, `units of the last printed digit` or `digits lost`. */
export interface Found extends Claim {
  readonly deviation: number;
  readonly unit: string;
}

/** Notes one comparison that held. */
export function note(found: Found): void {
  const folder = process.env.CALC_TABLE;
  if (folder === undefined || folder === '') return;
  appendFileSync(join(folder, `${process.pid}.jsonl`), `${JSON.stringify(found)}\n`);
}

/** Asserts |actual - expected| <= within * |expected| (within alone where 0 is expected). */
export function expectRelative(actual: number, expected: number, within: number, claim: Claim): void {
  const scale = expected === 0 ? 1 : Math.abs(expected);
  const deviation = Math.abs(actual - expected) / scale;
  expect(deviation, `${claim.of}: ${actual} against ${expected} (${claim.against})`).toBeLessThanOrEqual(within);
  note({ ...claim, deviation, unit: 'relative' });
}

/** Asserts |actual - expected| <= within. */
export function expectAbsolute(actual: number, expected: number, within: number, claim: Claim): void {
  const deviation = Math.abs(actual - expected);
  expect(deviation, `${claim.of}: ${actual} against ${expected} (${claim.against})`).toBeLessThanOrEqual(within);
  note({ ...claim, deviation, unit: 'absolute' });
}

/** Asserts that `actual`, rounded to the digits printed, is what is printed (`'0.0029'`, `'16.7'`, `'1002'`). */
export function expectPrinted(actual: number, printed: string, claim: Claim): void {
  const decimals = printed.split('.')[1]?.length ?? 0;
  const unit = 10 ** -decimals;
  // Half a unit, with room for the binary form of the printed number.
  const deviation = Math.abs(actual - Number(printed)) / unit;
  expect(deviation, `${claim.of}: ${actual} against printed ${printed} (${claim.against})`).toBeLessThanOrEqual(
    0.5 + 1e-9,
  );
  note({ ...claim, deviation, unit: 'units of the last printed digit' });
}

/** Asserts that both are the same, and counts it as a comparison without deviation. */
export function expectSame(actual: unknown, expected: unknown, claim: Claim): void {
  expect(actual, `${claim.of} (${claim.against})`).toEqual(expected);
  note({ ...claim, deviation: 0, unit: 'exact' });
}

/** The folder with outside vectors too large to type in, or undefined where none is named. */
export function outsideFolder(): string | undefined {
  const folder = process.env.OUTSIDE_VALUES;
  return folder === undefined || folder === '' ? undefined : folder;
}
