// The code that is printed on a card: its squares, and whether a phone can read them at its size.

import { encode } from 'uqr';
import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { Located } from '../../text/source.js';

/** The side of the code with its quiet zone, in points. */
export const codeSide = 64;

/** The side of a module that a phone still reads from a laminated card, in millimetres; ISO/IEC 18004 wants four printer dots. */
const leastModule = 0.5;

/** Modules of quiet zone on each side (ISO/IEC 18004). */
export const quietZone = 4;

/** The squares of an address, with level Q of error correction: a card gets dirty. */
export function codeFor(url: string): { readonly data: readonly (readonly boolean[])[]; readonly size: number } {
  return encode(url, { ecc: 'Q', boostEcc: false, border: 0 });
}

/** An error where the longest address that is printed makes a code too dense to be read. `site` is what they all begin with. */
export function codeFault(urls: readonly string[], site: Located<string>): readonly Diagnostic[] {
  const longest = urls.reduce((a, b) => (b.length > a.length ? b : a), '');
  const side = moduleSide(longest);
  if (longest === '' || side >= leastModule) return [];
  const own = longest.length - site.value.length;
  let most = site.value.length;
  while (most > 0 && moduleSide('x'.repeat(most + own)) < leastModule) most -= 1;
  return [
    diagnose({
      code: 'code-too-dense',
      severity: 'error',
      at: site.at,
      message: `With this address a code on a card has squares of ${side.toFixed(2)} mm, expected at least ${leastModule} mm`,
      help: `Take an address of at most ${most} characters; this one has ${site.value.length}.`,
      note: `With what stands behind it for each card, ${longest.length} characters are printed: the more there are, the smaller the squares. A phone does not read smaller ones from a laminated card (ISO/IEC 18004).`,
    }),
  ];
}

/** The side of a module in millimetres. */
function moduleSide(url: string): number {
  return (codeSide * 25.4) / 72 / (codeFor(url).size + 2 * quietZone);
}
