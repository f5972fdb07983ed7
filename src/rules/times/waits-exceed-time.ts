// A procedure that is said to take less time than its own steps wait, or than none.

import { formatLimits } from '../../calc/display.js';
import { namesIn } from '../../calc/expression/names.js';
import { isSingle, type Limits } from '../../calc/limits.js';
import { add, compare, type Rational, sign, zero } from '../../calc/rational.js';
import type { Book } from '../../model/book.js';
import type { NumberChoice } from '../../model/numbers.js';
import type { ResolvedProcedure, ResolvedStep, Variant } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import { plainLimits } from '../across/siblings.js';
import { rule } from '../rule.js';

interface Facts {
  /** None: the time that is said is below zero, whatever the steps wait for. */
  readonly waits?: string;
  readonly said: string;
  readonly key: string;
}

export default rule({
  id: 'waits-exceed-time',
  severity: 'warning',
  needs: 'variant',
  *run(variant, { book }) {
    const found = shortfallOf(variant, book);
    if (!found) return;
    const { typed, facts, at } = found;
    const related = typed ? [{ message: `the longest wait is \`${typed.path}\`, ${typed.text}`, at: typed.at }] : [];
    yield { at, related, data: { ...facts, path: typed?.path } };
  },
  say: ({ waits, said, key, path }) => ({
    ...(waits === undefined
      ? { message: `${key} says ${said}, which is less than no time`, help: 'Take the sign out, or mend the number.' }
      : {
          message: `The steps wait for ${waits} where all goes well, and ${key} says ${said}`,
          help: `Mend the time here, or ${path === undefined ? 'the `wait` of the step that is a slip' : `\`${path}\` where it is typed`}.`,
        }),
    note: 'Whoever plans by the shorter time stops waiting before it is safe.',
  }),
});

interface Shortfall {
  readonly at: Span;
  readonly facts: Facts;
  /** The parameter that its longest wait is, where it is one. */
  readonly typed?: Typed;
}

interface Typed {
  readonly path: string;
  readonly text: string;
  readonly at: Span;
}

function shortfallOf({ procedure, rigs }: Variant, book: Book): Shortfall | undefined {
  const { time } = procedure.source;
  if (!time) return undefined;
  const hands = single(time.handsOn);
  if (hands && sign(hands.low) < 0) {
    return { at: time.handsOn?.at ?? time.at, facts: { said: formatLimits(hands), key: '`hands-on`' } };
  }
  const waiting = single(time.waiting);
  const said = waiting ?? single(time.total);
  const waits = waitsOf(procedure);
  const sum = waits.map(lowOf).reduce(add, zero);
  if (!said || compare(sum, said.low) <= 0) return undefined;
  const [at, key] = waiting ? [time.waiting?.at, '`waiting`'] : [time.total?.at, '`time`'];
  const [first, ...others] = waits;
  if (!first) return { at: at ?? time.at, facts: { said: formatLimits(said), key } };
  const longest = others.reduce((a, b) => (compare(lowOf(b), lowOf(a)) > 0 ? b : a), first);
  const typed = typedFor(longest, { rigs, book });
  const facts: Facts = { waits: formatLimits(as(said, sum)), said: formatLimits(said), key };
  return { at: at ?? time.at, facts, ...(typed ? { typed } : {}) };
}

/** The parameter of the machine that a wait is, if it is nothing else. */
function typedFor(
  { source }: ResolvedStep,
  { rigs: [rig], book }: { readonly rigs: Variant['rigs']; readonly book: Book },
): Typed | undefined {
  const { wait } = source;
  const [name, another] = wait?.kind === 'one' ? namesIn(wait.value.expr) : [];
  if (!name || another || !rig) return undefined;
  const [owner = '', id = ''] = name.path.split('.');
  const holder = owner === 'machine' ? book.machines.get(rig.machine) : book.headers.get(rig.header);
  const value = holder?.parameters.get(id)?.value;
  if (value?.kind !== 'one') return undefined;
  return { path: name.path, text: value.value.source.value.trim(), at: value.value.source.at };
}

function lowOf({ wait }: ResolvedStep): Rational {
  return wait?.limits.low ?? zero;
}

interface Single extends Limits {
  readonly low: Rational;
}

function single(choice: NumberChoice | undefined): Single | undefined {
  const limits = choice?.kind === 'one' ? plainLimits(choice.value) : undefined;
  return limits?.low && isSingle(limits) ? { ...limits, low: limits.low } : undefined;
}

function as(like: Limits, value: Rational): Limits {
  const { unit, resolution } = like;
  return { low: value, high: value, unit, resolution };
}

/** The steps that wait on the way on which every reading passes and every expectation holds. */
function waitsOf({ steps }: ResolvedProcedure, depth = 0): readonly ResolvedStep[] {
  const done = new Set<string>();
  const waits: ResolvedStep[] = [];
  let step: ResolvedStep | undefined = steps[0];
  while (step && !done.has(step.id) && step.answers.length === 0) {
    const { id, wait, run, then }: ResolvedStep = step;
    done.add(id);
    if (wait?.limits.low) waits.push(step);
    if (run && depth < 8) waits.push(...waitsOf(run, depth + 1));
    step = then ? steps.find((one) => one.id === then.go) : steps[steps.findIndex((one) => one.id === id) + 1];
  }
  return waits;
}
