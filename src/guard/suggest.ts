// What would guard against a slip that nothing noticed: by what was changed, where it stands.

import type { Slip } from './slip.js';

/** One sentence for the author: what to write so that this slip is noticed. */
export function suggestFor(slip: Slip): string {
  const { kind, subject, path } = slip;
  if (kind === 'dropped-step' || kind === 'swapped-steps') return orderSuggestion;
  if (kind === 'dropped-requirement') return requirementSuggestion;
  if (kind === 'dropped-need') return needSuggestion;
  if (kind === 'other-instrument') return instrumentSuggestion;
  if (kind === 'wrong-rig-key') return rigSuggestion;
  if (kind === 'other-state-value' || subject === 'condition') return stateSuggestion;
  if (kind === 'other-reference' && subject === 'name') return nameSuggestion;
  return numberSuggestion(path, subject);
}

const orderSuggestion =
  'Let a later step need what this one sets, or tell the steps in the same order in a translation.';
const requirementSuggestion = 'Let a step need it, hold it by a safety rule, or translate its `shown-by`.';
const needSuggestion = 'Make it a safety rule for the place where the step is done, or require it throughout.';
const instrumentSuggestion =
  'Give the value limits that only the right instrument can tell, or its own place to read at.';
const rigSuggestion = 'Give the numbers of both rigs in an `agree`, so that one in the place of the other is noticed.';
const stateSuggestion =
  'Say it again where it matters: a later `needs`, a safety rule, or what the procedure `leaves`.';
const nameSuggestion = 'Say it a second time: where the other end names it too, a wrong name is noticed.';

const byPath: readonly (readonly [RegExp, string])[] = [
  [/^time/, 'Give `hands-on`, `waiting` and `total`: they must add up.'],
  [/at-most$/, 'Say it in the words of the step too: `at most three times`.'],
  [/^steps\/(?:hold|wait)$/, 'Give it as a parameter that an `agree` holds to a second value.'],
  [
    /^values\/[^/]+\/(?:limits|nominal)$/,
    'Give limits as a parameter with an `agree`, or derive a value from it that has limits of its own.',
  ],
  [/^values\/[^/]+\/inside$/, 'Let the limits reach close to this band, or give it as a parameter with an `agree`.'],
  [/^values\/[^/]+\/from$/, 'Give the derived value limits that the inputs nearly fill.'],
  [
    /^adjusters\//,
    'Give the effect for a second value that the same turn moves, or limits that need nearly the whole range.',
  ],
  [/^worksheets\//, 'Give the result as a parameter with an `agree`, or a second result that must fit it.'],
  [
    /^[^/]+\/(?:range|resolution|accuracy)$/,
    'Use the instrument for limits close to what it can do, so that a coarser one is too coarse.',
  ],
];

function numberSuggestion(path: string, subject: Slip['subject']): string {
  const found = byPath.find(([shape]) => shape.test(path))?.[1];
  if (found) return found;
  return subject === 'parameter'
    ? 'Add an `agree` that gives it a second time: worked out from others, or in another unit.'
    : 'Give it a second time where both must agree.';
}
