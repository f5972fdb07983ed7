// One file being turned into the model: what was found on the way, and what must be known of the rest of the book.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { SourceFile, Span } from '../../text/source.js';
import type { YamlScalar } from '../tree.js';

/** A text that lacks a language of the book. */
export interface MissingText {
  readonly language: string;
  readonly at: Span;
}

export interface Reading {
  readonly file: SourceFile;
  /** Of the book; the first is the one that it is written in. */
  readonly languages: readonly string[];
  /** What is known of states: whether one has words for values or a quantity. */
  readonly stateKinds: ReadonlyMap<string, 'words' | 'quantity'>;
  readonly diagnostics: Diagnostic[];
  /** Filled as soon as a part of the file could not be understood: what uses the file is then not proved. */
  readonly gaps: Span[];
  readonly missing: MissingText[];
  /** Places of the keys of translation files that were found in the original. */
  readonly usedKeys: Set<string>;
}

/** A reading with nothing found yet. */
export function startReading(file: SourceFile, known: Pick<Reading, 'languages' | 'stateKinds'>): Reading {
  return { file, ...known, diagnostics: [], gaps: [], missing: [], usedKeys: new Set() };
}

type Fault = Pick<Diagnostic, 'code' | 'message' | 'at'> & Partial<Diagnostic>;

/** Reports an error that leaves the rest of the file understood. One in a part that is repeated is reported once. */
export function report(reading: Reading, fault: Fault): void {
  const isKnown = reading.diagnostics.some(
    ({ code, at, message }) =>
      code === fault.code &&
      at.file === fault.at.file &&
      at.start === fault.at.start &&
      at.end === fault.at.end &&
      (code !== 'missing-language' || message === fault.message),
  );
  if (!isKnown) reading.diagnostics.push(diagnose({ severity: 'error', ...fault }));
}

/** Reports an error that leaves a part of the file not understood. */
export function reportGap(reading: Reading, fault: Fault): void {
  report(reading, fault);
  reading.gaps.push(fault.at);
}

/** Remembers a text that lacks a language, once where the part is repeated. */
export function noteMissing(reading: Reading, text: MissingText): void {
  const isKnown = reading.missing.some(({ language, at }) => language === text.language && at.start === text.at.start);
  if (!isKnown) reading.missing.push(text);
}

/** Remembers that a key of a translation has its original. */
export function markUsed(reading: Reading, key: YamlScalar): void {
  reading.usedKeys.add(placeOf(key.at));
}

/** Whether a key of a translation was found in the original. */
export function isUsed(reading: Reading, key: YamlScalar): boolean {
  return reading.usedKeys.has(placeOf(key.at));
}

function placeOf(at: Span): string {
  return `${at.file}:${at.start}`;
}

type Gaps<T> = { [K in keyof T]: undefined extends T[K] ? K : never }[keyof T];

/** A record in which keys whose value is undefined are left out. */
export type Filled<T> = Omit<T, Gaps<T>> & { readonly [K in Gaps<T>]?: Exclude<T[K], undefined> };

/** Leaves out the keys whose value is undefined: what was not written is missing, not blank. */
export function filled<T extends object>(record: T): Filled<T> {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as Filled<T>;
}
