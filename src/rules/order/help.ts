// What to do about a fault of order: the change that was tried and proved, or else what would bring about what is missing.

import type { Book } from '../../model/book.js';
import type { MissingFact, Repair, StateSet, Violation } from '../../order/result.js';
import { calledEnd, code, listed, stateName, stepName, wantedWords, where } from './words.js';

/**
 * One sentence: the repair that was proved or else `fallback`, and other ways out. That a reading is taken along somewhere
 * is no more than one of these: only the author knows whether it can be read there.
 */
export function helpFor({ repair }: Violation, fallback: string, others: readonly string[] = []): string {
  const tried = repair ? [`${changeOf(repair)} (tried: it mends this and breaks nothing else)`] : [];
  const first = repair === undefined || repair.kind === 'measure' ? [fallback, ...tried] : tried;
  return `${[...first, ...others].join('; or ')}.`;
}

/** `` Before step 4 `look`, add a step that brings `engine` to `off`; or … ``: one sentence. */
export function bringAbout(violation: Violation, others: readonly string[] = []): string {
  const { missing } = violation;
  const brought = missing.map((fact) => `${nounOf(fact)} to ${wantedWords(fact)}`);
  const steps = `add ${brought.length > 1 ? 'steps that bring' : 'a step that brings'} ${listed(brought, 'and')}`;
  return helpFor(violation, `${momentOf(violation)}, ${steps}`, [...requireIt(violation), ...others]);
}

function momentOf(violation: Violation): string {
  const { end, place, phase } = violation;
  const goal = end !== undefined && (phase === 'end' || place?.end === undefined) ? end : calledEnd(violation);
  return goal === undefined ? `Before ${where(violation)}` : `On the way to ${code(goal)}`;
}

function nounOf(fact: MissingFact): string {
  if (fact.state !== 'person') return stateName(fact);
  return fact.person === undefined ? 'the person' : `person ${fact.person}`;
}

// What nothing on the path touches may be asked for at the start.
function requireIt({ missing, place }: Violation): readonly string[] {
  const open = missing.filter(
    ({ state, lost, values }) => state !== 'person' && lost.kind === 'start' && values.length > 1,
  );
  if (open.length === 0 || place?.end !== undefined) return [];
  const facts = open.map((fact) => `${stateName(fact)} is ${wantedWords(fact)}`);
  return [`say under \`requires\` that ${listed(facts, 'and')}, if it is so before the work begins`];
}

/**
 * The repair, unless only the order of steps speaks for it: where an author has said where a step is done, it cannot be
 * done elsewhere; and what an end wants is brought about on the way to that end, not further up where it may spoil a step.
 */
export function sensibleRepair(violation: Violation, book: Book): Repair | undefined {
  const { repair, phase } = violation;
  if (repair?.kind === 'set-place') {
    const step = book.procedures.get(repair.step.procedure)?.steps.find(({ id }) => id.value === repair.step.step);
    return step?.place === undefined ? repair : undefined;
  }
  if (repair?.kind === 'measure') return repair;
  return phase === 'end' || calledEnd(violation) !== undefined ? undefined : repair;
}

function changeOf(repair: Repair): string {
  switch (repair.kind) {
    case 'insert-step': {
      const place = repair.place === undefined ? [] : [code(`at: ${repair.place}`)];
      const sets = repair.sets.length > 0 ? [code(`sets: { ${repair.sets.map(entryOf).join(', ')} }`)] : [];
      return `Before ${stepName(repair.before)}, add the step that does it, with ${listed([...place, ...sets], 'and')}`;
    }
    case 'insert-run':
      return `Before ${stepName(repair.before)}, add a step with ${code(`run: ${repair.procedure}`)}`;
    case 'move-step':
      return `Move ${stepName(repair.step)} to before ${stepName(repair.before)}`;
    case 'set-place':
      return `Give ${stepName(repair.step)} ${code(`at: ${repair.place}`)}`;
    case 'measure':
      return `add ${code(repair.value)} to what ${stepName(repair.step)} measures, if it can be read there`;
  }
}

function entryOf({ state, values }: StateSet): string {
  const texts = values.map(entryText);
  return `${state}: ${texts.length === 1 ? texts[0] : `[${texts.join(', ')}]`}`;
}

/** A value as a book has it: `off` and `on` are quoted. */
export function entryText(value: string): string {
  return ['off', 'on', 'yes', 'no'].includes(value) ? `"${value}"` : value;
}
