// Releases from the disk: what was frozen, checked against its own digest and the schema of a compiled book.

import { basename, join } from 'node:path';
import { compareText } from '../diagnostic/diagnostic.js';
import { type ReadRelease, type Release, readRelease } from '../history/release.js';
import { readTexts, releasesFolder } from '../io.js';
import type { CompiledBook } from '../model/compiled-book.js';
import { Misuse } from './misuse.js';
import { shapeFault } from './shapes.js';

const why: Readonly<Record<(ReadRelease & { ok: false })['why'], string>> = {
  'not-json': 'is no JSON, and so no release',
  'not-a-release': 'is no release: `stepgauge release` writes them',
  'other-version': 'is a release of another version of stepgauge, which this one cannot read',
  changed: 'was changed after it was released, and says nothing reliable any more: bring back the file as it was',
};

/** The release in a file. Throws `Misuse` where it is none. */
export function openRelease(path: string, text: string): Release {
  const read = readRelease(text);
  if (!read.ok) throw new Misuse(`\`${path}\` ${why[read.why]}`);
  return { ...read.release, book: checkShape(path, read.release.book) };
}

/** All releases of a book, the oldest first. */
export function releasesOf(folder: string): readonly Release[] {
  const files = readTexts(join(folder, releasesFolder), '.json');
  return [...files]
    .map(([name, text]) => {
      const path = join(folder, releasesFolder, name);
      const release = openRelease(path, text);
      if (release.name === basename(name, '.json')) return release;
      throw new Misuse(`\`${path}\` holds the release \`${release.name}\`: give the file its own name again`);
    })
    .sort((a, b) => compareText(a.date, b.date) || compareText(a.name, b.name));
}

/** A compiled book from a file. Throws `Misuse` where it has another shape. */
export function checkShape(path: string, data: unknown): CompiledBook {
  const fault = shapeFault('compiled-book', data);
  if (fault === undefined) return data as CompiledBook;
  throw new Misuse(
    `\`${path}\` is no compiled book of this version of stepgauge (${fault}): build or release it again from its files`,
  );
}
