// From a checked book to every file of the output. Pure; the bytes of the browser's part are handed in.

import { proofBudget } from './compile.js';
import { cardsOf } from './emit/cards/card-list.js';
import { emitCards } from './emit/cards/cards.js';
import type { CardFonts } from './emit/cards/fonts.js';
import { printedAs, printedCards } from './emit/cards/printed-cards.js';
import { offlineFiles } from './emit/offline/offline-files.js';
import { compileOpenBook } from './emit/open-data/compiled-book.js';
import { type BookProof, gatherProof } from './emit/open-data/proof.js';
import { emitSite } from './emit/pages/site.js';
import { mapSite } from './emit/pages/site-map.js';
import type { RuleText } from './emit/staff/rule-pages.js';
import { withTrueLanguages } from './emit/translated.js';
import { historyOf } from './history/history.js';
import type { Release } from './history/release.js';
import { reprintOf } from './history/reprint.js';
import type { CompiledBook } from './model/compiled-book.js';
import type { GuardResult } from './model/guard-result.js';
import type { Reprint } from './model/reprint.js';
import type { ResolvedBook } from './model/resolved.js';
import type { OrderResult } from './order/result.js';

export interface BuildInput {
  readonly resolved: ResolvedBook;
  readonly proofs: ReadonlyMap<string, OrderResult>;
  readonly figures: ReadonlyMap<string, Uint8Array>;
  /** What runs or shows in the browser: scripts, styles, fonts, by path. */
  readonly assets: ReadonlyMap<string, Uint8Array>;
  /** Whether drafts get pages and cards, marked so; without, nobody has released them for work. */
  readonly drafts?: boolean;
  /** What the program brings along to explain its rules. */
  readonly rules?: readonly RuleText[];
  /** What slips of the fingers came to, for the page about them. */
  readonly guard?: GuardResult;
  /** The releases of the book, the oldest first. */
  readonly releases?: readonly Release[];
  /** The faces that cards are set in. */
  readonly fonts: CardFonts;
}

/** The site, its search, the cards and the open book, by path. */
export function buildBook(input: BuildInput): ReadonlyMap<string, string | Uint8Array> {
  const { resolved, proofs, figures, assets, fonts, drafts = false } = input;
  const wanted = cardsOf(resolved).filter(({ variant }) => drafts || variant.procedure.status !== 'draft');
  const links = wanted.map(({ variant, ...card }) => ({ ...card, variant: variant.id }));
  const proof = proofOfAll(input);
  const history =
    input.releases && input.releases.length > 0 ? historyOf(input.releases, compileBook(resolved, figures)) : undefined;
  const site = emitSite(resolved, {
    proofs,
    figures,
    assets,
    cards: links,
    drafts,
    rules: input.rules ?? [],
    proof,
    ...(history && { history }),
    ...(resolved.book.issued.length > 0 && { reprint: reprintBook(input) }),
    ...(input.guard ? { guard: input.guard } : {}),
  });
  const cards = emitCards(resolved, { proofs, fonts }, ({ variant }) => drafts || variant.procedure.status !== 'draft');
  const files = new Map([...site, ...cards, ['data/proof.json', `${JSON.stringify(proof)}\n`] as const]);
  const lists = offlineFiles(resolved, { ...mapSite(resolved, { drafts }), gone: history?.gone ?? [] }, files);
  return new Map([...files, ...lists].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** The compiled book as data, drafts left out: what a release freezes, and what releases are compared with. */
export function compileBook(resolved: ResolvedBook, figures: ReadonlyMap<string, Uint8Array>): CompiledBook {
  const book = withTrueLanguages(resolved);
  const cards = cardsOf(resolved)
    .filter(({ variant }) => variant.procedure.status !== 'draft')
    .map(({ variant, machine, code }) => ({ variant: variant.id, machine, code }));
  return compileOpenBook(book, mapSite(book, { drafts: false }), { figures, cards });
}

/** What became of the cards that were issued. */
export function reprintBook({
  resolved,
  proofs,
  figures,
  releases = [],
}: Pick<BuildInput, 'resolved' | 'proofs' | 'figures' | 'releases'>): Reprint {
  return reprintOf({
    book: resolved.book,
    cards: printedCards(resolved, proofs),
    printedAs: (card, rigs) => printedAs(resolved, card, rigs),
    titles: new Map(resolved.variants.map(({ procedure }) => [procedure.id, procedure.title])),
    releases,
    now: () => compileBook(resolved, figures),
  });
}

/** What was proved of all that gets a page. */
function proofOfAll({ resolved, proofs, drafts = false }: BuildInput): BookProof {
  const variants = resolved.variants.filter(({ procedure }) => drafts || procedure.status !== 'draft');
  return gatherProof({ resolved: { ...resolved, variants }, proofs, bound: proofBudget });
}
