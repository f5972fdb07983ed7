// Two machines, headers or options that are told by the same words or the same picture.

import type { Book } from '../../model/book.js';
import type { Figure } from '../../model/procedure.js';
import type { Text } from '../../model/text.js';
import type { Span } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { loneWords } from '../translations/lone-words.js';

interface Facts {
  readonly one: string;
  readonly other: string;
  /** None where it is the picture. */
  readonly languages: readonly string[];
}

export default rule({
  id: 'told-alike',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const kind of kindsOf(book)) {
      yield* byWords(kind, book.settings.languages);
      yield* byPicture(kind);
    }
  },
  say: ({ one, other, languages }: Facts) => ({
    message:
      languages.length === 0
        ? `\`${one}\` is told by the same picture as \`${other}\``
        : `\`${one}\` is told by the same words as \`${other}\`, in ${languages.map((code) => `\`${code}\``).join(' and ')}`,
    help: 'Say what only this one has, such as what its plate reads, or how many points stand how far apart.',
    note: 'Whoever does not know which one stands there is asked, and both answers look right: the numbers are then those of the other.',
  }),
});

interface Told {
  readonly id: string;
  readonly tell?: { readonly text: Text; readonly figure?: Figure };
}

/** What is chosen from: machines, headers, and the options of each machine. */
function kindsOf({ machines, headers }: Book): readonly (readonly Told[])[] {
  return [[...machines.values()], [...headers.values()], ...[...machines.values()].map(({ options }) => options)];
}

/** Each pair once, at the words of the first language in which they are the same. */
function* byWords(kind: readonly Told[], languages: readonly string[]): Iterable<Finding<Facts>> {
  for (const [index, { id, tell }] of kind.entries()) {
    for (const other of kind.slice(0, index)) {
      const alike = languages.flatMap((language) => {
        const [own, others] = [loneWords(tell?.text, language), loneWords(other.tell?.text, language)];
        return own && others && isSame(own.words, others.words) ? [{ language, own, others }] : [];
      });
      const [first] = alike;
      if (!first) continue;
      const data = { one: id, other: other.id, languages: alike.map(({ language }) => language) };
      yield { at: first.own.at, related: relatedTo({ id: other.id, at: first.others.at }), data };
    }
  }
}

function isSame(one: string, two: string): boolean {
  const plain = (words: string): string => words.toLowerCase().replace(/[.!]+$/, '');
  return plain(one) === plain(two);
}

function* byPicture(kind: readonly Told[]): Iterable<Finding<Facts>> {
  const before = new Map<string, { readonly id: string; readonly at: Span }>();
  for (const { id, tell } of kind) {
    const file = tell?.figure?.file;
    if (!file) continue;
    const other = before.get(file.value);
    if (!other) before.set(file.value, { id, at: file.at });
    else yield { at: file.at, related: relatedTo(other), data: { one: id, other: other.id, languages: [] } };
  }
}

function relatedTo({ id, at }: { readonly id: string; readonly at: Span }) {
  return [{ message: `\`${id}\``, at }];
}
