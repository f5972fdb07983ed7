// The search of a home as two files: titles, symptoms and values first, then conditions and steps.

import type { Term } from '../../model/book.js';
import type { ResolvedBook } from '../../model/resolved.js';
import { rigFacts } from '../pages/rig-facts.js';
import type { Home } from '../pages/site-map.js';
import type { Voice } from '../voice.js';
import type { Narrowed, SearchFile, Synonym, Target } from './index-shape.js';
import { detailLines, kindWords, mainLines, type Teller } from './lines.js';
import { tokenize } from './tokenize.js';

/** What a phone fetches first, and what it fetches once the first answers can be given. */
export interface HomeSearch {
  readonly main: SearchFile;
  readonly details: SearchFile;
}

/** The files of a home's search in the language of a voice. */
export function buildSearch(home: Home, { book, world }: ResolvedBook, voice: Voice): HomeSearch {
  const teller: Teller = { voice, world };
  const kinds = kindWords(voice);
  const procedures = home.entries.map(({ procedure, folder }): Target => {
    const target = [voice.plain(procedure.title), folder.slice(home.folder.length)] as const;
    return procedure.status === 'withdrawn' ? [...target, procedure.status] : target;
  });
  const synonyms = synonymsOf(book.terms, voice);
  const narrowed = narrowedOf(home);
  return {
    main: { version: 1, procedures, lines: mainLines(home, teller), synonyms, kinds, narrowed },
    details: { version: 1, procedures: [], lines: detailLines(home, teller), synonyms: [], kinds },
  };
}

/** Procedures and versions that are for some rigs of a home. */
function narrowedOf({ entries }: Home): readonly Narrowed[] {
  return entries.flatMap(({ folder, versions }, i) =>
    versions
      .map((version): Narrowed => [i, version.folder.slice(folder.length), version.rigs.map(rigFacts)])
      .filter(([, , rigs]) =>
        rigs.every((rig) => Object.keys(rig.options).length + Object.keys(rig.software).length > 0 || rig.serials),
      ),
  );
}

/** Every other word for a term, in any language, leads to the one that pages of this voice write. */
export function synonymsOf(terms: readonly Term[], voice: Pick<Voice, 'language' | 'first'>): readonly Synonym[] {
  const found = new Map<string, Synonym>();
  for (const term of terms) {
    const use = term.use.get(voice.language) ?? term.use.get(voice.first);
    if (!use) continue;
    const to = wordsOf(use.value);
    for (const { value } of [...term.use.values(), ...term.also, ...term.never]) {
      const from = wordsOf(value);
      if (from.length === 0 || from.join(' ') === to.join(' ')) continue;
      found.set(`${from.join(' ')} > ${to.join(' ')}`, [from, to]);
    }
  }
  return [...found.values()];
}

function wordsOf(text: string): readonly string[] {
  return tokenize(text).map(({ word }) => word);
}
