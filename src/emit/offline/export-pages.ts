// The pages of one procedure as files that stand by themselves, one for each rig and language that it has a page for, and
// one for each page of what holds either way.

import type { ResolvedBook } from '../../model/resolved.js';
import { html } from '../html.js';
import { phoneAnchor } from '../pages/context.js';
import { emitSite, type SiteInput } from '../pages/site.js';
import { type CommonEntry, type Group, mapSite, type Place, type SiteMap } from '../pages/site-map.js';
import { canAskToCall } from '../pages/standing.js';
import { hasInterface, markupFor } from '../words/interface.js';
import { singleFile } from './single-file.js';

export interface Wanted {
  /** The id of a procedure. */
  readonly procedure: string;
  /** One language; all that there are pages in where it is missing. */
  readonly language?: string;
  /** Whether a page is wanted: by its machine, its header and the digest of its content. */
  readonly isWanted: (page: { readonly machine: string; readonly header: string; readonly content: string }) => boolean;
}

/**
 * The files by name: `tarn-40-row-12x20-learn-height-range-display-4.2.html`, `tarn-40-any-learn-height-range.html` for
 * whoever does not know the header. None where no page is of the procedure.
 */
export function exportPages(resolved: ResolvedBook, input: SiteInput, wanted: Wanted): ReadonlyMap<string, string> {
  const files = emitSite(resolved, input);
  const { settings } = resolved.book;
  const [first = 'en', ...others] = settings.languages;
  const languages = [first, ...others.filter(hasInterface)].filter((one) => (wanted.language ?? one) === one);
  const phone = phoneAnchor(settings.phone.value);
  const made = new Map<string, string>();
  for (const folder of foldersOf(mapSite(resolved, { drafts: input.drafts ?? false }), wanted)) {
    for (const language of languages) {
      const path = `${language === first ? '' : `${language}/`}${folder}index.html`;
      const call =
        canAskToCall(files.get(path)) &&
        html`<p class="call-first"><b>${markupFor(language, 'call-first', { phone })}</b></p>`;
      const notice = html`<div class="standing"><p>${markupFor(language, 'copy', { phone })}</p>${call}</div>
`;
      made.set(`${path.replace('/index.html', '').replaceAll('/', '-')}.html`, singleFile({ path, files, notice }));
    }
  }
  return made;
}

/** The pages of the procedure: of each rig, and of what holds for several of the wanted ones that are not told apart. */
function foldersOf({ homes, groups }: SiteMap, { procedure, isWanted }: Wanted): readonly string[] {
  const isOf = ({ home: { machine, header }, version }: Place): boolean =>
    isWanted({ machine: machine.id, header: header.id, content: version.variant.hash });
  const isCommon = ({ places }: CommonEntry): boolean => places.filter(isOf).length > 1;
  const own = homes.flatMap((home) => {
    const entry = home.byId.get(procedure);
    const versions = (entry?.versions ?? []).filter((version) => isOf({ home, version }));
    return [...versions, ...(entry?.common && isCommon(entry.common) ? [entry.common] : [])];
  });
  // whoever asks for one machine knows it
  const isOpen = ({ machine }: Group, { places }: CommonEntry): boolean =>
    machine !== undefined || new Set(places.filter(isOf).map(({ home }) => home.machine)).size > 1;
  const common = groups.flatMap((group) =>
    group.entries.filter((entry) => entry.id === procedure && isCommon(entry) && isOpen(group, entry)),
  );
  return [...own, ...common].map(({ folder }) => folder);
}
