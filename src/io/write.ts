// Writes whole folders so that what stood there before stays until all of the new is written, and never over anything
// that is not ours.

import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { pid as ownPid } from 'node:process';
import { compareText } from '../diagnostic/diagnostic.js';
import { decodeText } from '../text/decode.js';
import { FileProblem, problemOf } from './problem.js';

/** A folder that holds this file was written by us, and is replaced without asking. */
export const marker = '.stepgauge-output';

const markerText =
  'Stepgauge wrote this folder and replaces all of it at the next build. Keep nothing of your own in it.\n';

/**
 * Writes `files` (by their path in it, with `/`) as the folder `out`. The files are written to a new folder beside it,
 * which then takes its place: whatever goes wrong before, the old folder stays as it was. Throws `FileProblem` where
 * `out` is something that was not made here, or the disk refuses.
 */
export function writeFolder(out: string, files: ReadonlyMap<string, string | Uint8Array>): void {
  const target = resolve(out);
  for (const path of files.keys()) refuseOutside(path);
  try {
    mkdirSync(dirname(target), { recursive: true });
    sweepLeftovers(target);
    refuseForeign(target, out);
    const fresh = mkdtempSync(`${siblingOf(target, 'new')}${ownPid}-`);
    try {
      writeFiles(fresh, new Map([[marker, markerText], ...files]));
      swapIn(fresh, target);
    } catch (error) {
      rmSync(fresh, { recursive: true, force: true });
      throw error;
    }
  } catch (error) {
    throw problemOf(error, `\`${out}\` cannot be written`);
  }
}

/** Writes one new file and the folders above it; refuses where something stands already. */
export function writeNewFile(path: string, text: string): void {
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text, { flag: 'wx' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') {
      throw new FileProblem(`\`${path}\` is there already, and is not written over`);
    }
    throw problemOf(error, `\`${path}\` cannot be written`);
  }
}

/**
 * Writes one file whole, and the folders above it: what stood there before stays until all of the new is written. A link
 * stays a link; the file that it leads to is written.
 */
export function writeWholeFile(path: string, content: string | Uint8Array): void {
  try {
    const found = lstatSync(path, { throwIfNoEntry: false });
    const target = found?.isSymbolicLink() ? realpathSync(path) : resolve(path);
    if (lstatSync(target, { throwIfNoEntry: false })?.isDirectory()) {
      throw new FileProblem(`\`${path}\` is a folder: name a file to write to`);
    }
    mkdirSync(dirname(target), { recursive: true });
    const fresh = `${siblingOf(target, 'new')}${ownPid}`;
    try {
      writeFileSync(fresh, content, found ? { mode: statSync(target).mode } : {});
      renameSync(fresh, target);
    } catch (error) {
      rmSync(fresh, { force: true });
      throw error;
    }
  } catch (error) {
    throw problemOf(error, `\`${path}\` cannot be written`);
  }
}

/**
 * Writes the new text of a file that was read as `before`. Nothing is written where the file says something else by now. A
 * byte-order mark stays.
 */
export function rewriteText(path: string, before: string, after: string): void {
  const bytes = readAgain(path);
  const decoded = decodeText(bytes);
  if (decoded.kind !== 'text' || decoded.text !== before) {
    throw new FileProblem(`\`${path}\` was changed by somebody else meanwhile, and is left as it is: call again`);
  }
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  writeWholeFile(path, `${hasMark ? '\ufeff' : ''}${after}`);
}

function readAgain(path: string): Uint8Array {
  try {
    return readFileSync(path);
  } catch (error) {
    throw problemOf(error, `\`${path}\` cannot be read`);
  }
}

/** Writes files into a new folder; refuses where the folder holds something already. */
export function writeNewFolder(folder: string, files: ReadonlyMap<string, string | Uint8Array>): void {
  for (const path of files.keys()) refuseOutside(path);
  try {
    mkdirSync(folder, { recursive: true });
    if (readdirSync(folder).length > 0) {
      throw new FileProblem(`\`${folder}\` is there already and is not empty: nothing is written over`);
    }
    writeFiles(folder, files);
  } catch (error) {
    throw problemOf(error, `\`${folder}\` cannot be written`);
  }
}

function siblingOf(target: string, kind: 'new' | 'old'): string {
  return join(dirname(target), `.${basename(target)}-${kind}-`);
}

/** A path of our own making that leaves its folder is a fault of ours, whatever brought it about. */
function refuseOutside(path: string): void {
  const parts = path.split('/');
  if (path === '' || /[\\\0]/.test(path) || parts.some((part) => part === '' || part === '.' || part === '..')) {
    throw new Error(`Not a path inside a folder: ${JSON.stringify(path)}`);
  }
}

function refuseForeign(target: string, out: string): void {
  const found = lstatSync(target, { throwIfNoEntry: false });
  if (!found) return;
  if (!found.isDirectory()) throw new FileProblem(`\`${out}\` is no folder: name another place to write to`);
  if (existsSync(join(target, marker)) || readdirSync(target).length === 0) return;
  throw new FileProblem(
    `\`${out}\` holds files that were not built here, and is left as it is: name another folder, or empty this one`,
  );
}

function writeFiles(folder: string, files: ReadonlyMap<string, string | Uint8Array>): void {
  const made = new Set<string>();
  for (const [path, content] of files) {
    const place = join(folder, path);
    const parent = dirname(place);
    if (!made.has(parent)) mkdirSync(parent, { recursive: true });
    made.add(parent);
    writeFileSync(place, content);
  }
}

function swapIn(fresh: string, target: string): void {
  if (!existsSync(target)) {
    renameSync(fresh, target);
    return;
  }
  const old = `${siblingOf(target, 'old')}${basename(fresh).replace(/^.*-new-/, '')}`;
  renameSync(target, old);
  try {
    renameSync(fresh, target);
  } catch (error) {
    renameSync(old, target);
    throw error;
  }
  rmSync(old, { recursive: true, force: true });
}

/** Puts back, or clears away, what a run left behind that was killed while it wrote or swapped. */
function sweepLeftovers(target: string): void {
  const folder = dirname(target);
  const names = readdirSync(folder).sort(compareText);
  for (const kind of ['old', 'new'] as const) {
    const prefix = basename(siblingOf(target, kind));
    for (const name of names) {
      const pid = Number(/^(\d+)-/.exec(name.startsWith(prefix) ? name.slice(prefix.length) : '')?.[1] ?? Number.NaN);
      if (Number.isNaN(pid) || isRunning(pid)) continue;
      if (kind === 'old' && !existsSync(target)) renameSync(join(folder, name), target);
      else rmSync(join(folder, name), { recursive: true, force: true });
    }
  }
}

function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    // Somebody else's process runs as well: only "no such process" means that it is gone.
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}
