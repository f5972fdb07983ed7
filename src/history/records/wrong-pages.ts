// Pages that people found wrong without a job: the file that a phone shares of them, by schema/job-wrong-pages.schema.json.

import type { RecordPage } from '../../model/job-record.js';
import { sha256 } from '../../text/sha256.js';
import type { KnownBook, Objection } from './check-record.js';

export interface WrongPages {
  readonly format: 'stepgauge-wrong-pages';
  readonly version: 1;
  readonly reports: readonly {
    readonly at: string;
    readonly page: RecordPage & { readonly rig: string };
    readonly step?: string;
    readonly text: string;
  }[];
}

/** The file that such a list is kept as: the same list has the same name. */
export function wrongPagesFile(list: WrongPages): { readonly name: string; readonly text: string } {
  const text = `${JSON.stringify(list, null, 2)}\n`;
  const days = list.reports.map(({ at }) => at.slice(0, 10)).sort();
  return { name: `${[...days.slice(0, 1), 'wrong-pages', sha256(text).slice(0, 16)].join('-')}.json`, text };
}

/** Whether all of its pages are of this book. */
export function checkWrongPages({ reports }: WrongPages, { book }: KnownBook): readonly Objection[] {
  const strange = reports.find(({ page }) => !book.procedures.has(page.procedure));
  if (!strange) return [];
  const { procedure, title } = strange.page;
  return [
    {
      message: `This book has no procedure \`${procedure}\` (${title})`,
      help: 'Import it with `--book` into the book whose site the phone was on.',
    },
  ];
}
