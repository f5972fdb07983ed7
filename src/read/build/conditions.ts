// What states must be, or become: maps of states, names of bundles, the test behind each state.

import type { Conditions, StateCondition, StateTest } from '../../model/conditions.js';
import type { Located } from '../../text/source.js';
import { numberChoice } from './numbers.js';
import { childOf, entriesOf, idsOf, located, type Part } from './part.js';
import { type Reading, reportGap } from './reading.js';

/** The conditions behind a key: a map, or the name of a bundle. */
export function conditionsBehind(reading: Reading, part: Part | undefined, key: string): Conditions | undefined {
  const child = childOf(reading, part, key);
  return child && conditionsOf(reading, child);
}

/** Conditions that must hold. */
export function conditionsOf(reading: Reading, part: Part): Conditions | undefined {
  const name = located(part.node);
  if (name) return { kind: 'bundle', name, at: part.node.at };
  return mapOf(reading, part, false);
}

/** What is then seen of the states behind a key: effects, or the name of a bundle. */
export function meaningBehind(reading: Reading, part: Part | undefined, key: string): Conditions | undefined {
  const child = childOf(reading, part, key);
  return child && (located(child.node) ? conditionsOf(reading, child) : mapOf(reading, child, true));
}

/** Effects: what states become. `unknown` is one of them. */
export function effectsBehind(reading: Reading, part: Part | undefined, key: string): Conditions | undefined {
  const child = childOf(reading, part, key);
  return child && mapOf(reading, child, true);
}

function mapOf(reading: Reading, part: Part, isEffect: boolean): Conditions | undefined {
  if (part.node.kind !== 'map') return undefined;
  const conditions = entriesOf(reading, part).flatMap((entry): readonly StateCondition[] => {
    const state = located(entry.key);
    const test = state && stateTest(reading, { state, node: entry.node, isEffect });
    return state && test ? [{ state, test }] : [];
  });
  return { kind: 'map', conditions, at: part.node.at };
}

interface Tested {
  readonly state: Located<string>;
  readonly node: Part['node'];
  readonly isEffect: boolean;
}

/** What a state must be or becomes: words where it has words, limits where it has a quantity. */
export function stateTest(reading: Reading, { state, node, isEffect }: Tested): StateTest | undefined {
  const { at } = node;
  if (isEffect && node.kind === 'scalar' && node.text.value === 'unknown') return { kind: 'unknown', at };
  if (node.kind === 'list') return { kind: 'words', words: idsOf(node.items), at };
  const kind = reading.stateKinds.get(state.value) ?? kindOfText(node);
  if (kind === 'quantity') {
    const limits = numberChoice(reading, node);
    return limits && { kind: 'limits', limits, at };
  }
  const word = located(node);
  if (word) return { kind: 'words', words: [word], at };
  if (node.kind === 'map') {
    reportGap(reading, {
      code: 'wrong-type',
      message: `Unexpected map for \`${state.value}\`, expected one of its values or a list of them`,
      at,
      help: `Write it as in \`${state.value}: VALUE\`. What differs by machine is said in steps with \`only\`.`,
    });
  }
  return undefined;
}

// a state that is not declared is reported by its name; until then one word is a value, anything else limits
function kindOfText(node: Part['node']): 'words' | 'quantity' {
  return node.kind === 'scalar' && /^[a-z][a-z0-9-]*$/i.test(node.text.value) ? 'words' : 'quantity';
}
