// A step whose words and whose `sets` say opposite things of one state: `Lower the header`, and `header: raised`.

import type { Book } from '../../model/book.js';
import type { StateCondition, StateVariable } from '../../model/conditions.js';
import type { Step } from '../../model/procedure.js';
import { templatesOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { concepts, isNegated, oppositesOf, sideSaid } from './opposites.js';

interface Facts {
  readonly words: string;
  readonly state: string;
  readonly value: string;
}

export default rule({
  id: 'act-against-effect',
  severity: 'warning',
  needs: 'procedure',
  *run({ steps }, { book }) {
    for (const step of steps) if (!step.repeated) yield* against(step, book);
  },
  say: ({ words, state, value }: Facts) => ({
    message: `The act says “${words}”, and the step says the opposite: \`sets: { ${state}: ${value} }\``,
    help: `Mend whichever is wrong: the words of the step, or what it sets \`${state}\` to.`,
    note: 'People do what the words say; the order of the steps is proved by what stands under `sets`.',
  }),
});

function* against(step: Step, { settings, states }: Book): Iterable<Finding<Facts>> {
  const language = settings.languages[0] ?? 'en';
  const opposites = oppositesOf(language);
  const [act, ...others] = [...templatesOf(step.do, language)];
  if (!opposites || !act || others.length > 0 || step.sets?.kind !== 'map') return;
  const { source } = act;
  if (isNegated(source.value, opposites)) return;
  for (const condition of step.sets.conditions) {
    const state = states.get(condition.state.value);
    if (!state || !isNamed(state, source.value, language)) continue;
    for (const concept of concepts) {
      const values = opposites.states[concept];
      const said = values && sideSaid(source.value, opposites[concept]);
      const set = values && said && sideSaid(valueSaid(state, condition, language), values);
      if (!said || !set || said.side === set.side || !isAct(source.value, said.start)) continue;
      yield {
        at: condition.test.at,
        related: [{ message: 'the words of the step', at: spanWithin(source, said.start, said.end) }],
        data: { words: source.value.slice(said.start, said.end), state: state.id, value: writtenIn(condition) },
      };
    }
  }
}

/** Whether a word begins what is done: `Lower the header until it stops` stops nothing. */
function isAct(text: string, start: number): boolean {
  return /(?:^|[.;,]|\b(?:and|then|y|luego))\s*$/i.test(text.slice(0, start));
}

/** Whether a text names the thing that has the state, by the words of its label. */
function isNamed({ id, label }: StateVariable, text: string, language: string): boolean {
  const names = [
    id.replaceAll('-', ' '),
    ...[...templatesOf(label, language)].map(({ source }) => source.value.trim()),
  ];
  return names.some((name) => name.length > 2 && ` ${text.toLowerCase()} `.includes(` ${name.toLowerCase()}`));
}

function writtenIn({ test }: StateCondition): string {
  return test.kind === 'words' ? test.words.map(({ value }) => value).join(', ') : '';
}

/** The value that is set, by its id and its own words. */
function valueSaid({ values }: StateVariable, { test }: StateCondition, language: string): string {
  const [word, ...others] = test.kind === 'words' ? test.words : [];
  if (!word || others.length > 0) return '';
  const label = values.find(({ id }) => id.value === word.value)?.label;
  const words = [...templatesOf(label, language)].map(({ source }) => source.value);
  return [...(language.startsWith('en') ? [word.value.replaceAll('-', ' ')] : []), ...words].join(', ');
}
