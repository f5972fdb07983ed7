// What became of issued cards, as text for a terminal: those to print anew first, each with whom it is for and why.

import type { IssueFinding, IssueState, Reprint } from '../../model/reprint.js';
import { spokenCode } from '../short-code.js';
import type { Voice } from '../voice.js';
import { changeWord } from '../words/changes.js';
import { writeChanges } from './comparison-text.js';
import { groupByReason, type Reason, type StateGroup } from './reprint-reasons.js';

/** The name of a unit's customer, where the fleet says one. */
type Customer = (unit: string) => string | undefined;

/** Of these a list says how many there are: nobody has to go there. */
const counted: readonly IssueState[] = ['right', 'replaced'];

/** The whole list. */
export function writeReprint(reprint: Reprint, voice: Voice, customer: Customer): string {
  const { cards, outOfDate } = reprint;
  if (cards.length === 0) return 'No card was issued: `stepgauge cards --issue` enters them\n';
  const all = `${cards.length} issued ${cards.length === 1 ? 'card' : 'cards'}`;
  const head =
    outOfDate === 0
      ? `None of ${all} is out of date`
      : `${outOfDate} of ${all} ${outOfDate === 1 ? 'is' : 'are'} out of date`;
  const blocks = groupByReason(reprint).map((group) => writeGroup(group, voice, customer));
  return `${[[head], ...blocks].map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function writeGroup({ state, count, reasons }: StateGroup, voice: Voice, customer: Customer): readonly string[] {
  const title = changeWord(voice.language, `issued-${state}`);
  if (counted.includes(state)) return [`${title}: ${count}`];
  return [
    `${title}:`,
    ...reasons.flatMap(({ cards, reason }) => [
      ...cards.flatMap((card) => headOf(card, voice, customer)),
      ...writeReason(reason, voice),
    ]),
  ];
}

function headOf(card: IssueFinding, voice: Voice, customer: Customer): readonly string[] {
  const { code, procedure, title, revision, revisionNow, language, rigs, unit, unitGone, place, on } = card;
  const name = unit === undefined ? undefined : customer(unit);
  const whose = [unit, name, unitGone && 'no longer in the fleet', place].filter((part) => part);
  const now = revisionNow === undefined || revisionNow === revision ? '' : `, now ${revisionNow}`;
  const of = title ? `${voice.plain(title)} (${procedure})` : procedure;
  return [
    `  ${spokenCode(code).replace('\u00a0', ' ')}  ${of}, revision ${revision}${now}, ${language}`,
    `           for ${[...new Set(whose)].join(', ')}, issued ${on}; ${rigs.join(', ')}`,
  ];
}

function writeReason({ sentences, changes }: Reason, voice: Voice): readonly string[] {
  return [
    ...sentences.map(({ key, parts }) => `    ${changeWord(voice.language, key, parts)}`),
    ...writeChanges(changes, voice).map((line) => `  ${line}`),
  ];
}
