// A value or column whose words say what it is read off, and that is read with something else.

import type { Book, Instrument } from '../../model/book.js';
import type { Procedure } from '../../model/procedure.js';
import type { Text } from '../../model/text.js';
import { templatesOf } from '../../model/walk.js';
import { type Located, type Span, spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import type { Language } from '../text/languages/language.js';
import { languageOf } from '../text/languages/languages.js';

interface Facts {
  readonly id: string;
  readonly own: string;
  readonly other: string;
  readonly word: string;
  readonly where: 'label' | 'step';
}

export default rule({
  id: 'other-instrument-said',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    const [first = 'en'] = book.settings.languages;
    const language = languageOf(first);
    if (!language) return;
    const told = new Set<number>();
    for (const reading of readingsIn(procedure)) {
      const finding = findingFor(reading, { book, language, first });
      if (!finding || told.has(finding.at.start)) continue;
      told.add(finding.at.start);
      yield finding;
    }
  },
  say: ({ id, own, other, word, where }: Facts) => ({
    message: `\`${id}\` is read with \`${own}\`, and ${
      where === 'label' ? 'its label' : 'the step that reads it'
    } says “${word}”, as \`${other}\` is called`,
    help: `Write \`read-with: ${other}\`, or mend the words.`,
    note: 'Limits in use and uncertainty are those of the one; what the person reads is the other. Two columns that are read off one thing compare nothing.',
  }),
});

/** What is read, with what, and the texts that may say so. */
interface Reading {
  readonly id: string;
  readonly readWith: Located<string>;
  readonly label: Text;
  /** The words of each step that reads it, with the instruments of all that the step reads. */
  readonly steps: readonly { readonly words: Text; readonly instruments: readonly string[] }[];
}

function* readingsIn({ values, worksheets, steps }: Procedure): Iterable<Reading> {
  const plain = new Map(values.flatMap(({ id, readWith }) => (readWith?.kind === 'one' ? [[id, readWith.value]] : [])));
  for (const { id, label } of values) {
    const readWith = plain.get(id);
    if (!readWith) continue;
    const reading = steps.filter(({ measure }) => measure.some(({ value }) => value === id));
    const words = reading.flatMap(({ do: text, measure }) => {
      const known = measure.map(({ value }) => plain.get(value)?.value);
      return text ? [{ words: text, instruments: known.filter((one) => one !== undefined) }] : [];
    });
    yield { id, readWith, label, steps: words };
  }
  for (const { columns } of worksheets) {
    for (const { id, readWith, label } of columns) if (readWith) yield { id, readWith, label, steps: [] };
  }
}

interface Reader {
  readonly book: Book;
  readonly language: Language;
  readonly first: string;
}

function findingFor({ id, readWith, label, steps }: Reading, reader: Reader): Finding<Facts> | undefined {
  const texts = [
    { text: label, where: 'label' as const, instruments: [readWith.value] },
    ...steps.map(({ words, instruments }) => ({ text: words, where: 'step' as const, instruments })),
  ];
  for (const { text, where, instruments } of texts) {
    const said = otherIn(text, { instruments: [readWith.value, ...instruments], own: readWith.value }, reader);
    if (!said) continue;
    const data = { id, own: readWith.value, other: said.other, word: said.word, where };
    return { at: readWith.at, related: [{ message: `here it says “${said.word}”`, at: said.at }], data };
  }
  return undefined;
}

/** What a text says that only another instrument of the same quantity is called by. */
function otherIn(
  text: Text,
  { instruments, own }: { readonly instruments: readonly string[]; readonly own: string },
  { book, language, first }: Reader,
): { readonly word: string; readonly other: string; readonly at: Span } | undefined {
  const quantity = book.instruments.get(own)?.quantity.value;
  const taken = instruments.flatMap((id) => namesOf(book.instruments.get(id), first, language));
  const others = [...book.instruments.values()].filter(
    ({ id, quantity: its }) => its.value === quantity && !instruments.includes(id),
  );
  for (const { source } of templatesOf(text, first)) {
    const words = source.value.split(/[^\p{L}\p{N}]+/u).map(language.bare);
    if (words.some((word) => language.devices.has(word) && taken.includes(word))) continue;
    for (const { 0: all, 1: word = '', index } of language.readOff.matchAll(source.value)) {
      const plain = language.bare(word);
      const other = others.find((one) => namesOf(one, first, language).includes(plain));
      if (!language.devices.has(plain) || !other) continue;
      const end = index + all.length;
      const start = end - word.length;
      return { word: source.value.slice(start, end), other: other.id, at: spanWithin(source, start, end) };
    }
  }
  return undefined;
}

/** The words that an instrument is called by, in its label and in its id. */
function namesOf(instrument: Instrument | undefined, first: string, { bare }: Language): readonly string[] {
  if (!instrument) return [];
  const labels = [...templatesOf(instrument.label, first)].map(({ source }) => source.value);
  return [instrument.id, ...labels].flatMap((text) => text.split(/[^\p{L}\p{N}]+/u)).map(bare);
}
