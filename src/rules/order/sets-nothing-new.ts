// A step that sets what is so already, on every path that comes to it and for all rigs.

import type { ResolvedCondition, ResolvedStep, World } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import { type Context, type Finding, type Proof, rule } from '../rule.js';
import { languageOf } from '../text/languages/languages.js';

interface Facts {
  readonly step: string;
  /** `header: on-ground`. */
  readonly sets: readonly string[];
}

export default rule({
  id: 'sets-nothing-new',
  severity: 'warning',
  needs: 'proofs',
  *run(proofs, context) {
    if (context.isPart) return;
    const judged = new Map<string, Idle | undefined>();
    for (const proof of proofs) {
      for (const step of proof.variant.procedure.steps) {
        const key = `${step.source.id.at.file} ${step.source.id.at.start}`;
        const before = judged.get(key);
        if (judged.has(key) && before === undefined) continue;
        const idle = idleIn(proof, step, context);
        judged.set(key, idle && before ? before : idle);
      }
    }
    yield* findingsOf([...judged.values()].filter((idle) => idle !== undefined));
  },
  say: ({ step, sets }: Facts) => ({
    message: `What \`${step}\` sets is so already: before it, ${sets.map((one) => `\`${one}\``).join(' and ')} holds on every path`,
    help: 'Mend what is set here or before; put back a step that is to come between; or take this one out, if it was copied.',
    note: 'A step is written because something is otherwise before it. Where nothing is, a step is missing or a word is wrong.',
  }),
});

interface Idle {
  readonly proof: Proof;
  readonly step: ResolvedStep;
}

/** The step, if all that it does is to set what is so already. Where the order is wrong, that is mended first. */
function idleIn(proof: Proof, step: ResolvedStep, context: Context): Idle | undefined {
  const { result } = proof;
  if (
    !result.complete ||
    result.violations.length > 0 ||
    step.sets.length === 0 ||
    doesMore(step) ||
    isLook(step, context)
  )
    return undefined;
  const facts = result.facts.find(
    ({ place }) => place.step === step.id && place.calls.length === 0 && place.end === undefined,
  );
  const isSo = ({ state, test }: ResolvedCondition): boolean => {
    const known = facts?.before.find((one) => one.state === state && one.person === undefined)?.values;
    return known?.length === 1 && test.kind === 'words' && test.words.length === 1 && test.words[0] === known[0];
  };
  const { world } = context.resolved;
  return step.sets.every((set) => isSo(set) && isTold(set, step, { proof, world })) ? { proof, step } : undefined;
}

function doesMore(step: ResolvedStep): boolean {
  const { measure, adjust, stale, answers, mark, photo, hold, wait, run, energized } = step;
  if ([measure, adjust, stale, answers].some((list) => list.length > 0)) return true;
  return [mark, photo, hold, wait, run, energized].some((part) => part !== undefined);
}

/** To look again is never idle, nor is it to be told what to leave as it is. */
function isLook({ do: words }: ResolvedStep, { book }: Context): boolean {
  const [first = 'en'] = book.settings.languages;
  const [word = ''] = (words?.[first] ?? '').trim().split(/[\s,.]+/);
  const language = languageOf(first);
  return (
    language !== undefined && [language.watching, language.companions].some((list) => list.has(language.bare(word)))
  );
}

// A state of something that moves is coarse: `raised` is many heights. Only a step of the same words brings it to the same
// one. And what a movement waits for without anything following from it, as nobody near, is made sure of again each time.
function isTold(set: ResolvedCondition, step: ResolvedStep, { proof, world }: { proof: Proof; world: World }): boolean {
  const { steps } = proof.variant.procedure;
  const moves = world.variables.find(({ id }) => id === set.state)?.movesWhen ?? [];
  if (moves.length > 0) {
    const others = steps.filter((other) => other !== step && other.sets.some((one) => isAlike(one, set)));
    return others.length > 0 && others.every((other) => wordsOf(other) === wordsOf(step));
  }
  const isWaitedFor = world.variables.some(({ movesWhen }) => movesWhen.some(({ state }) => state === set.state));
  return !isWaitedFor || world.physics.some(({ when }) => when.some(({ state }) => state === set.state));
}

function wordsOf({ do: words }: ResolvedStep): string {
  return JSON.stringify(words);
}

function isAlike(one: ResolvedCondition, two: ResolvedCondition): boolean {
  const words = ({ test }: ResolvedCondition): string => (test.kind === 'words' ? test.words.join(' ') : test.kind);
  return one.state === two.state && words(one) === words(two);
}

/** One finding for all that set the same: the first of them shows it, whichever is wrong. */
function* findingsOf(all: readonly Idle[]): Iterable<Finding<Facts>> {
  const groups = new Map<string, Idle[]>();
  for (const idle of all) {
    const key = `${idle.proof.variant.procedure.id} ${setsOf(idle).join(' ')}`;
    groups.set(key, [...(groups.get(key) ?? []), idle]);
  }
  for (const [first, ...others] of groups.values()) {
    const [set] = first?.step.sets ?? [];
    if (!first || !set) continue;
    const before = saidBefore(set, first.step, first.proof);
    const related = [
      ...(before ? [{ message: 'here it is said before', at: before }] : []),
      ...others.map(({ step }) => ({ message: `\`${step.id}\` as well`, at: step.sets[0]?.at ?? step.source.id.at })),
    ];
    yield { at: set.at, related, data: { step: first.step.id, sets: setsOf(first) } };
  }
}

function setsOf({ step }: Idle): readonly string[] {
  return step.sets.map(({ state, test }) => `${state}: ${test.kind === 'words' ? test.words.join(' or ') : ''}`);
}

/** Where it was last said above, or else required. */
function saidBefore(set: ResolvedCondition, step: ResolvedStep, { variant: { procedure } }: Proof): Span | undefined {
  const above = procedure.steps.slice(0, procedure.steps.indexOf(step));
  const said = above.flatMap(({ sets, answers, when, otherwise }) => [
    ...sets,
    ...[...answers.map(({ branch }) => branch), ...when.values(), ...(otherwise ? [otherwise] : [])].flatMap(
      ({ means }) => means,
    ),
  ]);
  const last = said.findLast((one) => isAlike(one, set));
  return last?.at ?? procedure.requires.find(({ condition }) => isAlike(condition, set))?.at;
}
