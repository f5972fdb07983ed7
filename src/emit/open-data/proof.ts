// What the order proof did, as open data: what was looked at, what was asked, what held. Claims nothing that was not done.
// Its shape is documented by schema/compiled-proof.schema.json.

import type { End, ResolvedBook, Variant } from '../../model/resolved.js';
import { rigLabel } from '../../model/rig.js';
import { type OrderResult, type ViolationKind, warningKinds } from '../../order/result.js';

/** One safety rule in one variant. */
export interface ProvedRule {
  readonly id: string;
  /** Steps at which it triggers, over all paths. */
  readonly steps: number;
  /** Whether it was kept at all of them. */
  readonly held: boolean;
}

/** What was asked of all paths: one kind of question, by the fault that a yes would be. */
export interface AskedKind {
  readonly kind: ViolationKind;
  /** Places that it was asked at. */
  readonly asked: number;
  /** Places where the answer was yes. */
  readonly faults: number;
}

/** What is known of the order of one variant. */
export interface VariantProof {
  readonly id: string;
  readonly procedure: string;
  readonly revision: number;
  readonly hash: string;
  readonly rigs: readonly string[];
  /** `proved`: followed on every path, and nothing is wrong. `faults`: wrong. `not-proved`: nothing can be said. */
  readonly result: 'proved' | 'faults' | 'not-proved';
  /** Why nothing can be said. */
  readonly because?: 'bound-met' | 'wrong-before';
  /** States looked at. */
  readonly states: number;
  /** Steps that some path reaches, those of procedures that are run counted for each call. */
  readonly steps: number;
  readonly rules: readonly ProvedRule[];
  readonly asked: readonly AskedKind[];
  /** Faults found, slips that are no more than warnings included. */
  readonly faults: number;
  /** Ends that some path leads to. */
  readonly ends: readonly End[];
}

/** What was checked of the order of a whole book. */
export interface BookProof {
  readonly format: 'stepgauge-proof';
  readonly version: 1;
  /** States that the proof of one variant may look at before it says `not-proved`. */
  readonly bound: number;
  /** Every safety rule of the book, with the variants and steps that it triggers in: one without any guards nothing. */
  readonly rules: readonly { readonly id: string; readonly variants: number; readonly steps: number }[];
  readonly variants: readonly VariantProof[];
}

export interface ProofInput {
  readonly resolved: ResolvedBook;
  /** By variant id; a variant without one was not asked about. */
  readonly proofs: ReadonlyMap<string, OrderResult>;
  readonly bound: number;
}

/** What the proofs of a book say, variants in its order. */
export function gatherProof({ resolved, proofs, bound }: ProofInput): BookProof {
  const variants = resolved.variants.map((variant) => proofOf(variant, proofs.get(variant.id)));
  const rules = resolved.world.rules.map(({ id }) => {
    const triggered = variants.flatMap((variant) => variant.rules.filter((rule) => rule.id === id));
    return { id, variants: triggered.length, steps: triggered.reduce((sum, { steps }) => sum + steps, 0) };
  });
  return { format: 'stepgauge-proof', version: 1, bound, rules, variants };
}

/** What is known of the order of one variant. */
export function proofOf({ id, procedure, rigs, hash }: Variant, proof: OrderResult | undefined): VariantProof {
  const head = { id, procedure: procedure.id, revision: procedure.revision, hash, rigs: rigs.map(rigLabel) };
  if (!proof) {
    const none = { states: 0, steps: 0, rules: [], asked: [], faults: 0, ends: [] };
    return { ...head, result: 'not-proved', because: 'wrong-before', ...none };
  }
  const { violations, complete, explored, facts, ends } = proof;
  const isWrong = violations.some(({ kind }) => !warningKinds.has(kind));
  return {
    ...head,
    result: isWrong ? 'faults' : complete ? 'proved' : 'not-proved',
    ...(complete || isWrong ? {} : { because: 'bound-met' as const }),
    states: explored,
    steps: facts.length,
    rules: complete ? rulesOf(proof) : [],
    asked: complete ? askedOf(proof) : [],
    faults: violations.length,
    ends: (['done', 'stop', 'call-service'] as const).filter((end) => ends.has(end)),
  };
}

function rulesOf({ facts, violations }: OrderResult): readonly ProvedRule[] {
  const steps = new Map<string, number>();
  for (const id of facts.flatMap(({ rules }) => rules)) steps.set(id, (steps.get(id) ?? 0) + 1);
  const broken = new Set(violations.flatMap(({ rule }) => rule?.id ?? []));
  return [...steps].sort(byKey).map(([id, count]) => ({ id, steps: count, held: !broken.has(id) }));
}

function askedOf({ asked, violations }: OrderResult): readonly AskedKind[] {
  const faults = new Map<ViolationKind, number>();
  for (const { kind } of violations) faults.set(kind, (faults.get(kind) ?? 0) + 1);
  return [...asked].sort(byKey).map(([kind, count]) => ({ kind, asked: count, faults: faults.get(kind) ?? 0 }));
}

function byKey([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
