// SHA-256 (FIPS 180-4) of a text's UTF-8 bytes: the same on every machine.

import { createHash } from 'node:crypto';

/** The digest of a text as 64 hexadecimal digits. */
export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

/** `5f3c-0e91-77ab-42d0`: the first sixteen digits of a digest, which no file format takes for a number. */
export function groupedDigest(digest: string): string {
  return (digest.slice(0, 16).match(/.{4}/g) ?? []).join('-');
}
