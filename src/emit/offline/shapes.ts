// What the build tells a phone that keeps a machine: which files belong together, and what holds now. Types alone; the
// browser reads them too.

/** A file below the site's root: its path, its digest (32 hexadecimal digits), its bytes. */
export type KeptFile = readonly [path: string, digest: string, bytes: number];

/**
 * `offline.json` beside a home, or beside the pages for rigs that are not told apart: all that its pages need, as one set
 * that is kept whole or not at all.
 */
export interface SetList {
  readonly format: 1;
  /** Digest of all the files: another one is another version. */
  readonly version: string;
  /** Folder of the home below the site's root, its language's folder included: `es/tarn-40/row-12x20/`, `es/any/`. */
  readonly folder: string;
  /** The page to show for an address that is not kept, while there is no signal. */
  readonly away: string;
  /** Bytes of all files, unpacked. */
  readonly bytes: number;
  readonly files: readonly KeptFile[];
}

/** `status.json` at the site's root: what a phone asks for to know whether what it has still holds. Small. */
export interface BookStatus {
  readonly format: 1;
  /** Digest over everything: two books with the same version have the same pages. */
  readonly version: string;
  /** The revision of each procedure that has pages. One that is not here has left the book. */
  readonly procedures: Readonly<Record<string, number>>;
  /** Those that were withdrawn: nobody may work by any revision of them. */
  readonly withdrawn: readonly string[];
  /** By the folder of each home: version, bytes and number of files of its set. */
  readonly sets: Readonly<Record<string, readonly [version: string, bytes: number, files: number]>>;
}

/** The file beside a home that lists its set. */
export const listName = 'offline.json';
/** The file at the site's root that says what holds. */
export const statusName = 'status.json';
/** The part of the page for what is not kept that speaks to whoever scanned a card. */
export const cardPart = 'card';
/** The worker, at the site's root so that it answers for the whole site. */
export const workerName = 'worker.js';
