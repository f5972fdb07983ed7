// The books that slips are tried in.

import { join } from 'node:path';
import type { CheckInput } from '../../src/compile.js';
import { filesOf } from '../rules/page.js';

/** A book below the root of the project, as the compiler takes it. */
export function bookAt(folder: string): CheckInput {
  const files = filesOf(join(import.meta.dirname, '../..', folder));
  const figures = new Set([...files.keys()].filter((path) => path.startsWith('figures/')));
  const texts = [...files].filter(([path]) => !figures.has(path));
  return { sources: new Map(texts.map(([path, text]) => [path, { path, text }])), figures, today: '2026-11-24' };
}
