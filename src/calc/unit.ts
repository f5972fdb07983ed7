// Units of the trade as exact factors, and how a written unit (`ft/min`, `sq ft`, `V/deg`) is read.
// Which units there are stands in unit-table.ts.

import { asDifference, noUnit } from './conversion.js';
import type { Dimension } from './dimension.js';
import { isDimensionless, multiplyDimensions, raiseDimension, sameDimension } from './dimension.js';
import { equals, multiply, one, power } from './rational.js';
import { counterpartOf, simpleUnits, unitsByOtherWords } from './unit-table.js';
import type { Unit } from './unit-type.js';

export { asDifference, fromBase, isConvertible, isSameSize, noUnit, toBase } from './conversion.js';
export type { Dimension } from './dimension.js';
export type { Unit } from './unit-type.js';

/** Where a unit was found in a text: `end` is the offset behind it. */
export interface FoundUnit {
  readonly unit: Unit;
  readonly end: number;
}

const wordAt = /[\p{L}%°Ω][\p{L}\p{Nd}_°]*/uy;
const powerAt = /\^(-?\d)(?!\d)|([²³])/y;

/** The end of the run of letters that begins at `at`; `at` itself where none does. */
export function wordEnd(text: string, at: number): number {
  wordAt.lastIndex = at;
  return wordAt.test(text) ? wordAt.lastIndex : at;
}

interface Part {
  readonly symbol: string;
  readonly power: number;
}

/**
 * The longest unit that begins at `at`: `sq ft` before `sq`, `ft/min` before `ft`. Its own `/ * · ^ -` stand without
 * spaces. Undefined where the word there is no unit.
 */
export function scanUnit(text: string, at: number): FoundUnit | undefined {
  const found = scanParts(text, at);
  const unit = found && combine(found.parts);
  return unit && { unit, end: found.end };
}

function scanParts(text: string, at: number): { parts: readonly Part[]; end: number } | undefined {
  const first = scanFactor(text, at);
  if (!first) return undefined;
  const parts: Part[] = [first.part];
  let end = first.end;
  for (;;) {
    const joint = text[end] ?? '';
    const next = '/*·⋅-'.includes(joint) && joint !== '' ? scanFactor(text, end + 1) : undefined;
    // in `5 V*min(a, b)` the minute is a function
    if (!next || text[next.end] === '(') return { parts, end };
    const last = parts.at(-1);
    // `lb-ft` is a torque of its own, not a pound of mass times a foot
    const joined = `${last?.symbol}·${next.part.symbol}`;
    if (joint !== '/' && last?.power === 1 && next.part.power === 1 && simpleUnits.has(joined)) {
      parts[parts.length - 1] = { symbol: joined, power: 1 };
    } else parts.push(joint === '/' ? { ...next.part, power: -next.part.power } : next.part);
    end = next.end;
  }
}

function scanFactor(text: string, at: number): { part: Part; end: number } | undefined {
  const symbol = scanSymbol(text, at);
  if (!symbol) return undefined;
  powerAt.lastIndex = symbol.end;
  const raised = powerAt.exec(text);
  if (!raised) return { part: { symbol: symbol.text, power: 1 }, end: symbol.end };
  const exponent = raised[1] ? Number(raised[1]) : raised[2] === '²' ? 2 : 3;
  return { part: { symbol: symbol.text, power: exponent }, end: powerAt.lastIndex };
}

function scanSymbol(text: string, at: number): { text: string; end: number } | undefined {
  const end = wordEnd(text, at);
  if (end === at) return undefined;
  const word = text.slice(at, end);
  const spaces = /^[ \u00a0\u2009\u202f]+/.exec(text.slice(end, end + 8))?.[0].length ?? 0;
  if (spaces > 0) {
    const second = wordEnd(text, end + spaces);
    const both = `${word} ${text.slice(end + spaces, second)}`;
    if (simpleUnits.has(both)) return { text: both, end: second };
  }
  return simpleUnits.has(word) ? { text: word, end } : undefined;
}

/** The unit that a whole text names: `ft/min`, `lb/bu`, `m/s^2`; undefined where it names none. */
export function findUnit(text: string): Unit | undefined {
  const found = scanUnit(text, 0);
  return found && found.end === text.length ? found.unit : undefined;
}

// a temperature inside a compound unit is a difference: `V/degC` knows no zero point
function combine(parts: readonly Part[]): Unit | undefined {
  const [only] = parts;
  if (!only) return undefined;
  if (parts.length === 1 && only.power === 1) return simpleUnits.get(only.symbol);
  let result: Unit = noUnit;
  const systems = new Set<string>();
  const codes: string[] = [];
  for (const { symbol, power: exponent } of parts) {
    const unit = simpleUnits.get(symbol);
    if (!unit || exponent === 0) return undefined;
    systems.add(unit.system);
    codes.push(unit.ucum === undefined || unit.offset ? '' : raiseCode(unit.ucum, exponent));
    result = {
      ...result,
      dimension: multiplyDimensions(result.dimension, raiseDimension(unit.dimension, exponent)),
      factor: multiply(result.factor, power(unit.factor, exponent)),
      pi: result.pi + unit.pi * exponent,
    };
  }
  const system = systems.has('us') ? 'us' : systems.has('si') ? 'si' : 'both';
  const { dimension, factor, pi } = result;
  const symbol = writeParts(parts);
  return codes.includes('')
    ? { symbol, dimension, factor, pi, system }
    : { symbol, dimension, factor, pi, system, ucum: codes.join('.') };
}

function raiseCode(code: string, exponent: number): string {
  const grouped = /[/.]/.test(code) ? `(${code})` : code;
  return exponent === 1 ? grouped : `${grouped}${exponent}`;
}

function writeParts(parts: readonly Part[]): string {
  let text = '';
  for (const { symbol, power: exponent } of parts) {
    const below = exponent < 0 && text !== '';
    const shown = below ? -exponent : exponent;
    const raised = shown === 1 ? '' : shown === 2 ? '²' : shown === 3 ? '³' : `^${shown}`;
    text += `${text === '' ? '' : below ? '/' : '·'}${symbol}${raised}`;
  }
  return text;
}

/** Whether a word may not be a name because it is a unit. */
export function isUnitWord(word: string): boolean {
  return simpleUnits.has(word);
}

/** The units nearest to a word that is none: `v` gives `V`, `inch` gives `in`. At most three, the best first. */
export function nearestUnits(word: string): readonly string[] {
  const plain = word.toLowerCase().replaceAll(/[\s°._]/g, '');
  const meant = word === '°' ? 'deg' : unitsByOtherWords.get(plain);
  if (meant) return [meant];
  const sameLetters = [...simpleUnits.keys()].filter((symbol) => symbol.toLowerCase() === plain);
  if (sameLetters.length > 0) return sameLetters.slice(0, 3);
  if (plain.length < 3) return [];
  const symbols = [...simpleUnits.keys()].filter(
    (symbol) => symbol.length > 2 && isOneSlip(symbol.toLowerCase(), plain),
  );
  const words = [...unitsByOtherWords].filter(([other]) => other.length > 3 && isOneSlip(other, plain));
  return [...new Set([...symbols, ...words.map(([, symbol]) => symbol)])].slice(0, 3);
}

function isOneSlip(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let [from, back] = [0, 0];
  while (from < a.length && from < b.length && a[from] === b[from]) from += 1;
  while (back < Math.min(a.length, b.length) - from && a.at(-1 - back) === b.at(-1 - back)) back += 1;
  const [restA, restB] = [a.slice(from, a.length - back), b.slice(from, b.length - back)];
  return (restA.length <= 1 && restB.length <= 1) || (restA.length === 2 && restA === [...restB].reverse().join(''));
}

/**
 * The unit that shows the same quantity in the other system: `lb` gives `kg`, `ft/min` gives `m/min`, `degC` gives
 * `degF`. Undefined where there is none: `V` belongs to both, and a bushel has no counterpart.
 */
export function otherSystemUnit(unit: Unit): Unit | undefined {
  if (unit.system === 'both' || isDimensionless(unit.dimension)) return undefined;
  const direct = counterpartOf(unit.symbol);
  if (direct !== undefined) return keepKind(findUnit(direct), unit);
  const symbols = unit.symbol.split(/([/·])/);
  if (symbols.length === 1 && !/[²³^]/.test(unit.symbol)) return undefined;
  const translated: string[] = [];
  for (const symbol of symbols) {
    const [, base = '', exponent = ''] = /^(.*?)([²³]|\^-?\d)?$/.exec(symbol) ?? [];
    const own = simpleUnits.get(base);
    const other = own && own.system !== 'both' ? counterpartOf(base) : base;
    if (other === undefined) return undefined;
    translated.push(other + exponent);
  }
  return keepKind(findUnit(translated.join('')), unit);
}

function keepKind(other: Unit | undefined, like: Unit): Unit | undefined {
  return other && !like.offset ? asDifference(other) : other;
}

/**
 * The unit of a product or quotient of values in two units: `V` by `deg` is `V/deg`, `lb/bu` times `bu` is `lb`. Undefined
 * where nothing is left of it but a number, or it has no symbol.
 */
export function combineUnits(left: Unit, right: Unit, op: '*' | '/'): Unit | undefined {
  const turn = op === '*' ? 1 : -1;
  const parts = [...partsOfUnit(left), ...partsOfUnit(right).map((part) => ({ ...part, power: part.power * turn }))];
  const merged: Part[] = [];
  for (const part of parts) {
    const same = merged.findIndex(({ symbol }) => symbol === part.symbol);
    const before = merged[same];
    if (before) merged[same] = { symbol: part.symbol, power: before.power + part.power };
    else merged.push(part);
  }
  const remaining = merged
    .filter(({ power: exponent }) => exponent !== 0)
    .sort((a, b) => Math.sign(b.power) - Math.sign(a.power));
  const unit = remaining.length > 0 ? combine(remaining) : undefined;
  if (!unit || isDimensionless(unit.dimension)) return undefined;
  // V/A is called ohm
  const named = remaining.length > 1 && equals(unit.factor, one) && unit.pi === 0 ? baseUnit(unit.dimension) : unit;
  return simpleUnits.has(named.symbol) && !named.symbol.includes(' ') ? named : unit;
}

function partsOfUnit(unit: Unit): readonly Part[] {
  const symbol = unit.over ? unit.symbol.slice(unit.over.symbol.length + 1) : unit.symbol;
  return isDimensionless(unit.dimension) ? [] : (scanParts(symbol, 0)?.parts ?? []);
}

const baseSymbols = ['m', 'kg', 's', 'A', 'K', 'mol', 'cd', 'rev', 'bu'];

/** The coherent unit of a dimension: `V` for a voltage, `m²` for an area, `kg·m` where it has no name. */
export function baseUnit(dimension: Dimension): Unit {
  if (isDimensionless(dimension)) return noUnit;
  for (const unit of simpleUnits.values()) {
    if (sameDimension(unit.dimension, dimension) && equals(unit.factor, one) && unit.pi === 0 && !unit.offset)
      return unit;
  }
  const parts = dimension.flatMap((exponent, i) =>
    exponent === 0 ? [] : [{ symbol: baseSymbols[i] ?? '', power: exponent }],
  );
  const symbol = writeParts(parts.sort((a, b) => Math.sign(b.power) - Math.sign(a.power)));
  return { symbol, dimension, factor: one, pi: 0, system: 'si' };
}
