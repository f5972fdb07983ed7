// What to do about a fault of order: the repair that was proved, or else what would bring about what is missing.

import type { MissingFact, Repair, Violation } from '../../order/result.js';
import { code, listed, stateName, stateWords, stepName, wantedWords, where } from './words.js';

/** `` Before step 4 `look`, add a step that brings `engine` to `off`; or … ``: one sentence. */
export function bringAbout(violation: Violation, others: readonly string[] = []): string {
  const { missing, end, place } = violation;
  const brought = missing.map((fact) => `${nounOf(fact)} to ${wantedWords(fact)}`);
  const before = end !== undefined && place?.end === undefined ? code(end) : where(violation);
  const steps = `add ${brought.length > 1 ? 'steps that bring' : 'a step that brings'} ${listed(brought, 'and')}`;
  return `${[`Before ${before}, ${steps}`, ...requireIt(violation), ...others].join('; or ')}.`;
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
  return [
    `where the machine is so before the work begins, say it of ${listed(open.map(stateName), 'and')} under \`requires\``,
  ];
}

/** A repair that was itself proved, as one sentence. */
export function repairWords(repair: Repair | undefined): string | undefined {
  if (!repair) return undefined;
  return `${changeOf(repair)}; that was tried and holds.`;
}

function changeOf(repair: Repair): string {
  switch (repair.kind) {
    case 'insert-step': {
      const parts = [
        ...(repair.place === undefined ? [] : [`goes to ${code(repair.place)}`]),
        ...(repair.sets.length > 0 ? [`sets ${listed(repair.sets.map(stateWords), 'and')}`] : []),
      ];
      return `Before ${stepName(repair.before)}, add a step that ${parts.join(' and ')}`;
    }
    case 'insert-run':
      return `Before ${stepName(repair.before)}, add a step with \`run: ${repair.procedure}\``;
    case 'move-step':
      return `Move ${stepName(repair.step)} to before ${stepName(repair.before)}`;
    case 'set-place':
      return `Give ${stepName(repair.step)} \`at: ${repair.place}\``;
    case 'measure':
      return `Add ${code(repair.value)} to what ${stepName(repair.step)} measures`;
  }
}
