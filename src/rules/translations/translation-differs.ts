// A translated text whose numbers or placeholders are not those of the original.

import type { Choice, Template, Text } from '../../model/text.js';
import { leavesOf, textsOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

interface Facts {
  readonly language: string;
  readonly missing: readonly string[];
  readonly extra: readonly string[];
}

export default rule({
  id: 'translation-differs',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    const [first = 'en', ...others] = book.settings.languages;
    for (const { text } of textsOf(procedure)) {
      for (const language of others) {
        for (const { at, original, ...facts } of differences(text, first, language)) {
          yield {
            at,
            related: [{ message: 'the original', at: original }],
            data: { ...facts, language } satisfies Facts,
          };
        }
      }
    }
  },
  say: ({ language, missing, extra }: Facts) => ({
    message: `The \`${language}\` text ${[
      missing.length > 0 ? `lacks ${missing.map((part) => `\`${part}\``).join(', ')}` : '',
      extra.length > 0 ? `has ${extra.map((part) => `\`${part}\``).join(', ')}, which the original has not` : '',
    ]
      .filter((part) => part !== '')
      .join(' and ')}`,
    help: 'Bring numbers and placeholders to what the original says.',
    note: 'Whoever reads this language would work to another number.',
  }),
});

interface Difference {
  readonly at: Span;
  readonly original: Span;
  readonly missing: readonly string[];
  readonly extra: readonly string[];
}

function* differences(text: Text, first: string, language: string): Iterable<Difference> {
  const own = text.languages.get(first);
  const other = text.languages.get(language);
  if (!own || !other) return;
  for (const [original, translated] of pairs(own, other)) {
    const [wanted, found] = [partsOf(original), partsOf(translated)];
    const missing = [...wanted].filter((part) => !found.has(part));
    const extra = [...found].filter((part) => !wanted.has(part));
    if (missing.length + extra.length === 0) continue;
    yield { at: translated.source.at, original: original.source.at, missing, extra };
  }
}

/** The leaves of two choices of the same shape; nothing where the shapes differ, which is reported where they are read. */
function pairs(own: Choice<Template>, other: Choice<Template>): readonly (readonly [Template, Template])[] {
  const [left, right] = [[...leavesOf(own)], [...leavesOf(other)]];
  return left.length === right.length ? left.map((one, i) => [one, right[i] as Template] as const) : [];
}

/** Placeholders and numbers of a text; a decimal comma counts as a point. */
function partsOf({ parts }: Template): ReadonlySet<string> {
  return new Set(
    parts.flatMap((part) =>
      part.kind === 'place'
        ? [`{${part.path}}`]
        : [...part.text.matchAll(/\d+(?:[.,]\d+)?/g)].map(([found]) => found.replace(',', '.')),
    ),
  );
}
