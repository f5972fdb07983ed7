// Shows every rule its subjects and turns what it finds into diagnostics, one for each fault however many rigs have it.

import { type Diagnostic, diagnose } from '../diagnostic/diagnostic.js';
import type { Variant } from '../model/resolved.js';
import { rigLabel } from '../model/rig.js';
import type { OrderResult } from '../order/result.js';
import type { AnyRule, Context, Finding, Proof, Said, Subjects } from './rule.js';

/** Runs the rules over a worked-out book. `proofs` holds the order proof of each variant, by variant id. */
export function runRules(
  rules: readonly AnyRule[],
  context: Context,
  proofs: ReadonlyMap<string, OrderResult>,
): readonly Diagnostic[] {
  const found = new Map<string, { diagnostic: Diagnostic; rigs: Set<string>; procedure: string | undefined }>();
  for (const rule of rules) {
    for (const { subject, variant } of subjectsOf(rule.needs, context, proofs)) {
      for (const finding of rule.run(subject as never, { ...context, proofs })) {
        const diagnostic = describe(rule, finding);
        const key = JSON.stringify([diagnostic.code, diagnostic.at, diagnostic.message]);
        const entry = found.get(key) ?? { diagnostic, rigs: new Set<string>(), procedure: variant?.procedure.id };
        for (const rig of variant?.rigs ?? []) entry.rigs.add(rigLabel(rig));
        found.set(key, entry);
      }
    }
  }
  const all = allRigs(context);
  return [...found.values()].map(({ diagnostic, rigs, procedure }) => ({
    ...diagnostic,
    rigs: procedure !== undefined && rigs.size < (all.get(procedure) ?? 0) ? [...rigs] : [],
  }));
}

function describe(rule: AnyRule, finding: Finding<unknown>): Diagnostic {
  const said: Said = rule.say(finding.data as never);
  return diagnose({
    code: rule.id,
    severity: rule.severity,
    at: finding.at,
    related: finding.related ?? [],
    ...said,
  });
}

function allRigs(context: Context): ReadonlyMap<string, number> {
  const count = new Map<string, number>();
  for (const variant of context.resolved.variants) {
    count.set(variant.procedure.id, (count.get(variant.procedure.id) ?? 0) + variant.rigs.length);
  }
  return count;
}

interface Shown {
  readonly subject: Subjects[keyof Subjects];
  readonly variant?: Variant;
}

function* subjectsOf(
  needs: keyof Subjects,
  context: Context,
  proofs: ReadonlyMap<string, OrderResult>,
): Iterable<Shown> {
  if (needs === 'book') yield { subject: context.book };
  else if (needs === 'proofs') yield { subject: proofsOf(context, proofs) };
  else if (needs === 'procedure')
    for (const procedure of context.book.procedures.values()) yield { subject: procedure };
  else for (const variant of context.resolved.variants) yield* shownOf(needs, variant, proofs);
}

function proofsOf(context: Context, proofs: ReadonlyMap<string, OrderResult>): readonly Proof[] {
  return context.resolved.variants.flatMap((variant) => {
    const result = proofs.get(variant.id);
    return result ? [{ variant, result }] : [];
  });
}

function* shownOf(
  needs: 'variant' | 'value' | 'proof',
  variant: Variant,
  proofs: ReadonlyMap<string, OrderResult>,
): Iterable<Shown> {
  if (needs === 'variant') yield { subject: variant, variant };
  else if (needs === 'value') {
    for (const value of variant.procedure.values) yield { subject: { variant, value }, variant };
  } else {
    const result = proofs.get(variant.id);
    if (result) yield { subject: { variant, result }, variant };
  }
}
