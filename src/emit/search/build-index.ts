// The search index of a home, worked out at build time so that a phone only has to load it.

import MiniSearch from 'minisearch';
import type { Term } from '../../model/book.js';
import type { Home } from '../pages/site-map.js';
import type { Voice } from '../voice.js';
import type { SearchFile, Synonym } from './index-shape.js';
import { kindWords, mainLines, type SearchLine, stepLines } from './lines.js';
import { indexOptions } from './query.js';
import { tokenize } from './tokenize.js';

/** The two files of a home's search: what is fetched first, and the steps. */
export function buildSearch(home: Home, terms: readonly Term[], voice: Voice): { main: SearchFile; steps: SearchFile } {
  const procedures = home.entries.map(
    ({ procedure, folder }) => [voice.plain(procedure.title), folder.slice(home.folder.length)] as const,
  );
  const kinds = kindWords(voice);
  const main = mainLines(home, voice);
  const steps = stepLines(home, voice);
  return {
    main: {
      version: 1,
      procedures,
      lines: linesOf(main),
      synonyms: synonymsOf(terms, voice),
      kinds,
      index: indexOf(main),
    },
    steps: { version: 1, procedures: [], lines: linesOf(steps), synonyms: [], kinds, index: indexOf(steps) },
  };
}

function linesOf(lines: readonly SearchLine[]): SearchFile['lines'] {
  return lines.map(({ line }) => line);
}

function indexOf(lines: readonly SearchLine[]): SearchFile['index'] {
  const index = new MiniSearch<{ id: number; text: string; also: string }>(indexOptions);
  index.addAll(
    lines.map(({ line, also }, id) => ({ id, text: line[2], also: `${also} ${line[0] === 's' ? line[4] : ''}` })),
  );
  return index.toJSON();
}

/** Every other word for a term, in any language, leads to the one that pages of this voice write. */
export function synonymsOf(terms: readonly Term[], voice: Pick<Voice, 'language' | 'first'>): readonly Synonym[] {
  const synonyms = terms.flatMap((term) => {
    const use = term.use.get(voice.language) ?? term.use.get(voice.first);
    if (!use) return [];
    const to = words(use.value);
    const others = [...term.use.values(), ...term.also, ...term.never].map(({ value }) => words(value));
    return others
      .filter((from) => from.length > 0 && from.join(' ') !== to.join(' '))
      .map((from): Synonym => [from, to]);
  });
  const seen = new Set<string>();
  return synonyms.filter((synonym) => {
    const key = JSON.stringify(synonym);
    return !seen.has(key) && seen.add(key);
  });
}

function words(text: string): readonly string[] {
  return tokenize(text).map(({ word }) => word);
}
