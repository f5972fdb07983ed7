// What the rules on order share: one kind of violation each, found by the proof and put into words by the rule.

import type { Book } from '../../model/book.js';
import type { Violation, ViolationKind } from '../../order/result.js';
import type { Span } from '../../text/source.js';
import type { Context, Finding, Proof, Said } from '../rule.js';
import { isSameSpan, withoutToldByOthers } from './callees.js';
import { withoutRepeats } from './follow-ups.js';
import { sensibleRepair } from './help.js';
import { pathOf } from './path.js';
import { code, lossWords, stepIdAt, stepName } from './words.js';

/** The violations of one kind, each with its path and the place of what is not kept. */
export function* violationsOf(kind: ViolationKind, proof: Proof, context: Context): Iterable<Finding<Violation>> {
  const { book, resolved } = context;
  for (const each of withoutRepeats(proof.result.violations, resolved.world)) {
    const violation = each.kind === kind ? withoutToldByOthers(each, proof, context) : undefined;
    if (!violation) continue;
    const at = pointOf(violation, book);
    const related = [...pathOf(violation, book), ...insideOf(violation, book), ...claimOf(violation, at)];
    const { repair: _, ...rest } = violation;
    const repair = sensibleRepair(violation, book);
    yield { at, related, data: repair ? { ...rest, repair } : rest };
  }
}

/** Findings with the same key together, in their order. */
export function grouped<D>(
  findings: Iterable<Finding<D>>,
  keyOf: (finding: Finding<D>) => string,
): Iterable<readonly Finding<D>[]> {
  const groups = new Map<string, Finding<D>[]>();
  for (const finding of findings) {
    const key = keyOf(finding);
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return groups.values();
}

/**
 * What to point at: the branch that leads to an end where what that end runs cannot be done then; a bundle of conditions where
 * it is named; a whole step by where it puts the person, else by its id.
 */
function pointOf(violation: Violation, book: Book): Span {
  return leadingBranch(violation, book) ?? pointInside(violation, book);
}

// What an end runs is proved for itself as well: what goes wrong in it on this path comes of the way there.
function leadingBranch({ place, trace }: Violation, book: Book): Span | undefined {
  if (place?.end === undefined) return undefined;
  const last = trace.findLast((entry) => entry.place.end === undefined)?.place;
  const step = last && book.procedures.get(last.procedure)?.steps.find(({ id }) => id.value === last.step);
  if (!last || !step) return undefined;
  const branches = [step.otherwise, ...step.when.values(), ...step.answers.map(({ branch }) => branch), step.then];
  const leads = branches.flatMap((branch) => (branch ? [branch, branch.otherwise] : []));
  return leads.find((branch) => branch?.go.value === place.end)?.go.at ?? stepIdAt(last, book);
}

function insideOf(violation: Violation, book: Book): readonly { readonly message: string; readonly at: Span }[] {
  const { place } = violation;
  if (!place || !leadingBranch(violation, book)) return [];
  return [{ message: stepName(place), at: pointInside(violation, book) }];
}

function pointInside(violation: Violation, book: Book): Span {
  const { at, place } = violation;
  const named = bundleNameAt(violation, book);
  if (named) return named;
  if (!place || !isSameSpan(at, place.at)) return at;
  const step = book.procedures.get(place.procedure)?.steps.find(({ id }) => id.value === place.step);
  return step?.place?.at ?? stepIdAt(place, book);
}

function bundleNameAt({ kind, at, place, end, missing }: Violation, book: Book): Span | undefined {
  const [first] = missing;
  const procedure = book.procedures.get(place?.procedure ?? '');
  const isOfBundle = first?.bundle !== undefined && (isSameSpan(first.at, at) || at.file !== procedure?.file);
  if (!isOfBundle) return undefined;
  const step = procedure?.steps.find(({ id }) => id.value === place?.step);
  const named = kind === 'leaves-not-met' ? procedure?.leaves.get(end ?? 'done') : step?.needs;
  return named?.kind === 'bundle' ? named.name.at : undefined;
}

const claims: Partial<Record<ViolationKind, string>> = {
  'moves-when': 'what it takes to move it',
  'throughout-broken': 'what must hold throughout',
  'end-must-not-met': 'what must hold at that end',
  'requires-not-met-at-run': 'what it requires',
  'instrument-needs': 'what the instrument needs',
  'back-into-step': 'what was required',
};

// Where the claim that is not kept is written, if not at the fault itself.
function claimOf({ kind, rule, missing }: Violation, at: Span): { message: string; at: Span }[] {
  if (rule) return [{ message: `the rule ${code(rule.id)}`, at: rule.at }];
  const [first] = missing;
  const message = claims[kind] ?? (first?.bundle === undefined ? undefined : `what ${code(first.bundle)} wants`);
  return message && first && !isSameSpan(first.at, at) ? [{ message, at: first.at }] : [];
}

/** A violation's words: the fact, what took it away, and `note`. */
export function sayOf(
  violation: Violation,
  { note, ...words }: { message: string; help: string; note?: string },
): Said {
  const notes = [lossWords(violation), note].filter((part) => part !== undefined).join(' ');
  return notes === '' ? words : { ...words, note: notes };
}
