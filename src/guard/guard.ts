// Turns the checks on themselves: makes each slip in a copy of the book, checks that, and counts what was noticed, by which
// rule, at which place. Pure: files in as a map, a result out; the same input gives the same result.

import { checkAgain, placeKey } from '../compile/again.js';
import { type Kept, keepBook } from '../compile/kept.js';
import type { CheckInput } from '../compile.js';
import { compareText, type Diagnostic } from '../diagnostic/diagnostic.js';
import { type Locate, locator } from '../diagnostic/locate.js';
import type { GuardCount, GuardResult, NoticedSlip, SlipApart, Survivor, TriedSlip } from '../model/guard-result.js';
import { isWaived } from '../rules/waivers.js';
import { editFile } from '../text/edited.js';
import type { Span } from '../text/source.js';
import { findSlips } from './find-slips.js';
import { sampleOf } from './sample.js';
import { isSmall } from './size.js';
import { type Slip, slipKinds } from './slip.js';
import { suggestFor } from './suggest.js';

export interface GuardInput extends CheckInput {
  /** Try only so many, drawn by the seed. */
  readonly sample?: { readonly size: number; readonly seed: number };
  /** Try every `of`-th slip alone, beginning with this one: so several can share the work. */
  readonly part?: { readonly index: number; readonly of: number };
  /** Hears how many were tried, of how many. */
  readonly progress?: (done: number, of: number) => void;
}

/** What the slips came to; or, for a book that does not hold, the diagnostics that say why nothing was tried. */
export interface Guarded {
  readonly result?: GuardResult;
  readonly diagnostics: readonly Diagnostic[];
}

/** What became of one slip; plain data, so that it can be handed from one thread to another. */
export interface Told {
  /** Its place among all that were tried. */
  readonly index: number;
  readonly slip: TriedSlip;
  readonly fate: Fate['is'];
  readonly by?: NoticedSlip['by'];
  readonly suggestion?: string;
}

/** What became of a part of the slips. */
export interface ToldPart {
  readonly possible: number;
  readonly told: readonly Told[];
}

/** Tries the slips of a book. A book with errors is mended first: no slip can be told from them. */
export function guardBook(input: GuardInput): Guarded {
  const { part, diagnostics } = trySlips(input);
  return part ? { result: tellGuard([part], input.sample), diagnostics } : { diagnostics };
}

/** Tries a part of the slips of a book, or all of them. */
export function trySlips(input: GuardInput): { readonly part?: ToldPart; readonly diagnostics: readonly Diagnostic[] } {
  const { kept, diagnostics } = keepBook(input);
  if (!kept) return { diagnostics };
  const all = findSlips(input.sources, kept.book);
  const { index: first, of } = input.part ?? { index: 0, of: 1 };
  const chosen = (input.sample ? sampleOf(all, input.sample) : all).map((slip, index) => ({ slip, index }));
  const slips = chosen.filter(({ index }) => index % of === first);
  const known = new Set(kept.diagnostics.map(placeKey));
  const locate = locator(input.sources);
  const told = slips.map(({ slip, index }, done) => {
    input.progress?.(done, slips.length);
    return tellSlip(slip, { index, fate: tryOut(kept, slip, known), locate });
  });
  input.progress?.(slips.length, slips.length);
  return { part: { possible: all.length, told }, diagnostics };
}

type Fate =
  | { readonly is: 'noticed'; readonly by: Diagnostic }
  | { readonly is: 'survived' }
  | { readonly is: 'small' | 'same' };

/** Codes by which a change is noticed only because it is one, or because of the day: they guard nothing. */
const noGuard: ReadonlySet<string> = new Set([
  'edited-after-verification',
  'verification-without-content',
  'machine-not-verified',
  'never-reviewed',
  'review-impossible',
  'review-overdue',
]);

/** Makes one slip and looks whether anything speaks up. */
function tryOut(kept: Kept, slip: Slip, known: ReadonlySet<string>): Fate {
  const file = kept.input.sources.get(slip.at.file);
  if (!file) throw new Error(`A slip in ${slip.at.file}, which the book has not`);
  if (isSmall(slip, kept.resolved.variants)) return { is: 'small' };
  const waived = isWaived(kept.book);
  for (const { diagnostics, sameMeaning } of checkAgain(kept, editFile(file, slip.pieces), noGuard)) {
    if (sameMeaning) return { is: 'same' };
    const by = diagnostics.find(
      (one) => one.severity !== 'hint' && !noGuard.has(one.code) && !known.has(placeKey(one)) && !waived(one),
    );
    if (by) return { is: 'noticed', by };
  }
  return { is: 'survived' };
}

function tellSlip(
  slip: Slip,
  { index, fate, locate }: { readonly index: number; readonly fate: Fate; readonly locate: Locate },
): Told {
  const told = { index, slip: describe(slip, locate), fate: fate.is };
  if (fate.is === 'survived') return { ...told, suggestion: suggestFor(slip) };
  if (fate.is !== 'noticed') return told;
  const { code, severity, at } = fate.by;
  return { ...told, by: { code, severity: severity === 'error' ? 'error' : 'warning', ...placeOf(at, locate) } };
}

/** The result of all parts together. */
export function tellGuard(parts: readonly ToldPart[], sample: GuardInput['sample']): GuardResult {
  const all = parts.flatMap(({ told }) => told).sort((a, b) => a.index - b.index);
  const files = [...new Set(all.map(({ slip }) => slip.file))].sort(compareText);
  const kinds = slipKinds.filter((kind) => all.some(({ slip }) => slip.kind === kind));
  return {
    possible: parts[0]?.possible ?? 0,
    ...(sample ? { sample } : {}),
    total: count('all', all),
    kinds: kinds.map((kind) =>
      count(
        kind,
        all.filter(({ slip }) => slip.kind === kind),
      ),
    ),
    files: files.map((file) =>
      count(
        file,
        all.filter(({ slip }) => slip.file === file),
      ),
    ),
    survivors: all.flatMap(({ slip, suggestion }): readonly Survivor[] =>
      suggestion === undefined ? [] : [{ ...slip, suggestion }],
    ),
    apart: all.flatMap(({ slip, fate }): readonly SlipApart[] =>
      fate === 'small' || fate === 'same' ? [{ ...slip, why: fate }] : [],
    ),
    noticed: all.flatMap(({ slip, by }): readonly NoticedSlip[] => (by ? [{ ...slip, by }] : [])),
  };
}

function count(of: string, all: readonly Told[]): GuardCount {
  const number = (is: Told['fate']): number => all.filter(({ fate }) => fate === is).length;
  const noticed = number('noticed');
  const counted = noticed + number('survived');
  const percent = counted === 0 ? 100 : Math.floor((1000 * noticed) / counted) / 10;
  return { of, counted, noticed, percent, small: number('small'), same: number('same') };
}

/** What was changed, on one line. */
function describe({ kind, path, before, after, at }: Slip, locate: Locate): TriedSlip {
  const line = (text: string): string => text.replaceAll(/\s+/g, ' ').trim();
  return { kind, ...placeOf(at, locate), path, before: line(before), after: line(after) };
}

function placeOf(at: Span, locate: Locate): { readonly file: string; readonly line: number; readonly column: number } {
  const { file, start } = locate(at);
  return { file, line: start.line, column: start.column };
}
