// The version of the program, from its package.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** As in package.json. */
export function version(): string {
  const text = readFileSync(join(import.meta.dirname, '../../package.json'), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
