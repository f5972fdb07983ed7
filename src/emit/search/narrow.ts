// Leaves out of a search file what is not for the machine in use, before it is indexed. Runs in the browser as it is.

import { type KnownMachine, mayBe } from '../rig-match.js';
import type { Line, Narrowed, SearchFile } from './index-shape.js';

/** The lines of a file that may be for a machine; those of its one version lead straight to it. */
export function narrowLines(file: SearchFile, narrowed: readonly Narrowed[], known: KnownMachine): SearchFile {
  const fits = narrowed.map(([procedure, folder, rigs]) => ({
    procedure,
    folder,
    fits: rigs.some((rig) => mayBe(rig, known)),
  }));
  const lines = file.lines.flatMap((line): readonly Line[] => {
    const own = fits.filter(({ procedure }) => procedure === line[1]);
    if (own.length === 0) return [line];
    const left = own.filter((version) => version.fits);
    const anchor = line[3];
    const named = own.find(({ folder }) => folder !== '' && anchor.startsWith(folder));
    if (left.length === 0 || (named && !named.fits)) return [];
    const [only] = left;
    if (named || left.length > 1 || only === undefined) return [line];
    const [kind, procedure, text, , ...rest] = line;
    return [[kind, procedure, text, only.folder + anchor, ...rest]];
  });
  return { ...file, lines };
}
