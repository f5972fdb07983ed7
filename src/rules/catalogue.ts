// Every code that a check can report, with its severity: those of the rules, and those of the phases before them.

import type { Severity } from '../diagnostic/diagnostic.js';
import { rules } from './index.js';

/** Codes that reading, resolving and waiving report themselves, since they cannot go on without. */
const phaseCodes: Readonly<Record<string, Severity>> = {
  'unneeded-waiver': 'warning',
  'waived-error': 'error',
};

export const catalogue: ReadonlyMap<string, Severity> = new Map([
  ...Object.entries(phaseCodes),
  ...rules.map(({ id, severity }) => [id, severity] as const),
]);
