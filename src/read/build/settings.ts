// book.yaml into the settings of the book.

import type { BookSettings } from '../../model/book.js';
import { childOf, entriesOf, idBehind, idsOf, isSetBehind, itemsOf, located, type Part, wordBehind } from './part.js';
import { filled, type Reading } from './reading.js';
import { labelFrom, textBehind, textOf } from './texts.js';

/** The languages of the book, found before anything else is read; English where it says none. */
export function languagesOf(reading: Reading, part: Part | undefined): readonly string[] {
  const codes = idsOf(itemsOf(childOf(reading, part, 'languages'))).map(({ value }) => value);
  return codes.length > 0 ? [...new Set(codes)] : ['en'];
}

/** The settings. What is missing was reported and stands here as the usual thing, so that the rest can be checked. */
export function settingsOf(reading: Reading, part: Part): BookSettings {
  const { at } = part.node;
  const plain = (key: string) => idBehind(reading, part, key) ?? { value: '', at };
  const blank = { at, languages: new Map() };
  const reviewEvery = amountOf(idBehind(reading, part, 'review-every'), { month: 1, year: 12 });
  const staleAfterDays = amountOf(idBehind(reading, part, 'stale-after'), { day: 1, week: 7 });
  return filled({
    title: textBehind(reading, part, 'title') ?? blank,
    owner: textBehind(reading, part, 'owner', 'may-stay') ?? blank,
    phone: plain('phone'),
    url: plain('url'),
    languages: reading.languages,
    jobs: entriesOf(reading, childOf(reading, part, 'jobs')).flatMap((entry) => {
      const id = located(entry.key);
      return id ? [{ id, label: textOf(reading, entry) ?? labelFrom(reading, entry.key) }] : [];
    }),
    units: wordBehind(reading, { part, key: 'units' }, ['us', 'si'])?.value ?? 'us',
    decision: wordBehind(reading, { part, key: 'decision' }, ['simple', 'guarded', 'three-zone'])?.value ?? 'guarded',
    reviewEvery,
    staleAfterDays,
    showCustomers: childOf(reading, part, 'show-customers') ? isSetBehind(reading, part, 'show-customers') : undefined,
    at,
  });
}

function amountOf(
  text: ReturnType<typeof located>,
  units: Readonly<Record<string, number>>,
): BookSettings['reviewEvery'] {
  const [, count = '', unit = ''] = (text && /^(\d+) +([a-z]+?)s?$/.exec(text.value)) ?? [];
  const each = units[unit];
  return text && each !== undefined ? { value: Number(count) * each, at: text.at } : undefined;
}
