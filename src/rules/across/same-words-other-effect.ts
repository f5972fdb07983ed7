// A step that does something else than all other steps of the book that say the same.

import type { Book } from '../../model/book.js';
import type { Conditions } from '../../model/conditions.js';
import type { NumberChoice } from '../../model/numbers.js';
import type { Procedure, Step } from '../../model/procedure.js';
import type { Choice } from '../../model/text.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

/** Steps of the same words that must agree before the one that does not is held to be a slip. */
const fewest = 2;

export default rule({
  id: 'same-words-other-effect',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const group of groupsOf(book)) {
      for (const one of group) {
        const others = group.filter((other) => other !== one);
        for (const [name, said] of sharedBy(others)) {
          const own = one.says.get(name);
          if (own?.text === said.text) continue;
          const related = [{ message: 'one of the others', at: said.at }];
          const data = { words: one.words, count: others.length, expected: said.say, own: own?.say ?? '' };
          yield { at: own?.at ?? one.step.id.at, related, data };
        }
      }
    }
  },
  say: ({ words, count, expected, own }) => ({
    message: `${own === '' ? 'This step does not say' : `This step says ${own}, and not`} ${expected}, as the ${count} other steps do that read “${words}”`,
    help:
      own === ''
        ? `Write ${expected} here, or give the step other words.`
        : 'Mend it here, or give the step other words.',
    note: 'People who have done a step before do it again as they did it then.',
  }),
});

/** What a step says of one thing: as text that is compared, in words, and where. */
interface Saying {
  readonly text: string;
  readonly say: string;
  readonly at: Span;
}

interface Member {
  readonly step: Step;
  readonly words: string;
  readonly says: ReadonlyMap<string, Saying>;
}

function groupsOf(book: Book): readonly (readonly Member[])[] {
  const groups = new Map<string, Member[]>();
  const language = book.settings.languages[0] ?? '';
  for (const { steps } of [...book.procedures.values()] satisfies readonly Procedure[]) {
    for (const step of steps) {
      const written = step.do?.languages.get(language);
      if (written?.kind !== 'one') continue;
      const words = written.value.source.value.trim();
      groups.set(words, [...(groups.get(words) ?? []), { step, words, says: sayingsOf(step) }]);
    }
  }
  return [...groups.values()].filter((group) => group.length > fewest);
}

/** What all of these say alike. */
function sharedBy(members: readonly Member[]): ReadonlyMap<string, Saying> {
  const [first, ...rest] = members;
  const shared = [...(first?.says ?? [])].filter(([name, { text }]) =>
    rest.every(({ says }) => says.get(name)?.text === text),
  );
  return new Map(shared);
}

function sayingsOf(step: Step): ReadonlyMap<string, Saying> {
  const says = new Map<string, Saying>();
  for (const [state, saying] of conditionsSaid('sets', step.sets)) says.set(state, saying);
  for (const [state, saying] of conditionsSaid('needs', step.needs)) says.set(state, saying);
  for (const { value, at } of step.hazards)
    says.set(`hazard ${value}`, { text: value, say: `\`hazard: [${value}]\``, at });
  if (step.place) says.set('at', { text: step.place.value, say: `\`at: ${step.place.value}\``, at: step.place.at });
  for (const key of ['hold', 'wait'] as const) {
    const said = numberSaid(key, step[key]);
    if (said) says.set(key, said);
  }
  return says;
}

function conditionsSaid(
  key: 'sets' | 'needs',
  conditions: Conditions | undefined,
): readonly (readonly [string, Saying])[] {
  if (!conditions) return [];
  if (conditions.kind === 'bundle') {
    const { value, at } = conditions.name;
    return [[key, { text: value, say: `\`${key}: ${value}\``, at }]];
  }
  return conditions.conditions.map(({ state, test }) => {
    const text = test.kind === 'words' ? test.words.map(({ value }) => value).join(', ') : test.kind;
    return [`${key} ${state.value}`, { text, say: `\`${key}: { ${state.value}: ${text} }\``, at: test.at }];
  });
}

function numberSaid(key: string, choice: NumberChoice | undefined): Saying | undefined {
  if (choice?.kind !== 'one') return undefined;
  const { source } = (choice satisfies Choice<unknown>).value;
  return { text: source.value.replaceAll(/\s+/g, ' '), say: `\`${key}: ${source.value}\``, at: source.at };
}
