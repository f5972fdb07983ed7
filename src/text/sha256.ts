// SHA-256 (FIPS 180-4) of a text's UTF-8 bytes: the same on every machine.

import { createHash } from 'node:crypto';

/** The digest of a text as 64 hexadecimal digits. */
export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}
