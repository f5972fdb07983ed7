// Shows every rule its subjects and turns what it finds into diagnostics, one for each fault however many rigs have it.
// A rule is not asked again about a subject while that, and all that it looked at besides, are the same objects.

import { type Diagnostic, diagnose } from '../diagnostic/diagnostic.js';
import type { Variant } from '../model/resolved.js';
import { rigLabel } from '../model/rig.js';
import type { OrderResult } from '../order/result.js';
import { type Keep, keepNothing } from '../text/keep.js';
import { remembering } from '../text/remember.js';
import type { AnyRule, Context, Finding, Proof, Said, Subjects } from './rule.js';
import { type Looks, makeWatch } from './watch.js';

/** What the rules found before: by rule, by what it was shown. */
export type RuleMemory = Map<string, WeakMap<object, Answer[]>>;

interface Answer {
  readonly looks: Looks;
  readonly value: readonly Diagnostic[];
}

export interface JudgeOptions {
  readonly keep?: Keep;
  readonly memory?: RuleMemory;
  /** Only what belongs to this procedure is shown. */
  readonly procedure?: string;
}

/** Runs the rules over a worked-out book. `proofs` holds the order proof of each variant, by variant id. */
export function runRules(
  rules: readonly AnyRule[],
  given: Context & { readonly proofs: ReadonlyMap<string, OrderResult> },
  { keep = keepNothing, memory = new Map(), procedure: only }: JudgeOptions = {},
): readonly Diagnostic[] {
  const found = new Map<string, { diagnostic: Diagnostic; rigs: Set<string>; procedure: string | undefined }>();
  const watch = makeWatch(given);
  const shown = showSubjects(given, keep);
  for (const rule of rules) {
    const answers = memory.get(rule.id) ?? new WeakMap<object, Answer[]>();
    memory.set(rule.id, answers);
    for (const { subject, variant } of shown[rule.needs]) {
      if (only !== undefined && variant?.procedure.id !== only) continue;
      const before = answers.get(subject) ?? [];
      const known = before.find(({ looks }) => watch.isSame(looks));
      const answer = known ?? watch.note((context) => ask(rule, subject, context));
      // what holds before a change and after it: whoever tries changes goes back and forth
      if (!known) answers.set(subject, [answer, ...before].slice(0, 4));
      for (const diagnostic of answer.value) {
        const key = rememberKey(diagnostic, [], () => keyOf(diagnostic));
        const entry = found.get(key) ?? { diagnostic, rigs: new Set<string>(), procedure: variant?.procedure.id };
        if (variant)
          for (const label of rememberLabels(variant, [], () => variant.rigs.map(rigLabel))) entry.rigs.add(label);
        found.set(key, entry);
      }
    }
  }
  const all = allRigs(given);
  return [...found.values()].map(({ diagnostic, rigs, procedure }) => ({
    ...diagnostic,
    rigs: procedure !== undefined && rigs.size < (all.get(procedure) ?? 0) ? [...rigs] : [],
  }));
}

// what is found in all rigs, and again in each round, is told apart by the same words each time
const rememberKey = remembering<string>();
const rememberLabels = remembering<readonly string[]>();

function keyOf({ code, at, message }: Diagnostic): string {
  return JSON.stringify([code, at, message]);
}

/** All that a rule finds in one subject. The book as a subject is the one of the context, so that it is known what is read. */
function ask(rule: AnyRule, subject: object, context: Context): readonly Diagnostic[] {
  const shown = rule.needs === 'book' ? context.book : subject;
  return [...rule.run(shown as never, context)].map((finding) => describe(rule, finding));
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
  readonly subject: object;
  readonly variant?: Variant;
}

/** What each kind of rule is shown. A subject of the same parts as before is the very same object. */
function showSubjects(
  { resolved: { variants }, book, proofs }: Context & { readonly proofs: ReadonlyMap<string, OrderResult> },
  keep: Keep,
): Readonly<Record<keyof Subjects, readonly Shown[]>> {
  const proved = variants.flatMap((variant): readonly (Shown & { readonly subject: Proof })[] => {
    const result = proofs.get(variant.id);
    if (!result) return [];
    return [{ subject: keep(`proof ${variant.id}`, [variant, result], () => ({ variant, result })), variant }];
  });
  const values = variants.flatMap((variant) => keep(`values ${variant.id}`, [variant], () => valuesOf(variant)));
  const all = proved.map(({ subject }) => subject);
  return {
    book: [{ subject: keep('the book', [], () => ({})) }],
    procedure: [...book.procedures.values()].map((subject) => ({ subject })),
    variant: variants.map((variant) => ({ subject: variant, variant })),
    value: values,
    proof: proved,
    proofs: [{ subject: keep('proofs', all, () => all) }],
  };
}

function valuesOf(variant: Variant): readonly Shown[] {
  return variant.procedure.values.map((value) => ({ subject: { variant, value }, variant }));
}
