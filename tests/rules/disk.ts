// The book of an example as real files, for faults that only a disk can have: bytes that are no text, links, sizes.

import { existsSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { type BookFolder, readBookFolder } from '../../src/io.js';
import type { Example } from './page.js';

type Make = (place: string, text: string) => void;

/** What each language of a fence makes of its path; of any other language it makes plain text. */
const makers: Readonly<Record<string, Make>> = {
  // Windows puts the mark before it as well
  utf16: (place, text) => writeFileSync(place, Buffer.from(`\ufeff${text}`, 'utf16le')),
  latin1: (place, text) => writeFileSync(place, Buffer.from(text, 'latin1')),
  hex: (place, text) => writeFileSync(place, Buffer.from(text.replace(/\s/g, ''), 'hex')),
  size: (place, text) => writeFileSync(place, Buffer.alloc(Number.parseInt(text, 10), 'x')),
  link: (place, text) => symlinkSync(text.trim(), place),
};

/** Writes a book to a new folder, with the files that an example makes in its own way, and reads it as a command does. */
export function readFromDisk(files: ReadonlyMap<string, string>, example: Example): BookFolder {
  const folder = mkdtempSync(join(tmpdir(), 'page-'));
  try {
    const made = new Map(
      example.changes.flatMap(({ path, language, text }) => {
        const make = makers[language];
        return make ? [[path, () => make(join(folder, path), text)] as const] : [];
      }),
    );
    for (const [path, text] of files) if (!made.has(path)) write(folder, path, text);
    for (const [path, make] of made) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      make();
    }
    return readBookFolder(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Whether two names that differ in capitals alone are two files here. */
export function tellsCapitalsApart(): boolean {
  const folder = mkdtempSync(join(tmpdir(), 'names-'));
  try {
    write(folder, 'name', '');
    return !existsSync(join(folder, 'NAME'));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function write(folder: string, path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}
