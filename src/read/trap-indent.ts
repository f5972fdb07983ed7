// Words and mends for indents: tabs and odd spaces, and keys that stand deeper than the keys they belong to.

import type { Mend } from './mended.js';
import { addMendedTrap, onOneLine, type Scan } from './trap.js';
import { lineEnd } from './trap-signs.js';

/** Keys that stand in column `from` below a text of the key `above`, and belong into column `to`. */
export interface DeepKeys {
  readonly from: number;
  readonly to: number;
  readonly at: number;
  readonly above: string;
  readonly mends: Mend[];
}

/** Notes keys that stand too deep as one fault; those with an odd indent are already noted for that. */
export function noteDeepKeys(scan: Scan, deep: DeepKeys): void {
  if (deep.mends.length === 0) return;
  const key = /^[^\s:]*/.exec(scan.text.slice(deep.at, lineEnd(scan.text, deep.at)))?.[0] ?? '';
  addMendedTrap(
    scan,
    {
      code: 'wrong-indent',
      at: { start: deep.at, end: deep.at + key.length },
      message: `\`${onOneLine(key)}\` stands further right than \`${onOneLine(deep.above)}\` above it, so that it is read as part of that text.`,
      help: `Put \`${onOneLine(key)}\` right below \`${onOneLine(deep.above)}\`, with the same number of spaces before it.`,
    },
    { title: 'Move it below the key above', safe: false, mends: deep.mends },
  );
}

/** Notes, as one fault, all indents of a file that are not made of plain spaces. */
export function noteOddIndents(scan: Scan, odd: readonly Mend[]): void {
  const first = odd[0];
  if (!first) return;
  const isTab = scan.text.slice(first.start, first.end).includes('\t');
  const more = odd.length > 1 ? ` (and ${odd.length - 1} more below)` : '';
  addMendedTrap(
    scan,
    {
      code: isTab ? 'tab-indent' : 'odd-space-indent',
      at: first,
      message: isTab
        ? `This line starts with a tab${more}; an indent is made of spaces.`
        : `This line starts with a space that is no plain one${more}; an indent is made of plain spaces.`,
      help: isTab
        ? 'Put two spaces in place of each tab, and set your editor to write spaces.'
        : 'Delete the spaces before the first word and type them again.',
    },
    { title: 'Indent with plain spaces', safe: false, mends: odd },
  );
}
