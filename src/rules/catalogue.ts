// Every code that a check can report, with its severity: those of the rules, and those of the phases before them.

import type { Severity } from '../diagnostic/diagnostic.js';
import { rules } from './index.js';

// Codes that the phases before the rules report themselves, since they cannot go on without, by the folder of their pages.

/** Files before anybody reads their words. */
const filesCodes: Readonly<Record<string, Severity>> = {
  'empty-file': 'error',
  'file-too-large': 'error',
  'folders-too-deep': 'error',
  'link-leaves-book': 'error',
  'link-loop': 'error',
  'linked-folder': 'error',
  'name-differs-in-case': 'error',
  'not-text': 'error',
  'not-utf-8': 'error',
  'unknown-file': 'warning',
  'unread-file': 'warning',
  'unreadable-file': 'error',
};

/** Texts, numbers and brackets that YAML would cut, split, change or refuse. */
const yamlCodes: Readonly<Record<string, Severity>> = {
  'brace-in-text': 'error',
  'colon-in-text': 'error',
  'comma-in-text': 'error',
  'copied-part': 'error',
  'decimal-comma': 'error',
  'duplicate-key': 'error',
  'extra-bracket': 'error',
  'key-not-text': 'error',
  'missing-colon': 'error',
  'missing-comma': 'error',
  'missing-space': 'error',
  'missing-value': 'error',
  'nested-too-deep': 'error',
  'odd-space-indent': 'error',
  'several-documents': 'error',
  'sign-before-text': 'error',
  'tab-indent': 'error',
  'text-cut-by-hash': 'error',
  'text-read-as-number': 'error',
  'unclosed-bracket': 'error',
  'unclosed-quote': 'error',
  'unknown-escape': 'error',
  'wrong-indent': 'error',
  'yaml-directive': 'error',
  'yaml-syntax': 'error',
  'yaml-tag': 'error',
  'yaml-version': 'error',
};

/** Prose, and the places in texts where values go in. */
const proseCodes: Readonly<Record<string, Severity>> = {
  'empty-placeholder': 'error',
  'missing-front-matter': 'error',
  'odd-placeholder': 'error',
  'picture-outside-figures': 'error',
  'prose-too-long': 'error',
  'raw-html': 'error',
  'unclosed-brace': 'error',
  'unclosed-front-matter': 'error',
  'unopened-brace': 'error',
  'unsafe-link': 'error',
};

/** What a file may hold, and in which form. */
const formCodes: Readonly<Record<string, Severity>> = {
  'bad-effect': 'error',
  'bad-expression': 'error',
  'bad-limits': 'error',
  'bad-name': 'error',
  'blank-value': 'error',
  'duplicate-entry': 'error',
  'missing-book': 'error',
  'missing-key': 'error',
  'missing-unit': 'error',
  'no-such-date': 'error',
  'reserved-id': 'error',
  'unknown-key': 'error',
  'unknown-word': 'error',
  'unsaid-none': 'error',
  'wrong-form': 'error',
  'wrong-type': 'error',
};

/** Other languages. */
const translationCodes: Readonly<Record<string, Severity>> = {
  'extra-translation': 'error',
  'missing-language': 'error',
  'missing-translation': 'hint',
  'translation-behind': 'warning',
  'translation-without-original': 'error',
  'typed-translation': 'error',
  'unknown-language': 'error',
};

/** Warnings that a book explains away. */
const waiverCodes: Readonly<Record<string, Severity>> = {
  'unneeded-waiver': 'hint',
  'waived-error': 'error',
};

/** Of working out a book for its rigs: names that name nothing. */
const namesCodes: Readonly<Record<string, Severity>> = {
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
  'unit-mismatch': 'error',
  'value-without-unit': 'error',
  'word-for-quantity': 'error',
};

/** Numbers that come to nothing. */
const limitsCodes: Readonly<Record<string, Severity>> = {
  'acceptance-empty': 'error',
  'limits-empty': 'error',
  'limits-reversed': 'error',
  'not-a-single-number': 'error',
  'number-without-value': 'error',
  'numbers-disagree': 'error',
  'unreadable-accuracy': 'error',
};

/** Whether what is right can be printed: asked last, of a book without errors. */
const cardsCodes: Readonly<Record<string, Severity>> = {
  'card-overflow': 'error',
  'sign-not-printable': 'error',
};

/** Every code that is not a rule's. */
export const phaseCodes: ReadonlyMap<string, Severity> = new Map(
  Object.entries({
    ...filesCodes,
    ...yamlCodes,
    ...proseCodes,
    ...formCodes,
    ...translationCodes,
    ...waiverCodes,
    ...namesCodes,
    ...applicabilityCodes,
    ...dimensionsCodes,
    ...limitsCodes,
    ...cardsCodes,
  }),
);

export const catalogue: ReadonlyMap<string, Severity> = new Map([
  ...phaseCodes,
  ...rules.map(({ id, severity }) => [id, severity] as const),
]);
