// Which file of a book is of which kind, by its path alone.

import type { FileKind } from '../schemas.js';

/** What a file is; `id` is what it is called by, where its name says so. */
export type BookFile =
  | { readonly kind: Exclude<FileKind, 'machine' | 'header' | 'procedure' | 'translation'> }
  | { readonly kind: 'machine' | 'header' | 'procedure'; readonly id: string }
  /** `name.es.md`: `original` is the path of `name.md`. */
  | { readonly kind: 'translation'; readonly language: string; readonly original: string }
  | { readonly kind: 'unknown' };

const shared = ['book', 'instruments', 'tools', 'crops', 'states', 'safety', 'terms', 'fleet', 'issued'] as const;

/** The names of files that every book may have at its top. */
export const sharedFiles: readonly string[] = shared.map((kind) => `${kind}.yaml`);

/** What the file at this path is. */
export function fileAt(path: string): BookFile {
  const kind = shared.find((one) => path === `${one}.yaml`);
  if (kind) return { kind };
  const [, folder, id] = /^(machines|headers)\/([^/]+)\.yaml$/.exec(path) ?? [];
  if (id !== undefined) return { kind: folder === 'machines' ? 'machine' : 'header', id };
  const [, start = '', name, language] =
    /^(.*\/)?([^/]+?)(?:\.([a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*))?\.md$/.exec(path) ?? [];
  if (name === undefined) return { kind: 'unknown' };
  if (language !== undefined) return { kind: 'translation', language, original: `${start}${name}.md` };
  return { kind: 'procedure', id: name };
}
