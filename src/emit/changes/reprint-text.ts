// What became of issued cards, as text for a terminal: those to print anew first, each with whom it is for and why.

import { type IssueFinding, type IssueState, outOfDateStates, type Reprint } from '../../model/reprint.js';
import { spokenCode } from '../short-code.js';
import type { Voice } from '../voice.js';
import { changeWord } from '../words/changes.js';
import { writeChanges } from './comparison-text.js';

/** Of these a list says how many there are: nobody has to go there. */
const counted: readonly IssueState[] = ['right', 'replaced'];

/** The whole list. `customer` gives the name of a unit's customer, where the fleet says one. */
export function writeReprint(
  { cards, outOfDate }: Reprint,
  voice: Voice,
  customer: (unit: string) => string | undefined,
): string {
  if (cards.length === 0) return 'No card was issued: `stepgauge cards --issue` enters them\n';
  const all = `${cards.length} issued ${cards.length === 1 ? 'card' : 'cards'}`;
  const head =
    outOfDate === 0
      ? `None of ${all} is out of date`
      : `${outOfDate} of ${all} ${outOfDate === 1 ? 'is' : 'are'} out of date`;
  const kinds = [...new Set(cards.map(({ state }) => state))];
  const blocks = kinds.map((kind) => {
    const own = cards.filter(({ state }) => state === kind);
    if (counted.includes(kind)) return [`${changeWord(voice.language, `issued-${kind}`)}: ${own.length}`];
    const title = `${changeWord(voice.language, `issued-${kind}`)}:`;
    const isOut = outOfDateStates.includes(kind);
    return [
      title,
      ...inReasons(
        own,
        (card) => (isOut ? whyOf(card, voice) : []),
        (card) => headOf(card, voice, customer),
      ),
    ];
  });
  return `${[[head], ...blocks].map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

/** Cards for the same reason stand together, with the reason once behind them. */
function inReasons(
  cards: readonly IssueFinding[],
  why: (card: IssueFinding) => readonly string[],
  head: (card: IssueFinding) => string,
): readonly string[] {
  const groups = new Map<string, string[]>();
  for (const card of cards) {
    const reason = why(card).join('\n');
    groups.set(reason, [...(groups.get(reason) ?? []), head(card)]);
  }
  return [...groups].flatMap(([reason, heads]) => (reason === '' ? heads : [...heads, reason]));
}

function headOf(card: IssueFinding, voice: Voice, customer: (unit: string) => string | undefined): string {
  const { code, procedure, title, revision, revisionNow, language, rigs, unit, unitGone, place, on } = card;
  const name = unit === undefined ? undefined : customer(unit);
  const whose = [unit, name, unitGone && 'no longer in the fleet', place].filter((part) => part);
  const now = revisionNow === undefined || revisionNow === revision ? '' : `, now ${revisionNow}`;
  const of = title ? `${voice.plain(title)} (${procedure})` : procedure;
  return [
    `  ${spokenCode(code).replace('\u00a0', ' ')}  ${of}, revision ${revision}${now}, ${language}`,
    `           for ${[...new Set(whose)].join(', ')}, issued ${on}; ${rigs.join(', ')}`,
  ].join('\n');
}

function whyOf(
  { parts = [], rigsLost = [], since, revision, revisionNow }: IssueFinding,
  voice: Voice,
): readonly string[] {
  const word = (key: string, of: Readonly<Record<string, string>> = {}): string =>
    `    ${changeWord(voice.language, key, of)}`;
  const isText = parts.includes('text');
  return [
    ...(isText && revision === revisionNow ? [word('issued-kept')] : []),
    ...(parts.includes('code') ? [word('issued-code')] : []),
    ...(rigsLost.length > 0 ? [word('issued-rigs', { rigs: rigsLost.join(', ') })] : []),
    ...(isText && !since ? [word('issued-unknown')] : []),
    ...(isText && since && since.changes.length === 0 ? [word('issued-unsaid', { release: since.release })] : []),
    ...(since && since.changes.length > 0
      ? [
          word('issued-since', { release: since.release }),
          ...writeChanges(since.changes, voice).map((line) => `  ${line}`),
        ]
      : []),
  ];
}
