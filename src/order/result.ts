// What the order proof says of one variant: facts, places and the shortest path to each fault. No wording; rules make that.

import type { End, ResolvedProcedure, ResolvedRule } from '../model/resolved.js';
import type { Span } from '../text/source.js';

/** What can be wrong with the order of steps. All but those in `warningKinds` are wrong however they are read. */
export type ViolationKind =
  /** A step's `needs` may not hold where the step begins. */
  | 'need-not-met'
  /** A step sets a state whose `moves-when` may not hold. */
  | 'moves-when'
  /** A safety rule triggers and its `must` may not hold. */
  | 'rule-broken'
  /** Something that a safety rule wants unchanged is set, or changed by physics. */
  | 'unchanged-broken'
  /** A requirement that must stay so throughout may no longer hold. */
  | 'throughout-broken'
  /** `sets` or `means` names a value that physics forbids in a state that is possible there. */
  | 'physics-forbids-set'
  /** Laws of physics contradict each other in a state that is possible there: they never come to rest. */
  | 'physics-conflict'
  /** `leaves` may not hold at the end. */
  | 'leaves-not-met'
  /** A `restore` state may not be as it was (or at its safe value) at the end. */
  | 'not-restored'
  /** What safety.yaml's `ends` wants at that end may not hold. */
  | 'end-must-not-met'
  /** A value's last reading may have failed where the procedure reaches `done`. */
  | 'value-not-passed-at-done'
  /** A value was adjusted after it was last read, and `done` is reached without another reading. */
  | 'value-stale'
  /** A derived value is decided while a reading that it is made of is absent or stale. */
  | 'derived-from-stale'
  /** An adjuster is turned while no value that it moves has a fresh reading. */
  | 'adjust-without-reading'
  /** A reading may fail and has no branch. */
  | 'outside-without-branch'
  /** A branch with `at-most` has no `else`. */
  | 'else-missing'
  /** A branch leads to a step that these rigs do not have. */
  | 'target-missing'
  /** A failing reading leads straight to an adjuster that moves none of the values read. */
  | 'sent-to-wrong-adjuster'
  /** What a procedure that is run requires may not hold at the call. */
  | 'requires-not-met-at-run'
  /** The person may not be where a procedure that is run takes them to be. */
  | 'place-not-met-at-run'
  /** A hand-held instrument has no place where it is read. */
  | 'instrument-place'
  /** What an instrument needs may not hold where it is read. */
  | 'instrument-needs'
  /** Steps form a cycle without a branch that counts. */
  | 'unbounded-loop'
  /** A procedure runs itself, directly or through others. */
  | 'run-cycle'
  /** A branch goes back into a step, and a requirement that held there first may no longer hold. */
  | 'back-into-step'
  /** `requires`, `start` and physics leave no state to start from. */
  | 'start-impossible';

/** The kinds that are slips rather than faults. */
export const warningKinds: ReadonlySet<ViolationKind> = new Set<ViolationKind>([
  'back-into-step',
  'sent-to-wrong-adjuster',
]);

/** A step of the variant; `calls` are the ids of the `run` steps that lead into the procedure it belongs to, outermost first. */
export interface StepPlace {
  readonly procedure: string;
  readonly step: string;
  /** `4`, or `4.2` for the second step of the procedure that step 4 runs. Counts in the end's procedure within `end`. */
  readonly number: string;
  readonly calls: readonly string[];
  /** The end whose procedure it belongs to; missing for the steps of the variant's own procedure and what they run. */
  readonly end?: End;
  readonly at: Span;
}

/** What a state may be: ids of its values in the order declared; for a quantity, texts of the stretches (`below 100 degF`). */
export interface StateSet {
  readonly state: string;
  /** For the place of a person where there is more than one. */
  readonly person?: number;
  readonly values: readonly string[];
}

/** Where a fact was last lost, or left unknown. */
export type FactLoss =
  /** Not said by `requires` or `start`, and nothing on the path says it. */
  | { readonly kind: 'start' }
  | {
      readonly kind: 'step';
      /** Which entry of the trace. */
      readonly entry: number;
      readonly how: 'sets' | 'physics' | 'failed' | 'means' | 'moved' | 'adjust' | 'stale' | 'reading';
      /** The law of physics, or what in the step did it. */
      readonly at: Span;
    };

/** A fact that is wanted and not certain. */
export interface MissingFact extends StateSet {
  /** What would do. */
  readonly wanted: readonly string[];
  /** Where it is wanted. */
  readonly at: Span;
  /** The bundle of `conditions` that wants it. */
  readonly bundle?: string;
  readonly lost: FactLoss;
}

export type BranchTaken =
  | 'next'
  | 'then'
  | 'otherwise'
  | 'outside'
  | 'low'
  | 'high'
  | 'unsure'
  | 'fault'
  | 'answer'
  /** A procedure that the step runs came to `done`. */
  | 'returned'
  /** Into the procedure that the step runs. */
  | 'run';

/** How a step was left. */
export interface Taken {
  readonly branch: BranchTaken;
  /** The key of the answer. */
  readonly answer?: string;
  /** How often `else` was followed because a count was used up. */
  readonly elses: number;
  /** A step id or an end. */
  readonly go: string;
  /** Where the branch is written; missing for `next`, `run`, `returned`. */
  readonly at?: Span;
}

/** One step of a path, in order. The last entry of a trace is the step where the fault shows; it may lack `taken`. */
export interface TraceEntry {
  readonly place: StepPlace;
  /** Who does it. */
  readonly by: number;
  /** Where that person may be while doing it; empty where no person is modelled. */
  readonly stands: readonly string[];
  /** The person came there by `at` or by reading an instrument in this step. */
  readonly moved: boolean;
  readonly sets: readonly StateSet[];
  /** What a branch says is seen. */
  readonly means: readonly StateSet[];
  /** What physics changed, as far as it bears on the fault. */
  readonly physics: readonly (StateSet & { readonly at: Span })[];
  readonly measured: readonly string[];
  readonly adjusted: readonly string[];
  readonly taken?: Taken;
}

/** A change that mends a violation; it was proved: the violation is gone and no other came. */
export type Repair =
  /** Add to an existing step's `sets`, or `at`, as a step of its own before `before`. */
  | {
      readonly kind: 'insert-step';
      readonly before: StepPlace;
      readonly sets: readonly StateSet[];
      readonly place?: string;
    }
  | { readonly kind: 'insert-run'; readonly before: StepPlace; readonly procedure: string }
  | { readonly kind: 'move-step'; readonly step: StepPlace; readonly before: StepPlace }
  /** Give the step `at: place`. */
  | { readonly kind: 'set-place'; readonly step: StepPlace; readonly place: string }
  /** Read the value in this step too. */
  | { readonly kind: 'measure'; readonly step: StepPlace; readonly value: string };

export interface Violation {
  readonly kind: ViolationKind;
  /** The step where it shows; missing for `start-impossible`. For an end: the step that leads there. */
  readonly place?: StepPlace;
  /** What to point at: the need, the set, the branch, the leave. */
  readonly at: Span;
  /** The step's phase: before the act, on entering its place, after the act, after a failed act, or at an end. */
  readonly phase: 'start' | 'before' | 'entered' | 'after' | 'failed' | 'end';
  readonly end?: End;
  readonly missing: readonly MissingFact[];
  readonly rule?: ResolvedRule;
  /** What made the rule trigger: its `when` with the values that are possible there. */
  readonly triggeredBy: readonly StateSet[];
  /** For `unchanged-broken`, `physics-forbids-set`: the state that is set or changed. */
  readonly changed?: { readonly state: string; readonly by: 'sets' | 'means' | 'physics' };
  /** The value, worksheet or adjuster it is about. */
  readonly value?: string;
  /** For `derived-from-stale`: the input. */
  readonly input?: string;
  /** How the value may stand: for stale, absent and failed readings. */
  readonly reading?: 'absent' | 'failed' | 'stale';
  /** The procedure that is run, for kinds about a call. */
  readonly callee?: string;
  /** For `unbounded-loop`: the steps of the cycle; for `run-cycle`: the procedures. */
  readonly cycle: readonly string[];
  /** The shortest path there, from the start. Empty for faults that need no path. */
  readonly trace: readonly TraceEntry[];
  readonly repair?: Repair;
  /** What else of the same proof the repair mends, as it was before repairs were looked for. */
  readonly mends?: readonly Violation[];
}

/** What is known at a step, over all paths to it. */
export interface StepFacts {
  readonly place: StepPlace;
  /** What each state may be before the step (before the person moves). States of which nothing is known are left out. */
  readonly before: readonly StateSet[];
  /** Hazards of rules that trigger there and of the step's own list, in the order of the book's rules. */
  readonly hazards: readonly string[];
  /** Ids of the rules that trigger there. */
  readonly rules: readonly string[];
}

/** A branch that can never be taken. */
export interface IdleBranch {
  readonly place: StepPlace;
  readonly branch: BranchTaken;
  readonly at: Span;
}

export interface OrderResult {
  /** Each fault once, with its shortest path; in the order of the steps. */
  readonly violations: readonly Violation[];
  /** Steps that no path reaches; of the variant's own procedure and of what it runs. */
  readonly unreachable: readonly StepPlace[];
  /** Branches that nothing can lead to, of the variant's own procedure. */
  readonly idle: readonly IdleBranch[];
  readonly ends: ReadonlySet<End>;
  /** Rules whose `when` may hold somewhere. A rule that no variant of a book triggers is vacuous. */
  readonly triggered: ReadonlySet<string>;
  readonly facts: readonly StepFacts[];
  /** What was asked of all paths: by kind, at how many places; a place of a procedure that is run counts for each call. */
  readonly asked: ReadonlyMap<ViolationKind, number>;
  /** States looked at, over all slices of the proof. */
  readonly explored: number;
  /** False where the budget was met: nothing is proved then, violations found still stand. */
  readonly complete: boolean;
}

export interface ProofOptions {
  /** How many states may be looked at. */
  readonly budget: number;
  /** False leaves repairs out: for those who only count violations. */
  readonly repairs?: boolean;
  /** Procedures of the book, for the same rigs, that a repair may run; without it those that the variant runs already. */
  readonly procedures?: readonly ResolvedProcedure[];
}
