// Every code that a check can report, with its severity: those of the rules, and those of the phases before them.

import type { Severity } from '../diagnostic/diagnostic.js';
import { rules } from './index.js';

/** Codes that reading, resolving and waiving report themselves, since they cannot go on without. */
const phaseCodes: Readonly<Record<string, Severity>> = {
  'unneeded-waiver': 'warning',
  'waived-error': 'error',
};

/** Of working out a book for its rigs: names that name nothing. */
const namesCodes: Readonly<Record<string, Severity>> = {
  'circular-conditions': 'error',
  'circular-parameter': 'error',
  'circular-run': 'error',
  'circular-value': 'error',
  'duplicate-id': 'error',
  'gives-without-validity': 'error',
  'placeholder-without-value': 'error',
  'unknown-adjuster': 'error',
  'unknown-choice-key': 'error',
  'unknown-conditions': 'error',
  'unknown-event': 'error',
  'unknown-figure': 'error',
  'unknown-hazard': 'error',
  'unknown-header': 'error',
  'unknown-instrument': 'error',
  'unknown-job': 'warning',
  'unknown-machine': 'error',
  'unknown-option': 'error',
  'unknown-parameter': 'error',
  'unknown-place': 'error',
  'unknown-placeholder': 'error',
  'unknown-procedure': 'error',
  'unknown-quantity': 'error',
  'unknown-rig': 'error',
  'unknown-software': 'error',
  'unknown-state': 'error',
  'unknown-state-value': 'error',
  'unknown-step': 'error',
  'unknown-tool': 'error',
  'unknown-unit': 'error',
  'unknown-value': 'error',
};

/** What a part is for, and which rigs there are. */
const applicabilityCodes: Readonly<Record<string, Severity>> = {
  'ambiguous-software': 'error',
  'applies-in-part': 'hint',
  'applies-to-nothing': 'error',
  'choice-ambiguous': 'error',
  'choice-not-covered': 'error',
  'depends-on-rig': 'error',
  'header-does-not-fit': 'error',
  'missing-parameter': 'error',
  'missing-target': 'error',
  'missing-word': 'error',
  'mixed-choice': 'error',
  'only-for-nothing': 'warning',
  'run-does-not-apply': 'error',
  'serial-outside-machine': 'warning',
  'serials-reversed': 'error',
  'too-many-rigs': 'error',
  'unused-choice-entry': 'warning',
  'value-not-on-rig': 'error',
};

/** Quantities and units. */
const dimensionsCodes: Readonly<Record<string, Severity>> = {
  'limits-without-quantity': 'error',
  'unit-mismatch': 'error',
  'value-without-unit': 'error',
};

/** Numbers that come to nothing. */
const limitsCodes: Readonly<Record<string, Severity>> = {
  'acceptance-empty': 'error',
  'limits-empty': 'error',
  'limits-reversed': 'error',
  'not-a-single-number': 'error',
  'number-without-value': 'error',
  'unreadable-accuracy': 'error',
};

export const catalogue: ReadonlyMap<string, Severity> = new Map([
  ...Object.entries(phaseCodes),
  ...Object.entries({ ...namesCodes, ...applicabilityCodes, ...dimensionsCodes, ...limitsCodes }),
  ...rules.map(({ id, severity }) => [id, severity] as const),
]);
