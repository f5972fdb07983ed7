// Enters printed cards in the register of a book, issued.yaml. What was there stays as it is; what comes of it is read again
// before it is written.

import { join } from 'node:path';
import { addIssued, type NewIssue } from '../history/issued-text.js';
import { rewriteText, writeNewFile } from '../io.js';
import { readBook } from '../read/book.js';
import type { Loaded } from './load.js';
import { Misuse } from './misuse.js';

/** The file of the register. */
export const registerFile = 'issued.yaml';

/**
 * Prepares the register with these cards entered, and gives back what writes it. Throws `Misuse` where the file is written
 * so that no line can be added: before anything is printed.
 */
export function prepareIssue(loaded: Loaded, cards: readonly NewIssue[]): () => void {
  const { folder, sources, checked } = loaded;
  const before = sources.get(registerFile)?.text;
  const issued = checked.resolved?.book.issued ?? [];
  const register = {
    issued,
    bookText: sources.get('book.yaml')?.text ?? '',
    ...(before !== undefined && { text: before }),
  };
  const after = addIssued(register, cards);
  if (after === undefined) {
    throw new Misuse(
      `\`${registerFile}\` is not written one card a line, and no card can be added to it: begin each entry of \`cards\` on a line of its own, with \`- \``,
    );
  }
  requireRead(loaded, after, issued.length + cards.length);
  const path = join(folder, registerFile);
  return () => (before === undefined ? writeNewFile(path, after) : rewriteText(path, before, after));
}

function requireRead({ sources, figures }: Loaded, text: string, wanted: number): void {
  const files = new Map(sources).set(registerFile, { path: registerFile, text });
  const { value, diagnostics } = readBook(files, new Set(figures.keys()));
  const own = diagnostics.filter(({ at, severity }) => at.file === registerFile && severity === 'error');
  if (own.length > 0 || value?.issued.length !== wanted) {
    throw new Error(
      `The register would hold ${value?.issued.length} cards and not ${wanted}: ${own[0]?.message ?? ''}`,
    );
  }
}
