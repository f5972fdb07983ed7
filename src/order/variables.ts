// States, places of people and readings as variables with finitely many values. A quantity is cut into cells at every
// limit that anything in reach mentions. Sets of values are bit sets; no paths here.

import type { Limits } from '../calc/limits.js';
import { compare, divide, exactDecimals, formatDecimals, type Rational, subtract, zero } from '../calc/rational.js';
import type { Unit } from '../calc/unit.js';
import type { ResolvedCondition, ResolvedVariable, World } from '../model/resolved.js';
import type { StateSet } from './result.js';

/** How a reading may stand, in the order of its bits. */
export const readingValues = ['absent', 'passed', 'failed', 'stale'] as const;

export const absent = 1n;
export const passed = 2n;
export const failed = 4n;
export const stale = 8n;

export interface Variable {
  readonly index: number;
  /** The state's id, or the value's for a reading. */
  readonly id: string;
  readonly kind: 'state' | 'person' | 'reading';
  /** Counted from 1. */
  readonly person?: number;
  readonly values: readonly string[];
  /** Where the cells of a quantity are cut, ascending. */
  readonly cuts?: readonly Cut[];
  /** It is remembered what it was at the start: an atom is then a pair of that and the value now. */
  readonly paired: boolean;
  readonly source?: ResolvedVariable;
}

interface Cut {
  readonly at: Rational;
  readonly unit: Unit;
}

/** All variables of one proof. */
export interface Space {
  readonly variables: Variable[];
  /** State id to its variable; one for each person where it is the place of people. */
  readonly states: ReadonlyMap<string, readonly Variable[]>;
  readonly people: number;
}

/** The id of the state that says where a person is. */
export const personState = 'person';

/** Makes the variables of a world. `mentioned` are all conditions in reach: they say where quantities are cut. */
export function makeSpace(world: World, people: number, mentioned: readonly ResolvedCondition[]): Space {
  const variables: Variable[] = [];
  const states = new Map<string, readonly Variable[]>();
  const cuts = cutsByState(mentioned);
  for (const source of world.variables) {
    const own = source.values.length > 0 ? undefined : (cuts.get(source.id) ?? []);
    const values = own ? cellIds(own) : source.values;
    const persons = source.id === personState ? Array.from({ length: people }, (_, i) => i + 1) : [undefined];
    const made = persons.map((person): Variable => {
      const variable: Variable = {
        index: variables.length,
        id: source.id,
        kind: person === undefined ? 'state' : 'person',
        ...(person === undefined ? {} : { person }),
        values,
        ...(own ? { cuts: own } : {}),
        paired: source.restore,
        source,
      };
      variables.push(variable);
      return variable;
    });
    states.set(source.id, made);
  }
  return { variables, states, people };
}

/** Adds the reading of a value in one run of a procedure. */
export function addReading(space: Space, id: string): Variable {
  const variable: Variable = {
    index: space.variables.length,
    id,
    kind: 'reading',
    values: readingValues,
    paired: false,
  };
  space.variables.push(variable);
  return variable;
}

/** Every value. */
export function fullMask(variable: Variable): bigint {
  return (1n << BigInt(variable.values.length)) - 1n;
}

/** The atoms whose value now is in `mask`. */
export function atomsOf(variable: Variable, mask: bigint): bigint {
  if (!variable.paired) return mask;
  const size = BigInt(variable.values.length);
  let atoms = 0n;
  for (let first = 0n; first < size; first += 1n) atoms |= mask << (first * size);
  return atoms;
}

/** The values now of some atoms. */
export function maskOf(variable: Variable, atoms: bigint): bigint {
  if (!variable.paired) return atoms;
  const size = BigInt(variable.values.length);
  const full = fullMask(variable);
  let mask = 0n;
  for (let rest = atoms; rest > 0n; rest >>= size) mask |= rest & full;
  return mask;
}

/** The atoms after the value became any of `mask`, whatever it was. */
export function assignAtoms(variable: Variable, atoms: bigint, mask: bigint): bigint {
  if (!variable.paired) return mask;
  const size = BigInt(variable.values.length);
  const full = fullMask(variable);
  let result = 0n;
  let shift = 0n;
  for (let rest = atoms; rest > 0n; rest >>= size) {
    if ((rest & full) !== 0n) result |= mask << shift;
    shift += size;
  }
  return result;
}

/** The atoms at the start, where each value is what it was: `mask` says which are possible. */
export function startAtoms(variable: Variable, mask: bigint): bigint {
  if (!variable.paired) return mask;
  return mapBits(variable, (i, size) => (mask & (1n << i) ? 1n << (i * size + i) : 0n));
}

/** The atoms in which the value now is not what it was at the start, nor in `safe`. */
export function changedAtoms(variable: Variable, safe: bigint): bigint {
  const rest = fullMask(variable) & ~safe;
  return mapBits(variable, (i, size) => (rest & ~(1n << i)) << (i * size));
}

function mapBits(variable: Variable, part: (i: bigint, size: bigint) => bigint): bigint {
  const size = BigInt(variable.values.length);
  let atoms = 0n;
  for (let i = 0n; i < size; i += 1n) atoms |= part(i, size);
  return atoms;
}

/** A condition as a set of values of a variable. */
export interface Wanted {
  readonly variable: Variable;
  readonly mask: bigint;
  readonly condition: ResolvedCondition;
}

/** What a condition says of a variable; undefined for a state or words that the world does not know (the check of names says so). */
export function readCondition(space: Space, condition: ResolvedCondition, person: number): Wanted | undefined {
  const found = space.states.get(condition.state);
  const variable = found && (found.find((each) => each.person === person) ?? found[0]);
  if (!variable) return undefined;
  const mask = maskOfTest(variable, condition);
  return mask === 0n ? undefined : { variable, mask, condition };
}

function maskOfTest(variable: Variable, { test }: ResolvedCondition): bigint {
  if (test.kind === 'unknown') return fullMask(variable);
  if (test.kind === 'limits') return variable.cuts ? maskOfLimits(variable.cuts, test.limits) : 0n;
  return maskOfWords(variable, test.words);
}

/** The bits of some of its words. */
export function maskOfWords(variable: Variable, words: readonly string[]): bigint {
  let mask = 0n;
  variable.values.forEach((value, i) => {
    if (words.includes(value)) mask |= 1n << BigInt(i);
  });
  return mask;
}

// cells 0, 2, 4 … are the open stretches between the cuts, 1, 3, 5 … the cuts themselves
function maskOfLimits(cuts: readonly Cut[], limits: Limits): bigint {
  const place = (end: Rational): number => {
    const found = cuts.findIndex((cut) => compare(cut.at, end) === 0);
    if (found < 0) throw new Error('A limit of a state was not among those mentioned');
    return 2 * found + 1;
  };
  const from = limits.low ? place(limits.low) : 0;
  const to = limits.high ? place(limits.high) : 2 * cuts.length;
  return from > to ? 0n : ((1n << BigInt(to - from + 1)) - 1n) << BigInt(from);
}

function cutsByState(mentioned: readonly ResolvedCondition[]): ReadonlyMap<string, readonly Cut[]> {
  const byState = new Map<string, Cut[]>();
  for (const { state, test } of mentioned) {
    if (test.kind !== 'limits') continue;
    const cuts = byState.get(state) ?? [];
    byState.set(state, cuts);
    for (const end of [test.limits.low, test.limits.high]) {
      if (end && !cuts.some((cut) => compare(cut.at, end) === 0)) cuts.push({ at: end, unit: test.limits.unit });
    }
  }
  for (const cuts of byState.values()) cuts.sort((a, b) => compare(a.at, b.at));
  return byState;
}

function cellIds(cuts: readonly Cut[]): readonly string[] {
  return Array.from({ length: 2 * cuts.length + 1 }, (_, i) => String(i));
}

/** Values in words: ids, or the stretches of a quantity. */
export function describeMask(variable: Variable, mask: bigint): readonly string[] {
  if (variable.cuts) return describeCells(variable.cuts, mask);
  return variable.values.filter((_, i) => mask & (1n << BigInt(i)));
}

/** A set of values as the result shows it. */
export function asStateSet(space: Space, variable: Variable, mask: bigint): StateSet {
  const shown = variable.person !== undefined && space.people > 1 ? { person: variable.person } : {};
  return { state: variable.id, ...shown, values: describeMask(variable, mask) };
}

function describeCells(cuts: readonly Cut[], mask: bigint): readonly string[] {
  const texts: string[] = [];
  const last = 2 * cuts.length;
  const has = (cell: number): boolean => (mask & (1n << BigInt(cell))) !== 0n;
  for (let from = 0; from <= last; from += 1) {
    if (!has(from)) continue;
    let to = from;
    while (to < last && has(to + 1)) to += 1;
    texts.push(describeStretch(cuts, from, to));
    from = to;
  }
  return texts;
}

function describeStretch(cuts: readonly Cut[], from: number, to: number): string {
  const low = from > 0 ? cutText(cuts[(from - 1) >> 1]) : undefined;
  const high = to < 2 * cuts.length ? cutText(cuts[to >> 1]) : undefined;
  if (from === to && from % 2 === 1) return low ?? '';
  const lower = low === undefined ? undefined : from % 2 === 1 ? `at least ${low}` : `above ${low}`;
  const upper = high === undefined ? undefined : to % 2 === 1 ? `at most ${high}` : `below ${high}`;
  return [lower, upper].filter((part) => part !== undefined).join(' and ') || 'anything';
}

function cutText(cut: Cut | undefined): string {
  if (!cut) return '';
  const value = divide(subtract(cut.at, cut.unit.offset ?? zero), cut.unit.factor);
  const digits = formatDecimals(value, exactDecimals(value, 6) ?? 6);
  return cut.unit.symbol === '' ? digits : `${digits}\u00a0${cut.unit.symbol}`;
}
