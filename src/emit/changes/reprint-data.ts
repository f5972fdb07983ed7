// What became of issued cards as open data: schema/reprint.schema.json documents it. Units stand by their id, and a place as
// the register has it.

import type { IssueFinding, Reprint } from '../../model/reprint.js';
import { voiceFor } from '../voice.js';
import { interfaceLanguages } from '../words/interface.js';
import { plainChange } from './comparison-data.js';

/** The findings as plain data; `languages` are the book's, the first in front. */
export function reprintData(
  { cards, outOfDate }: Reprint,
  languages: readonly [string, ...string[]],
): Readonly<Record<string, unknown>> {
  const spoken = languages.filter((language) => interfaceLanguages.includes(language));
  const voices = (spoken.length > 0 ? spoken : ['en']).map((language) => voiceFor(language, languages[0]));
  const plainFinding = ({ since, ...finding }: IssueFinding): Readonly<Record<string, unknown>> => ({
    ...finding,
    ...(since && { since: { ...since, changes: since.changes.map((change) => plainChange(change, voices)) } }),
  });
  return { format: 'stepgauge-reprint', version: 1, outOfDate, cards: cards.map(plainFinding) };
}
