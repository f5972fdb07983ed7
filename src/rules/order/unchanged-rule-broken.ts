// A step changes what a safety rule wants left alone.

import type { StateSet, Violation } from '../../order/result.js';
import { rule } from '../rule.js';
import { helpFor } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, isSo, listed, ruleWords, stateWords, triggerPlaces, where } from './words.js';

export default rule({
  id: 'unchanged-rule-broken',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('unchanged-broken', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} ${changeOf(violation)} while ${isSo(violation.triggeredBy)}, and the safety rule ${code(violation.rule?.id ?? '')} wants it left alone then`,
      help: helpOf(violation),
      note: ruleWords(violation),
    }),
});

function changeOf({ changed }: Violation): string {
  const state = code(changed?.state ?? '');
  return changed?.by === 'physics' ? `lets \`physics\` change ${state}` : `sets ${state}`;
}

function helpOf(violation: Violation): string {
  const { changed, triggeredBy } = violation;
  const places = triggerPlaces(violation);
  const leave =
    places === undefined
      ? `add a step after which it is no longer ${listed(triggeredBy.map(stateWords), 'and')}`
      : `bring ${whoIs(violation)} away from ${places}, with ${byOf(violation)}\`at\``;
  const secure =
    changed?.by === 'physics' ? [`add a step before it that keeps ${code(changed.state)} from changing`] : [];
  return helpFor(violation, `Before ${where(violation)}, ${leave}`, secure);
}

/** Who is where the rule triggers: with several people, the one that `by` names. */
function whoIs({ triggeredBy }: Violation): string {
  const person = personIn(triggeredBy);
  return person === undefined ? 'the person' : `person ${person}`;
}

function byOf({ triggeredBy }: Violation): string {
  const person = personIn(triggeredBy);
  return person === undefined || person === 1 ? '' : `\`by: ${person}\` and `;
}

function personIn(triggeredBy: readonly StateSet[]): number | undefined {
  return triggeredBy.find(({ state }) => state === 'person')?.person;
}
