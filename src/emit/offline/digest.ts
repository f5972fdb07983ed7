// The digest that a phone compares a fetched file with. Half of SHA-256 (FIPS 180-4): against mixed versions, not forgers.

import { createHash } from 'node:crypto';

/** 32 hexadecimal digits; a text counts as its bytes in UTF-8. */
export function digest(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex').slice(0, 32);
}
