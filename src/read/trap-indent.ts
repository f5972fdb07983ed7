// Words and mends for indents: tabs and odd spaces, and keys that stand deeper than the keys they belong to.

import type { Range } from './front-matter.js';
import type { Mend } from './mended.js';
import { addMendedTrap, onOneLine, type Scan } from './trap.js';
import { lineEnd } from './trap-signs.js';

/** Notes keys that stand deeper than the key `above` whose text they follow, as one fault. */
export function noteDeepKeys(scan: Scan, deep: { at: number; above: string; mends: readonly Mend[] }): void {
  const key = onOneLine(/^[^\s:]*/.exec(scan.text.slice(deep.at, lineEnd(scan.text, deep.at)))?.[0] ?? '');
  const above = onOneLine(deep.above);
  addMendedTrap(
    scan,
    {
      code: 'wrong-indent',
      at: { start: deep.at, end: deep.at + key.length },
      message: `\`${key}\` stands further right than \`${above}\` above it, so that it is read as part of that text`,
      help: `Put \`${key}\` right below \`${above}\`, with the same number of spaces before it.`,
    },
    { title: 'Move it below the key above', safe: false, mends: deep.mends },
  );
}

/** Notes a key, or the dash of an item, that stands further left than its neighbours above and below. */
export function noteShallow(scan: Scan, part: Range, mend: Mend): void {
  const written = onOneLine(scan.text.slice(part.start, part.end));
  const isDash = written === '-';
  addMendedTrap(
    scan,
    {
      code: 'wrong-indent',
      at: part,
      message: isDash
        ? 'This dash stands further left than those of the list above, so that its item is taken out of the list'
        : `\`${written}\` stands further left than the keys above and below it, so that it is taken out of them`,
      help: `Put as many spaces before ${isDash ? 'the dash' : `\`${written}\``} as its neighbours have: ${mend.text.length}.`,
    },
    { title: 'Move it into the column of its neighbours', safe: false, mends: [mend] },
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
        ? `This line starts with a tab${more}; an indent is made of spaces`
        : `This line starts with a space that is no plain one${more}; an indent is made of plain spaces`,
      help: isTab
        ? 'Put two spaces in place of each tab, and set your editor to write spaces.'
        : 'Delete the spaces before the first word and type them again.',
    },
    { title: 'Indent with plain spaces', safe: false, mends: odd },
  );
}
