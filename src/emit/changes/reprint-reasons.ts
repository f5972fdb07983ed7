// Issued cards by what became of them and, within that, by why: cards for the same reason stand together, in no words yet.

import type { Change } from '../../model/comparison.js';
import { type IssueFinding, type IssueState, outOfDateStates, type Reprint } from '../../model/reprint.js';

/** Why cards are out of date: sentences by their keys, and what changed. */
export interface Reason {
  readonly sentences: readonly { readonly key: string; readonly parts?: Readonly<Record<string, string>> }[];
  readonly changes: readonly Change[];
}

/** All cards in one state. */
export interface StateGroup {
  readonly state: IssueState;
  readonly isOutOfDate: boolean;
  readonly count: number;
  readonly reasons: readonly { readonly cards: readonly IssueFinding[]; readonly reason: Reason }[];
}

/** The groups in the order of the list, the gravest first. */
export function groupByReason({ cards }: Reprint): readonly StateGroup[] {
  return [...new Set(cards.map(({ state }) => state))].map((state) => {
    const own = cards.filter((card) => card.state === state);
    const isOutOfDate = outOfDateStates.includes(state);
    const reasons = new Map<string, { cards: IssueFinding[]; reason: Reason }>();
    for (const card of own) {
      const reason = isOutOfDate ? reasonOf(card) : { sentences: [], changes: [] };
      const key = JSON.stringify(reason);
      const group = reasons.get(key) ?? { cards: [], reason };
      group.cards.push(card);
      reasons.set(key, group);
    }
    return { state, isOutOfDate, count: own.length, reasons: [...reasons.values()] };
  });
}

function reasonOf({ parts = [], rigsLost = [], since, revision, revisionNow }: IssueFinding): Reason {
  const isText = parts.includes('text');
  const release = since?.release ?? '';
  const changes = since?.changes ?? [];
  return {
    sentences: [
      ...(isText && revision === revisionNow ? [{ key: 'issued-kept' }] : []),
      ...(parts.includes('code') ? [{ key: 'issued-code' }] : []),
      ...(rigsLost.length > 0 ? [{ key: 'issued-rigs', parts: { rigs: rigsLost.join(', ') } }] : []),
      ...(isText && !since ? [{ key: 'issued-unknown' }] : []),
      ...(isText && since && changes.length === 0 ? [{ key: 'issued-unsaid', parts: { release } }] : []),
      ...(changes.length > 0 ? [{ key: 'issued-since', parts: { release } }] : []),
    ],
    changes,
  };
}
