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
  /** Hears how many were tried, of how many. */
  readonly progress?: (done: number, of: number) => void;
}

/** What the slips came to; or, for a book that does not hold, the diagnostics that say why nothing was tried. */
export interface Guarded {
  readonly result?: GuardResult;
  readonly diagnostics: readonly Diagnostic[];
}

/** Tries the slips of a book. A book with errors is mended first: no slip can be told from them. */
export function guardBook(input: GuardInput): Guarded {
  const { kept, diagnostics } = keepBook(input);
  if (!kept) return { diagnostics };
  const all = findSlips(input.sources, kept.book);
  const slips = input.sample ? sampleOf(all, input.sample) : all;
  const known = new Set(kept.diagnostics.map(placeKey));
  const locate = locator(input.sources);
  const fates = slips.map((slip, index) => {
    input.progress?.(index, slips.length);
    return { slip, fate: tryOut(kept, slip, known) };
  });
  input.progress?.(slips.length, slips.length);
  return { result: { possible: all.length, ...sampled(input), ...tell(fates, locate) }, diagnostics };
}

function sampled({ sample }: GuardInput): Pick<GuardResult, 'sample'> {
  return sample ? { sample } : {};
}

type Fate =
  | { readonly is: 'noticed'; readonly by: Diagnostic }
  | { readonly is: 'survived' }
  | { readonly is: 'small' | 'same' };

interface Tried {
  readonly slip: Slip;
  readonly fate: Fate;
}

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

function tell(fates: readonly Tried[], locate: Locate): Omit<GuardResult, 'possible' | 'sample'> {
  const noticed: NoticedSlip[] = [];
  const survivors: Survivor[] = [];
  const apart: SlipApart[] = [];
  for (const { slip, fate } of fates) {
    const tried = describe(slip, locate);
    if (fate.is === 'survived') survivors.push({ ...tried, suggestion: suggestFor(slip) });
    else if (fate.is === 'noticed') {
      const { code, severity, at } = fate.by;
      noticed.push({
        ...tried,
        by: { code, severity: severity === 'error' ? 'error' : 'warning', ...placeOf(at, locate) },
      });
    } else apart.push({ ...tried, why: fate.is });
  }
  const files = [...new Set(fates.map(({ slip }) => slip.at.file))].sort(compareText);
  const kinds = slipKinds.filter((kind) => fates.some(({ slip }) => slip.kind === kind));
  return {
    total: count('all', fates),
    kinds: kinds.map((kind) =>
      count(
        kind,
        fates.filter(({ slip }) => slip.kind === kind),
      ),
    ),
    files: files.map((file) =>
      count(
        file,
        fates.filter(({ slip }) => slip.at.file === file),
      ),
    ),
    survivors,
    apart,
    noticed,
  };
}

function count(of: string, fates: readonly Tried[]): GuardCount {
  const number = (is: Fate['is']): number => fates.filter(({ fate }) => fate.is === is).length;
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
