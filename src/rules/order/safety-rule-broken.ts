// A safety rule that may not be kept at a step or an end.

import type { Violation } from '../../order/result.js';
import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { code, endWords, missingWords, ruleWords, triggerPlaces, where } from './words.js';

export default rule({
  id: 'safety-rule-broken',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('rule-broken', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${momentOf(violation)} the safety rule ${code(violation.rule?.id ?? '')} is broken: ${missingWords(violation.missing)}`,
      help: bringAbout(violation, otherWays(violation)),
      note: ruleWords(violation),
    }),
});

function momentOf(violation: Violation): string {
  if (violation.phase === 'end') return `At ${endWords(violation)},`;
  if (violation.phase === 'failed') return `When ${where(violation)} fails,`;
  return `${violation.phase === 'after' ? 'After' : 'At'} ${where(violation)}`;
}

function otherWays(violation: Violation): readonly string[] {
  const places = triggerPlaces(violation);
  const leave =
    places === undefined || violation.missing.some(({ state }) => state === 'person')
      ? []
      : [`let nobody be at ${places} by then`];
  const energized = violation.rule?.exceptEnergized && violation.phase !== 'end';
  return [...leave, ...(energized ? ['say under `energized` why the step must be done so'] : [])];
}
