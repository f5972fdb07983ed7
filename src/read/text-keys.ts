// Keys whose values are always text, so that no zero at either end is lost: serials, software versions, telephone numbers.

import { type Diagnostic, diagnose } from '../diagnostic/diagnostic.js';
import { onOneLine } from './trap.js';
import type { YamlScalar } from './tree.js';

const textKeys: ReadonlySet<string> = new Set(['serials', 'serial', 'software', 'phone']);

/** Whether all that stands behind a key is text, however much it looks like a number. */
export function isAlwaysText(key: string): boolean {
  return textKeys.has(key);
}

/** The diagnostic for a plain number (or `null`, `true`) where a book means text. */
export function readAsNumber(scalar: YamlScalar): Diagnostic {
  const written = onOneLine(scalar.text.value);
  const value = String(scalar.core);
  const changed = value !== written ? ` and becomes \`${value}\`` : '';
  const kind = typeof scalar.core === 'number' ? 'a number' : 'no text';
  return diagnose({
    code: 'text-read-as-number',
    severity: 'error',
    message: `Unexpected \`${written}\` without quotes, which is read as ${kind}${changed}; expected text here`,
    at: scalar.at,
    help: `Put it in quotes: \`"${written}"\`.`,
    note: 'Serials, versions and telephone numbers are names: as numbers, `3.10` would be `3.1` and `007` would be `7`.',
    fixes: [{ title: 'Put it in quotes', edits: [{ at: scalar.at, text: `"${scalar.text.value}"` }], safe: true }],
  });
}
