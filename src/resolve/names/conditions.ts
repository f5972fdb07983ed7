// Names in conditions and effects: states, their values, bundles.

import type { Conditions, StateCondition } from '../../model/conditions.js';
import type { NumberChoice } from '../../model/numbers.js';
import type { Located } from '../../text/source.js';
import { joinNames } from '../faults.js';
import { withArticle } from '../shapes.js';
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
    const word = declared.quantity && plainWord(test.limits);
    if (declared.quantity && word) reportWord(checker, { state: state.value, quantity: declared.quantity.value, word });
    else checkNumber(checker, test.limits);
    if (declared.quantity) return;
    checker.report({
      code: 'unknown-state-value',
      message: `\`${state.value}\` has words and no limits`,
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
      reportWord(checker, { state: state.value, quantity: declared.quantity.value, word });
    } else {
      const message = `\`${state.value}\` is never \`${word.value}\``;
      checkName(checker, { kind: 'state-value', name: word, known: values, message });
    }
  }
}

/** A single word where limits are expected: no parameter is called so, since they all have a dot. */
function plainWord(limits: NumberChoice): Located<string> | undefined {
  if (limits.kind !== 'one') return undefined;
  const { expr, source } = limits.value;
  const isWord = expr.kind === 'single' && expr.of.kind === 'name' && !expr.of.path.includes('.');
  return isWord ? { value: source.value.trim(), at: source.at } : undefined;
}

function reportWord(
  checker: Checker,
  { state, quantity, word }: { readonly state: string; readonly quantity: string; readonly word: Located<string> },
): void {
  checker.report({
    code: 'word-for-quantity',
    message: `\`${state}\` is ${withArticle(quantity)}: expected limits with a unit, not \`${word.value}\``,
    at: word.at,
    help: 'Write limits, as in `at least 100 degF`.',
  });
}
