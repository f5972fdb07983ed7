// How well a search answers labelled queries: the mean over queries of one over the place of the first right procedure.

import { mapSite } from '../../src/emit/pages/site-map.js';
import { indexFile, openSearch, type Search } from '../../src/emit/search/query.js';
import { buildSearch } from '../../src/emit/search/search-files.js';
import { withTrueLanguages } from '../../src/emit/translated.js';
import { voiceFor } from '../../src/emit/voice.js';
import type { ResolvedBook } from '../../src/model/resolved.js';
import type { LabelledQuery } from './queries.js';

export interface Ranked {
  readonly query: LabelledQuery;
  /** From 1; missing where no right procedure was found. */
  readonly place?: number;
  readonly found: readonly string[];
}

/** Asks every query on its home. */
export function rankQueries(book: ResolvedBook, queries: readonly LabelledQuery[]): readonly Ranked[] {
  const searches = new Map<string, (query: string) => readonly string[]>();
  const map = mapSite(withTrueLanguages(book), { drafts: false });
  const open = (home: string): ((query: string) => readonly string[]) => {
    const language = home.startsWith('es/') ? 'es' : 'en';
    const place = map.homes.find(({ folder }) => folder === home.replace(/^es\//, ''));
    if (!place) throw new Error(`There is no home ${home}`);
    const { main, details } = buildSearch(place, withTrueLanguages(book), voiceFor(language, 'en'));
    const search: Search = openSearch([indexFile(main), indexFile(details)]);
    return (query) => search(query).map(({ procedure }) => place.entries[procedure]?.id ?? '');
  };
  return queries.map((query) => {
    const ask = searches.get(query.home) ?? open(query.home);
    searches.set(query.home, ask);
    const found = ask(query.query);
    const place = found.findIndex((id) => query.answers.includes(id)) + 1;
    return { query, found, ...(place > 0 && { place }) };
  });
}

/** The mean of one over the place; a query without a right answer counts 0. */
export function meanReciprocalRank(ranked: readonly Ranked[]): number {
  return ranked.reduce((sum, { place }) => sum + (place === undefined ? 0 : 1 / place), 0) / ranked.length;
}
