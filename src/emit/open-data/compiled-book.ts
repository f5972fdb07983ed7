// The compiled book as one open JSON file. Its shape is documented by schema/compiled-book.schema.json.

import type { CompiledBook, PlainRig, PlainVariant } from '../../model/compiled-book.js';
import type { ResolvedBook, Rig } from '../../model/resolved.js';
import { rigLabel } from '../../model/rig.js';
import { wordsOf } from '../book-text.js';
import { digest } from '../offline/digest.js';
import type { SiteMap } from '../pages/site-map.js';
import { endProcedures } from '../step-label.js';
import { plainCrop, plainHeader, plainInstrument, plainMachine } from './plain-equipment.js';
import { plainProcedure } from './plain-procedure.js';
import { plainBundles, plainEnds, plainHazards, plainPhysics, plainRules, plainStates } from './plain-safety.js';
import { withoutMissing } from './without-missing.js';

/** What the compiled book says of the files that were made beside it. */
export interface Beside {
  /** The book's pictures by path (`figures/arm.svg`). */
  readonly figures?: ReadonlyMap<string, Uint8Array>;
  /** The printed cards. */
  readonly cards?: readonly { readonly variant: string; readonly machine: string; readonly code: string }[];
}

/** The text of `data/book.json`, with the pages that the site has. */
export function writeOpenBook(resolved: ResolvedBook, map: SiteMap, beside: Beside = {}): string {
  return `${JSON.stringify(compileOpenBook(resolved, map, beside))}\n`;
}

/** The compiled book, with the pages that the site has. */
export function compileOpenBook(resolved: ResolvedBook, map: SiteMap, beside: Beside = {}): CompiledBook {
  const { book, world } = resolved;
  const { settings } = book;
  return {
    format: 'stepgauge-book',
    version: 1,
    title: wordsOf(settings.title),
    owner: wordsOf(settings.owner),
    phone: settings.phone.value,
    url: settings.url.value,
    languages: settings.languages,
    units: settings.units,
    decision: settings.decision,
    jobs: settings.jobs.map(({ id, label }) => ({ id: id.value, label: wordsOf(label) })),
    machines: [...book.machines.values()].map(plainMachine),
    headers: [...book.headers.values()].map(plainHeader),
    instruments: [...book.instruments.values()].map(plainInstrument),
    tools: [...book.tools.values()].map(({ id, label }) => ({ id, label: wordsOf(label) })),
    crops: [...book.crops.values()].map(plainCrop),
    states: plainStates(world),
    events: [...book.events.values()].map(({ id, label }) => ({ id, label: wordsOf(label) })),
    physics: plainPhysics(world),
    conditions: plainBundles(world),
    rules: plainRules(world),
    ends: plainEnds(book, world),
    hazards: plainHazards(book, map),
    terms: book.terms.map(({ use, also, never }) => ({
      use: Object.fromEntries([...use].map(([language, { value }]) => [language, value])),
      also: also.map(({ value }) => value),
      never: never.map(({ value }) => value),
    })),
    figures: Object.fromEntries([...(beside.figures ?? [])].map(([path, bytes]) => [path, digest(bytes)])),
    variants: plainVariants(resolved, map, beside),
  };
}

function plainVariants(resolved: ResolvedBook, map: SiteMap, { cards = [] }: Beside): readonly PlainVariant[] {
  const pages = new Map<string, PlainVariant['pages'][number][]>();
  for (const { machine, header, entries } of map.homes) {
    for (const { variant, folder, code } of entries.flatMap(({ versions }) => versions)) {
      const list = pages.get(variant.id) ?? [];
      list.push({ machine: machine.id, header: header.id, path: folder, code });
      pages.set(variant.id, list);
    }
  }
  return resolved.variants
    .filter(({ id }) => pages.has(id))
    .map((variant) => ({
      id: variant.id,
      hash: variant.hash,
      rigs: variant.rigs.map(rigLabel),
      applies: variant.rigs.map(plainRig),
      pages: pages.get(variant.id) ?? [],
      cards: codesOf(cards.filter((card) => card.variant === variant.id)),
      procedure: plainProcedure(variant.procedure),
      ends: endProcedures(variant).map(({ procedure, ends, prefix }) => ({
        ends,
        procedure: plainProcedure(procedure, prefix),
      })),
    }));
}

function plainRig({ machine, header, options, software, serials }: Rig): PlainRig {
  return withoutMissing({
    machine,
    header,
    options: Object.fromEntries(options),
    software: Object.fromEntries(software),
    serials,
  });
}

// a card in another language has the same code
function codesOf(cards: NonNullable<Beside['cards']>): PlainVariant['cards'] {
  const byMachine = new Map(cards.map(({ machine, code }) => [machine, code]));
  return [...byMachine].map(([machine, code]) => ({ machine, code }));
}
