// A translated text that says the opposite of its original: start for stop, up for down, lit for out.

import type { Choice, Template, Text } from '../../model/text.js';
import { leavesOf, textsOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { concepts, isNegated, type Opposites, oppositesOf, sideSaid } from '../text/opposites.js';
import { sharedTexts } from './shared-texts.js';

interface Facts {
  readonly language: string;
  readonly original: string;
  readonly translated: string;
}

export default rule({
  id: 'translation-says-opposite',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const [first = 'en', ...others] = book.settings.languages;
    const texts = [
      ...sharedTexts(book),
      ...[...book.procedures.values()].flatMap((one) => textsOf(one).map(({ text }) => text)),
    ];
    for (const language of others) {
      const [own, other] = [oppositesOf(first), oppositesOf(language)];
      if (own && other) for (const text of texts) yield* contrary(text, { first, own, language, other });
    }
  },
  say: ({ language, original, translated }: Facts) => ({
    message: `The \`${language}\` text says “${translated}”, the opposite of “${original}” in the original`,
    help: 'Mend the translation; or the original, if that is the slip.',
    note: 'Whoever reads this language does the opposite, or takes the opposite for right.',
  }),
});

interface Languages {
  readonly first: string;
  readonly own: Opposites;
  readonly language: string;
  readonly other: Opposites;
}

/** At most one of a text: an act that is turned round turns all of its words. */
function* contrary(text: Text, { first, own, language, other }: Languages): Iterable<Finding<Facts>> {
  for (const [original, translated] of pairs(text.languages.get(first), text.languages.get(language))) {
    const [said, again] = [original.source.value, translated.source.value];
    if (isNegated(said, own) !== isNegated(again, other)) continue;
    for (const concept of concepts) {
      const [here, there] = [sideSaid(said, own[concept]), sideSaid(again, other[concept])];
      if (!here || !there || here.side === there.side) continue;
      yield {
        at: spanWithin(translated.source, there.start, there.end),
        related: [{ message: 'the original', at: spanWithin(original.source, here.start, here.end) }],
        data: { language, original: said.slice(here.start, here.end), translated: again.slice(there.start, there.end) },
      };
      break;
    }
  }
}

/** The leaves of two choices of the same shape. */
function pairs(
  own: Choice<Template> | undefined,
  other: Choice<Template> | undefined,
): readonly (readonly [Template, Template])[] {
  const [left, right] = [own ? [...leavesOf(own)] : [], other ? [...leavesOf(other)] : []];
  return left.length === right.length ? left.map((one, i) => [one, right[i] as Template] as const) : [];
}
