// Names in conditions and effects: states, their values, bundles.

import type { Conditions, StateCondition } from '../../model/conditions.js';
import { joinNames } from '../faults.js';
import { type Checker, checkName } from './checker.js';
import { checkNumber } from './expressions.js';

/** `asked`: it is tested; `set`: it is brought about, and may then be `unknown`. */
export type ConditionRole = 'asked' | 'set';

/** Checks the names of a map of conditions, or of the bundle that stands for one. */
export function checkConditions(
  checker: Checker,
  conditions: Conditions | undefined,
  role: ConditionRole = 'asked',
): void {
  if (!conditions) return;
  if (conditions.kind === 'map') {
    for (const condition of conditions.conditions) checkCondition(checker, condition, role);
  } else {
    checkName(checker, { kind: 'bundle', name: conditions.name, known: checker.book.bundles });
  }
}

/** Checks one condition. */
export function checkCondition(checker: Checker, { state, test }: StateCondition, role: ConditionRole = 'asked'): void {
  const { book } = checker;
  if (!checkName(checker, { kind: 'state', name: state, known: book.states })) return;
  const declared = book.states.get(state.value);
  if (!declared) return;
  const values = declared.values.map(({ id }) => id.value);
  if (test.kind === 'limits') {
    checkNumber(checker, test.limits);
    if (declared.quantity) return;
    checker.report({
      code: 'limits-without-quantity',
      message: `\`${state.value}\` is no quantity and has no limits`,
      at: test.at,
      help:
        values.length > 0 ? `Write one of ${joinNames(values, 'or')}.` : 'Give the state a `quantity` in states.yaml.',
    });
    return;
  }
  if (test.kind === 'unknown') {
    if (role === 'set') return;
    checker.report({
      code: 'unknown-state-value',
      message: `\`unknown\` says what is left of \`${state.value}\` after an act, and cannot be asked for`,
      at: test.at,
      help: values.length > 0 ? `Write one of ${joinNames(values, 'or')}.` : 'Write limits.',
    });
    return;
  }
  for (const word of test.words) {
    if (declared.quantity && values.length === 0) {
      checker.report({
        code: 'limits-without-quantity',
        message: `\`${state.value}\` is a ${declared.quantity.value}: expected limits with a unit, not \`${word.value}\``,
        at: word.at,
        help: 'Write limits, as in `at least 100 degF`.',
      });
    } else {
      const message = `\`${state.value}\` is never \`${word.value}\``;
      checkName(checker, { kind: 'state-value', name: word, known: values, message });
    }
  }
}
