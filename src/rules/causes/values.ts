// Numbers: one that is wrong offends the sensor, the instrument, its nominal, what is worked out from it and the adjuster at
// once. The first of these in a fixed order speaks; the others follow as related places.

import type { Diagnostic, Severity } from '../../diagnostic/diagnostic.js';
import type { ResolvedBook } from '../../model/resolved.js';
import { rigLabel } from '../../model/rig.js';
import { type RigsOf, withFollowers } from './followers.js';
import { joinInstruments } from './instruments.js';
import { ownersIn, type ValueOwner } from './owners.js';
import { joinParameters } from './parameters.js';

/** The order in which the faults of one value speak; whatever is wrong in itself speaks before them. */
const ranks: readonly string[] = [
  'limits-outside-sensor-band',
  'limits-outside-instrument',
  'acceptance-empty',
  'nominal-outside-limits',
  'limits-of-one-value',
  'instrument-not-good-enough',
  'resolution-too-coarse',
  'derived-limits-impossible',
  'derived-limits-never-fail',
  'derived-without-value',
  'adjuster-cannot-turn',
  'adjuster-starts-outside',
  'adjuster-cannot-help',
  'adjuster-step-over-window',
  'adjuster-reach-short',
  'value-unlike-siblings',
];

const inItself: ReadonlySet<string> = new Set([
  'unit-mismatch',
  'choice-not-covered',
  'limits-reversed',
  'limits-empty',
  'number-without-value',
  'instrument-of-other-quantity',
  'unknown-choice-key',
  'unknown-unit',
]);

const weights: Readonly<Record<Severity, number>> = { error: 0, warning: 1, hint: 2 };

/** Joins the faults of one value, of what is worked out from it, and of one parameter or instrument. */
export function joinValues(diagnostics: readonly Diagnostic[], resolved: ResolvedBook): readonly Diagnostic[] {
  const joining: Joining = { rigsOf: rigsIn(resolved), causes: new Map(), joined: new Map() };
  const ranked = diagnostics
    .filter(({ severity, code }) => severity !== 'hint' && rankOf(code) >= 0)
    .flatMap((diagnostic) => {
      const owner = ownersIn(resolved.book, diagnostic.at);
      return owner ? [{ diagnostic, owner }] : [];
    })
    .sort(
      (a, b) =>
        weights[a.diagnostic.severity] - weights[b.diagnostic.severity] ||
        rankOf(a.diagnostic.code) - rankOf(b.diagnostic.code),
    );
  const gone = new Set<Diagnostic>();
  for (const { diagnostic, owner } of ranked) if (follows(joining, diagnostic, owner)) gone.add(diagnostic);
  const kept = diagnostics
    .filter((one) => !gone.has(one))
    .map((one) => withFollowers(one, joining.joined.get(one) ?? []));
  return joinParameters(joinInstruments(kept, resolved.book), resolved, joining.rigsOf);
}

function rankOf(code: string): number {
  return inItself.has(code) ? 0 : ranks.indexOf(code) + (ranks.includes(code) ? 1 : 0);
}

interface Joining {
  readonly rigsOf: RigsOf;
  /** By procedure and value: what is wrong with it. */
  readonly causes: Map<string, Diagnostic[]>;
  readonly joined: Map<Diagnostic, Diagnostic[]>;
}

// Whether a fault follows from one that is told already, which then takes it along; if not, others may follow from it.
function follows({ rigsOf, causes, joined }: Joining, diagnostic: Diagnostic, owner: ValueOwner): boolean {
  const keyOf = (id: string): string => `${owner.procedure.id} ${id}`;
  const rigs = rigsOf(diagnostic);
  const before = [...owner.ids, ...owner.inputs].flatMap((id) => causes.get(keyOf(id)) ?? []);
  const cause = before.find((one) => isSaidAgain(one, diagnostic) || [...rigsOf(one)].some((rig) => rigs.has(rig)));
  if (cause) {
    joined.set(cause, [...(joined.get(cause) ?? []), diagnostic]);
    return true;
  }
  for (const id of owner.ids) causes.set(keyOf(id), [...(causes.get(keyOf(id)) ?? []), diagnostic]);
  return false;
}

// the same of another entry of one choice
function isSaidAgain(first: Diagnostic, other: Diagnostic): boolean {
  return first.code === other.code && first.at.start !== other.at.start;
}

/** Which rigs a fault is of: its own, or all that its procedure is for. */
export function rigsIn({ variants, book }: ResolvedBook): RigsOf {
  const all = new Map<string, string[]>();
  for (const { procedure, rigs } of variants) {
    const { file } = procedure.source;
    all.set(file, [...(all.get(file) ?? []), ...rigs.map(rigLabel)]);
  }
  for (const { file } of book.procedures.values()) if (!all.has(file)) all.set(file, ['any']);
  return ({ at, rigs }) => new Set(rigs.length > 0 ? rigs : all.get(at.file));
}
