// Folders of machines and headers, and what the codes of pages stand for.

import type { Entry, Version } from './site-map.js';

/** Folders that the site itself needs; a machine of that name gets another. */
const reserved = new Set(['assets', 'c', 'data', 'figures', 'cards', 'any', 'u', 'staff']);

/** The folder of a machine's pages. */
export function machineFolder(machine: string, languages: readonly string[]): string {
  return reserved.has(machine) || languages.includes(machine) ? `${machine}_/` : `${machine}/`;
}

/** The folder of a header's pages below that of a machine. */
export function headerFolder(header: string): string {
  return header === 'any' ? 'any_/' : `${header}/`;
}

/** What the code of a procedure's page stands for: where it is, its revision and its content. */
export function identity({ folder, variant }: Pick<Version, 'folder' | 'variant'>): string {
  return `${folder} ${variant.procedure.revision} ${variant.hash}`;
}

/** What the code of a list stands for: where it is and all that it leads to. */
export function contentOf(folder: string, versions: readonly Version[]): string {
  return [folder, ...versions.map(identity)].join('\n');
}

/** Every version of these procedures. */
export function versionsOf(entries: readonly Pick<Entry, 'versions'>[]): readonly Version[] {
  return entries.flatMap(({ versions }) => versions);
}
