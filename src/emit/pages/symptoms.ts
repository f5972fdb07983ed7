// What a person can see going wrong on a rig, and where each sign leads. Built from conditions that are missed,
// expectations that fail, readings that fail, and procedures that find faults.

import type { ReadingOutcome } from '../../model/procedure.js';
import type { ResolvedCondition, ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import type { Words } from '../../model/text.js';
import { stepLabel } from '../step-label.js';
import type { Entry, Home, Version } from './site-map.js';
import { stepAnchor } from './ways.js';

/** One sign and where to look first. */
export interface Symptom {
  readonly kind: 'seen' | 'reading' | 'work';
  /** What is seen. For a reading: the value's label. */
  readonly sign: Words;
  /** For a failed expectation: that the sign is *not* seen. */
  readonly not?: boolean;
  /** For a reading: the limits in use as shown, and which way it fails. */
  readonly limits?: string;
  readonly outcome?: ReadingOutcome;
  /** Why: what the branch says, or the condition that was missed. */
  readonly cause?: Words;
  /** The condition that was missed. */
  readonly condition?: ResolvedCondition;
  /** How the condition is shown. */
  readonly look?: Words;
  readonly entry: Entry;
  readonly version: Version;
  /** All versions that have it. */
  readonly versions: readonly Version[];
  /** Part of the page to open; empty for its top. */
  readonly anchor: string;
}

/**
 * All signs of a home. Where a procedure has several versions, each sign stands once and leads to the choice. One that was
 * withdrawn is there with its title alone: what it says of causes and readings was taken back with it.
 */
export function symptomsOf(home: Home): readonly Symptom[] {
  const found = new Map<string, Symptom>();
  for (const entry of home.entries) {
    for (const version of entry.versions) {
      for (const symptom of ofVersion(entry, version)) {
        const key = JSON.stringify([
          entry.id,
          symptom.kind,
          symptom.sign,
          symptom.not,
          symptom.limits,
          symptom.outcome,
          symptom.cause,
          symptom.condition && testKey(symptom.condition),
        ]);
        const known = found.get(key);
        found.set(key, known ? { ...known, versions: [...known.versions, version] } : symptom);
      }
    }
  }
  return [...found.values()];
}

function* ofVersion(entry: Entry, version: Version): Iterable<Symptom> {
  const { procedure } = version.variant;
  const at = { entry, version, versions: [version] };
  if (procedure.kind === 'fault-finding') {
    yield { ...at, kind: 'work', sign: procedure.title, cause: procedure.summary, anchor: '' };
  }
  if (procedure.status === 'withdrawn') return;
  for (const [i, { ifMissed, condition, shownBy }] of procedure.requires.entries()) {
    if (!ifMissed) continue;
    yield {
      ...at,
      kind: 'seen',
      sign: ifMissed,
      condition,
      ...(shownBy && { look: shownBy }),
      anchor: `first-${i + 1}`,
    };
  }
  // steps of a procedure that is run have their own page
  for (const step of procedure.steps) yield* ofStep(step, procedure, at);
}

function* ofStep(
  step: ResolvedStep,
  procedure: ResolvedProcedure,
  at: Pick<Symptom, 'entry' | 'version' | 'versions'>,
): Iterable<Symptom> {
  const anchor = stepAnchor(stepLabel(step));
  const { otherwise, expect } = step;
  if (otherwise?.because && expect) {
    yield { ...at, kind: 'seen', sign: expect, not: true, cause: otherwise.because, anchor };
  } else if (otherwise?.because) yield { ...at, kind: 'seen', sign: otherwise.because, anchor };
  for (const [outcome, branch] of step.when) {
    if (outcome === 'unsure') continue;
    for (const value of procedure.values.filter(({ id }) => step.measure.includes(id))) {
      const limits = value.shown.acceptance ?? value.shown.tolerance;
      if (limits === undefined) continue;
      const cause = branch.because ?? {};
      yield { ...at, kind: 'reading', sign: value.label, limits, outcome, ...(branch.because && { cause }), anchor };
    }
  }
}

function testKey({ state, test }: ResolvedCondition): string {
  return `${state} ${test.kind === 'words' ? test.words.join(' ') : test.kind === 'limits' ? test.text : ''}`;
}

/** The address of a sign, below the site; leads to the choice of version where there are several. */
export function symptomFolder({ entry, version, anchor }: Symptom): string {
  if (entry.versions.length > 1) return entry.folder;
  return `${version.folder}${anchor === '' ? '' : `#${anchor}`}`;
}
