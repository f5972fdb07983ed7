// Books for the tests of the site: the demo book, and small ones made from texts.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ResolvedBook } from '../../src/model/resolved.js';
import { proveVariant } from '../../src/order/prove.js';
import type { OrderResult } from '../../src/order/result.js';
import { readBook } from '../../src/read/book.js';
import { resolveBook } from '../../src/resolve/resolve.js';
import type { SourceFile } from '../../src/text/source.js';

const root = join(import.meta.dirname, '../..');

export interface BookOptions {
  readonly figures?: ReadonlyMap<string, Uint8Array>;
  /** Codes of errors to let pass. */
  readonly pass?: readonly string[];
  /** Whether the order is proved: what the state strips are drawn from. */
  readonly proved?: boolean;
}

export interface TestBook {
  readonly resolved: ResolvedBook;
  readonly proofs: ReadonlyMap<string, OrderResult>;
  readonly figures: ReadonlyMap<string, Uint8Array>;
}

/** The text files and figures of a folder. */
export function filesOfBook(folder: string): { texts: Map<string, string>; figures: Map<string, Uint8Array> } {
  const texts = new Map<string, string>();
  const figures = new Map<string, Uint8Array>();
  for (const entry of readdirSync(join(root, folder), { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const full = join(entry.parentPath, entry.name);
    const path = full.slice(join(root, folder).length + 1).replaceAll('\\', '/');
    if (path.startsWith('figures/')) figures.set(path, readFileSync(full));
    else if (/\.(?:md|yaml)$/.test(path)) texts.set(path, readFileSync(full, 'utf8'));
  }
  return { texts, figures };
}

/**
 * Reads, works out and proves a book of texts; throws where it has an error. Errors of some codes may be let pass, to see
 * what the pages make of what should never reach them.
 */
export function bookOf(
  texts: ReadonlyMap<string, string>,
  { figures = new Map(), pass = [], proved = true }: BookOptions = {},
): TestBook {
  const sources = new Map<string, SourceFile>([...texts].map(([path, text]) => [path, { path, text }]));
  const read = readBook(sources, new Set(figures.keys()));
  if (!read.value) throw new Error(read.diagnostics.map(({ message }) => message).join('\n'));
  const resolution = resolveBook(read.value, {});
  const errors = [...read.diagnostics, ...resolution.diagnostics].filter(
    ({ severity, code }) => severity === 'error' && !pass.includes(code),
  );
  if (errors.length > 0)
    throw new Error(errors.map(({ at, code, message }) => `${at.file}: ${code}: ${message}`).join('\n'));
  const resolved = resolution.value;
  const proofs = new Map(
    (proved ? resolved.variants : []).map((variant) => [
      variant.id,
      proveVariant(variant, resolved.world, { budget: 200_000 }),
    ]),
  );
  return { resolved, proofs, figures };
}

/** The demo book, read once for all tests of a process. */
export function demoBook({ proved = true }: Pick<BookOptions, 'proved'> = {}): TestBook {
  const known = demos.get(proved);
  if (known) return known;
  const { texts, figures } = filesOfBook('procedures');
  const book = bookOf(texts, { figures, proved });
  demos.set(proved, book);
  return book;
}

const demos = new Map<boolean, TestBook>();
