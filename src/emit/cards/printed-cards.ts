// What each card of a book says, as digests: two cards with the same one say the same to whoever works by them.

import type { PrintedCard } from '../../model/printed-card.js';
import type { ResolvedBook } from '../../model/resolved.js';
import { readRigLabel } from '../../model/rig.js';
import type { OrderResult } from '../../order/result.js';
import { groupedDigest, sha256 } from '../../text/sha256.js';
import { type Card, cardsOf } from './card-list.js';
import { bodyOf } from './content.js';
import { rigWords } from './rig-words.js';

/** Every card that would be printed now. Nothing is set or drawn. */
export function printedCards(resolved: ResolvedBook, proofs: ReadonlyMap<string, OrderResult>): readonly PrintedCard[] {
  const digests = new Map<string, string>();
  return cardsOf(resolved).map((card) => {
    const key = `${card.variant.id} ${card.language}`;
    const body = digests.get(key) ?? digestOf(resolved, proofs, card);
    digests.set(key, body);
    const { variant, machine, language, code, alsoCodes } = card;
    const { id, revision, status } = variant.procedure;
    return {
      code,
      alsoCodes,
      procedure: id,
      revision,
      draft: status === 'draft',
      language,
      machine,
      rigs: variant.rigs.filter((rig) => rig.machine === machine),
      body,
      content: groupedDigest(variant.hash),
    };
  });
}

/** The revision and the dates are told apart, and may go up where nothing else changes. The printed code leads to the site. */
function digestOf(
  resolved: ResolvedBook,
  proofs: ReadonlyMap<string, OrderResult>,
  { variant, language }: Card,
): string {
  const proof = proofs.get(variant.id);
  const { issue: _, date: _date, ...said } = bodyOf(resolved, { variant, language, ...(proof && { proof }) });
  return sha256(JSON.stringify({ ...said, site: resolved.book.settings.url.value }));
}

/**
 * Digest of all that stands on a card that says it is for these rigs, as they are written. The words for them count: where a
 * machine got another header, a card that names none says too much.
 */
export function printedAs(
  resolved: ResolvedBook,
  { body, machine, language }: Pick<PrintedCard, 'body' | 'machine' | 'language'>,
  labels: readonly string[],
): string {
  const rigs = labels.map((label) => readRigLabel(label, resolved.book));
  return groupedDigest(sha256(JSON.stringify([body, rigWords(resolved, { variant: { rigs }, machine, language })])));
}
