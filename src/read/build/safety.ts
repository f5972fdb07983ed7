// safety.yaml into the model: hazards, bundles of conditions, rules, ends.

import type { Book } from '../../model/book.js';
import type { Hazard, SafetyRule, Severity } from '../../model/conditions.js';
import { conditionsBehind, conditionsOf } from './conditions.js';
import { checkTwice } from './names.js';
import { childOf, entriesOf, idBehind, idsBehind, itemsOf, type Part, partOf, wordBehind } from './part.js';
import { filled, type Reading } from './reading.js';
import { textBehind } from './texts.js';
import type { Entry } from './values.js';

const severities: readonly Severity[] = ['will-kill', 'may-kill', 'may-injure', 'damage'];

/** The whole of safety.yaml. */
export function safetyOf(reading: Reading, part: Part): Pick<Book, 'hazards' | 'bundles' | 'rules' | 'ends'> {
  const hazards = entriesOf(reading, childOf(reading, part, 'hazards')).flatMap(
    (entry) => hazardOf(reading, entry) ?? [],
  );
  const bundles = entriesOf(reading, childOf(reading, part, 'conditions')).flatMap((entry) => {
    const conditions = conditionsOf(reading, entry);
    return conditions ? [{ id: entry.key.text.value, conditions, at: entry.node.at }] : [];
  });
  const rules = itemsOf(childOf(reading, part, 'rules')).map((node) => partOf(node));
  checkTwice(
    reading,
    rules.flatMap((rule) => idBehind(reading, rule, 'id') ?? []),
    'rules',
  );
  return {
    hazards: new Map(hazards.map((hazard) => [hazard.id, hazard])),
    bundles: new Map(bundles.map((bundle) => [bundle.id, bundle])),
    rules: rules.flatMap((rule) => ruleOf(reading, rule) ?? []),
    ends: endsOf(reading, childOf(reading, part, 'ends')),
  };
}

function hazardOf(reading: Reading, entry: Entry): Hazard | undefined {
  const severity = wordBehind(reading, { part: entry, key: 'severity' }, severities);
  const what = textBehind(reading, entry, 'what', 'must');
  const harm = textBehind(reading, entry, 'harm', 'must');
  const avoid = textBehind(reading, entry, 'avoid', 'must');
  if (!severity || !what || !harm || !avoid) return undefined;
  return { id: entry.key.text.value, severity, what, harm, avoid, at: entry.node.at };
}

function ruleOf(reading: Reading, part: Part): SafetyRule | undefined {
  const id = idBehind(reading, part, 'id');
  const unchanged = idsBehind(reading, part, 'unchanged');
  if (!id) return undefined;
  return filled({
    id: id.value,
    label: textBehind(reading, part, 'label', 'must'),
    when: conditionsBehind(reading, part, 'when'),
    must: conditionsBehind(reading, part, 'must'),
    unchanged: unchanged.length > 0 ? unchanged : undefined,
    hazard: idBehind(reading, part, 'hazard'),
    exceptEnergized: idBehind(reading, part, 'except')?.value === 'energized',
    origin: textBehind(reading, part, 'source', 'may-stay'),
    at: part.node.at,
  });
}

function endsOf(reading: Reading, part: Part | undefined): Book['ends'] {
  return new Map(
    (['stop', 'call-service'] as const).flatMap((name) => {
      const end = childOf(reading, part, name);
      if (!end) return [];
      const run = idBehind(reading, end, 'run');
      const must = conditionsBehind(reading, end, 'must');
      return [[name, filled({ run, must, at: end.node.at })] as const];
    }),
  );
}
