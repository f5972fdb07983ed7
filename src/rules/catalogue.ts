// Every code that a check can report, with its severity: those of the rules, and those of the phases around them.

import type { Severity } from '../diagnostic/diagnostic.js';
import { readCodes } from '../diagnostic/reading-codes.js';
import { resolveCodes } from '../diagnostic/resolving-codes.js';
import { rules } from './index.js';

/** Of files, before anybody reads their words. */
const fileCodes = {
  'file-too-large': 'error',
  'folders-too-deep': 'error',
  'link-leaves-book': 'error',
  'link-loop': 'error',
  'linked-folder': 'error',
  'name-differs-in-case': 'error',
  'not-text': 'error',
  'not-utf-8': 'error',
  'unread-file': 'warning',
  'unreadable-file': 'error',
} as const;

/** Of waivers, and of whether what is right can be printed: asked after the rules. */
const lastCodes = {
  'card-overflow': 'error',
  'code-too-dense': 'error',
  'sign-not-printable': 'error',
  'unknown-code': 'error',
  'unneeded-waiver': 'hint',
  'waived-error': 'error',
} as const;

/** Every code that is not a rule's. */
const phaseCodes: ReadonlyMap<string, Severity> = new Map<string, Severity>(
  Object.entries({ ...fileCodes, ...readCodes, ...resolveCodes, ...lastCodes }),
);

export const catalogue: ReadonlyMap<string, Severity> = new Map([
  ...phaseCodes,
  ...rules.map(({ id, severity }) => [id, severity] as const),
]);
