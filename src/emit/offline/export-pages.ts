// The pages of one procedure as files that stand by themselves, one for each rig and language that it has a page for.

import type { ResolvedBook } from '../../model/resolved.js';
import { html } from '../html.js';
import { phoneAnchor } from '../pages/context.js';
import { emitSite, type SiteInput } from '../pages/site.js';
import { mapSite } from '../pages/site-map.js';
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

/** The files by name: `tarn-40-row-12x20-learn-height-range-display-4.2.html`. None where no page is of the procedure. */
export function exportPages(resolved: ResolvedBook, input: SiteInput, wanted: Wanted): ReadonlyMap<string, string> {
  const files = emitSite(resolved, input);
  const { settings } = resolved.book;
  const [first = 'en', ...others] = settings.languages;
  const languages = [first, ...others.filter(hasInterface)].filter((one) => (wanted.language ?? one) === one);
  const phone = phoneAnchor(settings.phone.value);
  const made = new Map<string, string>();
  for (const home of mapSite(resolved, { drafts: input.drafts ?? false }).homes) {
    const [machine, header] = [home.machine.id, home.header.id];
    const versions = home.byId.get(wanted.procedure)?.versions ?? [];
    for (const { folder } of versions.filter(({ variant: { hash } }) =>
      wanted.isWanted({ machine, header, content: hash }),
    )) {
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
  }
  return made;
}
