// The words of a hazard that order an act on the machine which no step of a procedure does.

import type { Book } from '../../model/book.js';
import type { Conditions, Hazard } from '../../model/conditions.js';
import type { Procedure } from '../../model/procedure.js';
import { templatesOf } from '../../model/walk.js';
import { type Span, spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { actsOf } from '../text/acts.js';
import type { Language } from '../text/languages/language.js';
import { languageOf } from '../text/languages/languages.js';
import { sentencesOf } from '../text/sentences.js';

interface Act {
  readonly words: string;
  /** The state that it changes, by its id. */
  readonly state: string;
  readonly at: Span;
}

export default rule({
  id: 'act-in-hazard',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const [first = 'en'] = book.settings.languages;
    const language = languageOf(first);
    for (const hazard of language ? book.hazards.values() : []) {
      for (const act of language ? actsIn(hazard, { book, first, language }) : []) {
        if (isRuled(hazard.id, act.state, book)) continue;
        const without = [...book.procedures.values()].filter(
          (procedure) => warns(procedure, hazard.id) && !speaksOf(procedure, act.state, book),
        );
        const [one, ...others] = without;
        if (!one) continue;
        const place = one.hazards.find(({ value }) => value === hazard.id)?.at ?? one.title.at;
        const data = { ...act, hazard: hazard.id, procedure: one.id, more: others.length };
        yield { at: act.at, related: [{ message: `\`${one.id}\` warns with these words`, at: place }], data };
      }
    }
  },
  say: ({ words, state, hazard, procedure, more }) => ({
    message: `The hazard \`${hazard}\` says “${words}”, and no step of \`${procedure}\`${
      more === 0 ? '' : ` and of ${more} other ${more === 1 ? 'procedure' : 'procedures'}`
    } does that: nothing there sets or requires \`${state}\``,
    help: `Make a step of it, with \`sets: { ${state}: … }\`, or name it under \`requires\`; and say in \`avoid\` what to keep away from.`,
    note: 'DOE-STD-1029: what has to be done is a step, and no part of a warning. What only a warning says is neither proved nor ticked off.',
  }),
});

interface Reading {
  readonly book: Book;
  readonly first: string;
  readonly language: Language;
}

/** Acts on something that has a state, each once. `Keep away` changes nothing. */
function* actsIn({ avoid }: Hazard, { book, first, language }: Reading): Iterable<Act> {
  const states = namesOfStates(book, first);
  for (const { source } of templatesOf(avoid, first)) {
    const { value } = source;
    for (const sentence of sentencesOf(value, { start: 0, end: value.length }, first)) {
      // `before you leave the seat` says when: it is no act of every procedure
      if (sentence.words.some(({ text }) => language.conditionals.has(language.bare(text)))) continue;
      const acts = actsOf(value, sentence, language).filter(({ text }) => changes(text, language));
      for (const [i, act] of acts.entries()) {
        const end = acts[i + 1]?.start ?? sentence.end;
        const object = value.slice(act.end, end).toLowerCase();
        const state = states.find(({ name }) => objectIs(object, name, language));
        if (state) {
          const words = value
            .slice(act.start, end)
            .trim()
            .replace(/(?:[.,;]|\sand|\sy)+$/i, '');
          yield { words, state: state.id, at: spanWithin(source, act.start, act.start + words.length) };
        }
      }
    }
  }
}

/** Whether an order changes something: neither `keep` nor `watch` does. */
function changes(word: string, { bare, companions, watching }: Language): boolean {
  return !companions.has(bare(word)) && !watching.has(bare(word));
}

/** Whether what is acted on is the thing itself: `the engine`, `the parking brake first`; not `the engine temperature`. */
function objectIs(text: string, name: string, language: Language): boolean {
  const { objects, particles, conditions, subordinators, adverbs, bare } = language;
  const plain = text.replace(/[.,;:!].*$/s, '').trim();
  const words = plain.split(/\s+/);
  const start = words.findIndex((word) => !objects.has(bare(word)) && !particles.has(bare(word)));
  const object = start < 0 ? '' : words.slice(start).join(' ');
  if (object !== name && !object.startsWith(`${name} `)) return false;
  const [next = ''] = object.slice(name.length).trim().split(/\s+/);
  return next === '' || [particles, conditions, subordinators, adverbs].some((list) => list.has(bare(next)));
}

/** The states by their labels, the longest first; none of a person, and none that only says whether something is valid. */
function namesOfStates({ states }: Book, first: string): readonly { readonly id: string; readonly name: string }[] {
  return [...states.values()]
    .filter(({ id }) => id !== 'person')
    .flatMap(({ id, label }) =>
      [...templatesOf(label, first)].map(({ source }) => ({ id, name: source.value.trim().toLowerCase() })),
    )
    .filter(({ name }) => /\p{L}{3}/u.test(name))
    .sort((a, b) => b.name.length - a.name.length);
}

/** Whether a safety rule for the hazard asks for the state: then it is proved wherever it matters. */
function isRuled(hazard: string, state: string, book: Book): boolean {
  return book.rules.some((one) => one.hazard?.value === hazard && namesState(one.must, state, book));
}

function warns({ hazards, status }: Procedure, hazard: string): boolean {
  return status.value !== 'withdrawn' && hazards.some(({ value }) => value === hazard);
}

/** Whether a procedure, or what it runs, brings the state about or asks for it. */
function speaksOf(procedure: Procedure, state: string, book: Book, seen = new Set<string>()): boolean {
  if (seen.has(procedure.id)) return false;
  seen.add(procedure.id);
  const names = (conditions: Conditions | undefined): boolean => namesState(conditions, state, book);
  if (procedure.requires.some((one) => one.state.value === state)) return true;
  return procedure.steps.some(({ sets, needs, run }) => {
    const inner = run && book.procedures.get(run.value);
    return names(sets) || names(needs) || (inner !== undefined && speaksOf(inner, state, book, seen));
  });
}

function namesState(conditions: Conditions | undefined, state: string, { bundles }: Book): boolean {
  if (!conditions) return false;
  if (conditions.kind === 'bundle') {
    const bundle = bundles.get(conditions.name.value)?.conditions;
    return bundle?.kind === 'map' && bundle.conditions.some((one) => one.state.value === state);
  }
  return conditions.conditions.some((one) => one.state.value === state);
}
