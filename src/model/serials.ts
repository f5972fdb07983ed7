// The order of serials, and stretches of them. A serial is text: no arithmetic, and counting only to find neighbours.

import type { SerialEnd } from './resolved.js';

/** A stretch of serials; a missing end is open. */
export interface Stretch {
  readonly from?: SerialEnd;
  readonly to?: SerialEnd;
}

/**
 * Run by run of digits and letters: runs of digits by their number, letters by the alphabet without regard to capitals,
 * digits before letters, the shorter first where one is the beginning of the other. What is neither does not count:
 * `70-00300` and `70 300` are the same serial.
 */
export function compareSerials(a: string, b: string): number {
  const [runsA, runsB] = [runsOf(a), runsOf(b)];
  for (let i = 0; i < Math.min(runsA.length, runsB.length); i += 1) {
    const order = compareRuns(runsA[i] ?? '', runsB[i] ?? '');
    if (order !== 0) return order;
  }
  return runsA.length - runsB.length;
}

/** A serial as what stands before its last run of digits, and that run; undefined where it has no digits. */
export function countIn(serial: string): { readonly before: string; readonly count: bigint } | undefined {
  const runs = runsOf(serial);
  const last = runs.findLastIndex((run) => /^\d/.test(run));
  const digits = runs[last];
  if (digits === undefined || last !== runs.length - 1) return undefined;
  return { before: runs.slice(0, last).join(' '), count: BigInt(digits) };
}

function runsOf(serial: string): readonly string[] {
  return serial.toUpperCase().match(/\d+|\p{L}+/gu) ?? [];
}

function compareRuns(a: string, b: string): number {
  const digits = Number(/^\d/.test(b)) - Number(/^\d/.test(a));
  if (digits !== 0) return digits;
  if (!/^\d/.test(a)) return a < b ? -1 : a > b ? 1 : 0;
  const [plainA, plainB] = [a.replace(/^0+/, ''), b.replace(/^0+/, '')];
  return plainA.length - plainB.length || (plainA < plainB ? -1 : plainA > plainB ? 1 : 0);
}

/** A place between serials: right before `serial`, or right after it. */
export interface Cut {
  readonly serial: string;
  readonly side: 'before' | 'after';
}

/** Both parts of a stretch that a cut makes; a part is missing where it would be empty. */
export function cutStretch(stretch: Stretch, cut: Cut): { readonly below?: Stretch; readonly above?: Stretch } {
  const { from, to } = stretch;
  const below = { ...(from ? { from } : {}), to: { serial: cut.serial, included: cut.side === 'after' } };
  const above = { from: { serial: cut.serial, included: cut.side === 'before' }, ...(to ? { to } : {}) };
  const startsAbove = from && compareEnds(lowerEdge(from), lowerEdge(above.from)) >= 0;
  const endsBelow = to && compareEnds(upperEdge(to), upperEdge(below.to)) <= 0;
  if (startsAbove) return { above: stretch };
  if (endsBelow) return { below: stretch };
  return { below, above };
}

/** Whether a serial lies in a stretch. */
export function isInStretch(stretch: Stretch, serial: string): boolean {
  const { from, to } = stretch;
  const after = !from || compareSerials(from.serial, serial) < (from.included ? 1 : 0);
  return after && (!to || compareSerials(serial, to.serial) < (to.included ? 1 : 0));
}

interface Edge {
  readonly serial: string;
  /** -1 right before the serial, 1 right after it. */
  readonly side: -1 | 1;
}

function lowerEdge(end: SerialEnd): Edge {
  return { serial: end.serial, side: end.included ? -1 : 1 };
}

function upperEdge(end: SerialEnd): Edge {
  return { serial: end.serial, side: end.included ? 1 : -1 };
}

function compareEnds(a: Edge, b: Edge): number {
  return compareSerials(a.serial, b.serial) || a.side - b.side;
}
