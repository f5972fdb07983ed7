// A step whose words send a person where a safety rule looks, or out of the cab, while no `at` says so: the proof leaves the
// person where they were.

import type { ResolvedStep, World } from '../../model/resolved.js';
import { templatesOf } from '../../model/walk.js';
import { type Span, spanWithin } from '../../text/source.js';
import { type Context, type Finding, type Proof, rule } from '../rule.js';
import type { Language } from '../text/languages/language.js';
import { languageOf } from '../text/languages/languages.js';

interface Facts {
  readonly step: string;
  readonly words: string;
  /** Where the words send to; missing where they only send out of the cab. */
  readonly place?: string;
  readonly known: readonly string[];
}

export default rule({
  id: 'place-not-typed',
  severity: 'warning',
  needs: 'proof',
  *run(proof, context) {
    const [first = 'en'] = context.book.settings.languages;
    const language = languageOf(first);
    if (!language || !proof.result.complete) return;
    for (const step of proof.variant.procedure.steps) {
      const finding = findingFor(step, { proof, context, language, first });
      if (finding) yield finding;
    }
  },
  say: ({ step, words, place, known }: Facts) => ({
    message: `Step \`${step}\` says “${words}”, and for the proof the person stays at ${known.map((one) => `\`${one}\``).join(' or ')}`,
    help:
      place === undefined
        ? 'Say where the person is then, as in `at: beside`; or mend the words.'
        : `Write \`at: ${place}\`, or mend the words.`,
    note: 'Safety rules are proved for where the person is typed to be. Whoever does what the words say is where nothing was proved.',
  }),
});

interface Reading {
  readonly proof: Proof;
  readonly context: Context;
  readonly language: Language;
  readonly first: string;
}

function findingFor(step: ResolvedStep, reading: Reading): Finding<Facts> | undefined {
  const { context, language, first } = reading;
  const known = placesAt(step, reading);
  if (known.length === 0) return undefined;
  const { world } = context.resolved;
  for (const { source } of templatesOf(step.source.do, first)) {
    const text = source.value;
    const tell = (words: string, index: number): { readonly at: Span; readonly words: string } => ({
      at: spanWithin(source, index, index + words.length),
      words,
    });
    const order = /^\p{L}+/u.exec(text)?.[0] ?? '';
    if (language.going.has(language.bare(order))) {
      for (const place of ruledPlaces(world)) {
        const found = phraseOf(place, world, { language, first }).find((phrase) => holds(text, phrase));
        if (found === undefined || known.includes(place)) continue;
        const { at, words } = tell(found, text.toLowerCase().indexOf(found));
        return { at, data: { step: step.id, words, place, known } };
      }
    }
    const left = language.leavesCab.exec(text);
    if (left && known.every((one) => isCab(one, world, { language, first }))) {
      const { at, words } = tell(left[0], left.index);
      return { at, data: { step: step.id, words, known } };
    }
  }
  return undefined;
}

/** Where the person may be while doing the step; none where that is not known, or where an instrument takes them there. */
function placesAt(step: ResolvedStep, { proof: { variant, result } }: Reading): readonly string[] {
  if (step.place !== undefined) return [step.place];
  if (variant.procedure.people > 1 || step.measure.length > 0 || step.run) return [];
  const facts = result.facts.find(
    ({ place }) => place.step === step.id && place.calls.length === 0 && place.end === undefined,
  );
  return facts?.before.find(({ state }) => state === 'person')?.values ?? [];
}

/** The places that a safety rule looks at. */
function ruledPlaces({ rules }: World): readonly string[] {
  const tests = rules.flatMap(({ when }) => when.filter(({ state }) => state === 'person').map(({ test }) => test));
  return [...new Set(tests.flatMap((test) => (test.kind === 'words' ? test.words : [])))];
}

interface Speech {
  readonly language: Language;
  readonly first: string;
}

/** How a place is said: by its label, and in English by its id, with other words for the first one. */
function phraseOf(place: string, world: World, { language, first }: Speech): readonly string[] {
  const label = namesOfPlaces(world).get(place)?.[first];
  const texts = [...(label === undefined ? [] : [label]), ...(first.startsWith('en') ? [place] : [])];
  return texts.flatMap((text) => {
    const [head = '', ...rest] = text.toLowerCase().split(/[\s-]+/);
    if (rest.length === 0) return [];
    const thing = rest.join(' ');
    const things = first.startsWith('en') && rest[0] !== 'the' ? [thing, `the ${thing}`] : [thing];
    return [head, ...(language.placeWords.get(head) ?? [])].flatMap((word) => things.map((one) => `${word} ${one}`));
  });
}

function namesOfPlaces({ variables }: World): ReadonlyMap<string, Readonly<Record<string, string>>> {
  return variables.find(({ id }) => id === 'person')?.valueLabels ?? new Map();
}

function isCab(place: string, world: World, { language, first }: Speech): boolean {
  const label = namesOfPlaces(world).get(place)?.[first] ?? '';
  return [place, label].some((text) =>
    text
      .toLowerCase()
      .split(/[\s-]+/)
      .includes(language.cab),
  );
}

/** Whether a phrase stands in a text as whole words. */
function holds(text: string, phrase: string): boolean {
  const at = text.toLowerCase().indexOf(phrase);
  return at >= 0 && !/\p{L}/u.test(`${text[at - 1] ?? ' '}${text[at + phrase.length] ?? ' '}`);
}
