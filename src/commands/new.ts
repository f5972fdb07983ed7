// `stepgauge new KIND ID`: a commented file, or a whole small book, that passes `check`.

import { dirname, join } from 'node:path';
import { compareText } from '../diagnostic/diagnostic.js';
import { findBook, readBookFolder, writeNewFile, writeNewFolder } from '../io.js';
import { Misuse } from './misuse.js';
import { packageTexts } from './package-files.js';
import type { Terminal } from './terminal.js';

export const kinds = ['book', 'machine', 'header', 'procedure'] as const;
export type Kind = (typeof kinds)[number];

const idShape = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;

/** Writes the new file or book; refuses to write over anything. */
export function runNew(kind: Kind, id: string, terminal: Terminal): number {
  const name = id.slice(id.lastIndexOf('/') + 1);
  if (!idShape.test(name)) {
    throw new Misuse(
      `Unexpected id \`${name}\`, expected small letters and digits joined by hyphens, such as \`${suggestId(name)}\``,
    );
  }
  const path = kind === 'book' ? newBook(id) : newFile(kind, id, name);
  terminal.out(`${path}\n`);
  return 0;
}

function suggestId(text: string): string {
  const plain = text
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase();
  return plain.replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '') || 'tarn-40';
}

function newBook(folder: string): string {
  const book = [...packageTexts('dist/starter')].flatMap(([path, text]) =>
    path.startsWith('book/') ? [[path.slice('book/'.length), text] as const] : [],
  );
  const schemas = [...packageTexts('schema')].map(([path, text]) => [`schema/${path}`, text] as const);
  writeNewFolder(folder, new Map([...book, ...schemas]));
  return folder;
}

function newFile(kind: Exclude<Kind, 'book'>, id: string, name: string): string {
  const folder = findBook();
  if (folder === undefined) throw new Misuse('No book here to add to: begin one with `stepgauge new book ID`');
  const { files } = readBookFolder(folder);
  const headers = [...files.keys()].flatMap((path) => /^headers\/(.+)\.yaml$/.exec(path)?.[1] ?? []).sort(compareText);
  if (kind === 'machine' && headers.length === 0) {
    throw new Misuse('A machine needs a header that fits it: make one first with `stepgauge new header ID`');
  }
  const template = packageTexts('dist/starter').get(kind === 'procedure' ? 'procedure.md' : `${kind}.yaml`);
  if (template === undefined) throw new Error(`The package lacks what a new ${kind} starts from`);
  const path =
    kind === 'procedure' ? `${id.includes('/') ? id : join(firstJob(files), id)}.md` : `${kind}s/${name}.yaml`;
  const text = template.replaceAll('__NAME__', titleOf(name)).replaceAll('__HEADERS__', headers.join(', '));
  writeNewFile(join(folder, path), text);
  return join(folder, path);
}

/** The folder that the book's procedures begin in: that of the first one there is. */
function firstJob(files: ReadonlyMap<string, unknown>): string {
  const procedure = [...files.keys()].filter((path) => path.endsWith('.md')).sort(compareText)[0];
  return procedure === undefined ? '.' : dirname(procedure);
}

function titleOf(id: string): string {
  const words = id.split('-').join(' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
