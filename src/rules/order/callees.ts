// Faults that come of a procedure which is run: told where that procedure is proved for itself, and not again by each that
// runs it.

import type { Rig, Variant } from '../../model/resolved.js';
import { type MissingFact, type StepPlace, type Violation, warningKinds } from '../../order/result.js';
import type { Span } from '../../text/source.js';
import type { Context, Proof } from '../rule.js';
import { apartClaims, type Claim, factClaim } from './follow-ups.js';

/**
 * What of a violation is not told where the procedures that are run are proved: nothing for a fault that shows there, and
 * facts left out that such a procedure was to bring about, or took away while it is itself at fault.
 */
export function withoutToldByOthers(violation: Violation, proof: Proof, context: Context): Violation | undefined {
  if (isToldThere(violation, proof, context)) return undefined;
  const comesOfCallee = (claim: Claim): boolean => isLeftByCallee(claim, violation, { proof, context });
  if (apartClaims(violation, context.resolved.world).some(comesOfCallee)) return undefined;
  const missing = violation.missing.filter((fact) => !comesOfCallee(factClaim(fact, violation.trace)));
  return missing.length === 0 && violation.missing.length > 0 ? undefined : { ...violation, missing };
}

// A fault in a procedure that is run, which shows for the same machines where that procedure is proved for itself.
function isToldThere({ place, kind, at, missing }: Violation, proof: Proof, context: Context): boolean {
  if (!place || !isInside(place)) return false;
  return ownViolations(place.procedure, proof, context).some(
    (own) =>
      own.kind === kind &&
      own.place !== undefined &&
      !isInside(own.place) &&
      isSameSpan(own.at, at) &&
      missing.every((fact) => own.missing.some(({ state }) => state === fact.state)),
  );
}

function isLeftByCallee(
  claim: Claim,
  { trace, place }: Violation,
  { proof, context }: { readonly proof: Proof; readonly context: Context },
): boolean {
  const lost = trace[claim.since]?.place;
  return trace.some((entry, at) => {
    if (!isInside(entry.place) || entry.place.procedure === place?.procedure) return false;
    const own = ownViolations(entry.place.procedure, proof, context).filter(({ kind }) => !warningKinds.has(kind));
    if (lost && own.length > 0 && isAround(entry.place, lost)) return true;
    if (at < claim.since) return false;
    return own.some(
      ({ kind, end, missing }) =>
        kind === 'leaves-not-met' && end === 'done' && missing.some((fact) => promises(fact, claim)),
    );
  });
}

// Whether a step of a procedure that is run lies in it, or in what it runs.
function isAround(outer: StepPlace, inner: StepPlace): boolean {
  return outer.end === inner.end && isInside(inner) && outer.calls.every((step, i) => inner.calls[i] === step);
}

function promises(own: MissingFact, claim: Claim): boolean {
  return own.state === claim.state && own.wanted.every((value) => claim.wanted.includes(value));
}

function isInside({ calls, end }: StepPlace): boolean {
  return calls.length > 0 || end !== undefined;
}

function ownViolations(procedure: string, { variant }: Proof, { resolved, proofs }: Context): readonly Violation[] {
  if (procedure === variant.procedure.id) return [];
  return resolved.variants
    .filter((other) => other.procedure.id === procedure && other.rigs.some((rig) => hasRig(variant, rig)))
    .flatMap(({ id }) => proofs?.get(id)?.violations ?? []);
}

function hasRig({ rigs }: Variant, { machine, header }: Rig): boolean {
  return rigs.some((rig) => rig.machine === machine && rig.header === header);
}

/** Whether two places are the same. */
export function isSameSpan(a: Span, b: Span): boolean {
  return a.file === b.file && a.start === b.start && a.end === b.end;
}
