// What a fault of the author's is: plain data, collected and never thrown. Words and places, no printing.

import { compareText } from '../text/compare-text.js';
import type { Span } from '../text/source.js';

export { compareText } from '../text/compare-text.js';

export type Severity = 'error' | 'warning' | 'hint';

/** One change to one place of a file: what stands there is replaced by `text`. */
export interface Edit {
  readonly at: Span;
  readonly text: string;
}

/** A change that mends the fault. `safe` means that it cannot change what the author meant. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly safe: boolean;
}

/** Another place that has part in a fault, with a few words. `onPath` marks a step of the path that leads to it. */
export interface Related {
  readonly message: string;
  readonly at: Span;
  readonly onPath?: true;
}

/** One reported fault. `code` is the id of the rule that found it, or of the reading fault. */
export interface Diagnostic {
  readonly code: string;
  readonly severity: Severity;
  /** One sentence of fact with both values, identifiers in backticks, units always. */
  readonly message: string;
  readonly at: Span;
  /** Other places that have part in it. A path through steps stands here in its order. */
  readonly related: readonly Related[];
  /** A change to make, as one sentence. */
  readonly help?: string;
  /** A fact or a source: why it matters. */
  readonly note?: string;
  /** The rigs that it concerns, as written on the command line; empty where it concerns all. */
  readonly rigs: readonly string[];
  readonly fixes?: readonly Fix[];
}

/** A diagnostic with the optional parts left out, filled up with their empty values. */
export function diagnose(
  parts: Pick<Diagnostic, 'code' | 'severity' | 'message' | 'at'> & Partial<Diagnostic>,
): Diagnostic {
  return { related: [], rigs: [], ...parts };
}

const weight: Record<Severity, number> = { error: 0, warning: 1, hint: 2 };

/** A total order: file, offset, severity, code, message. */
export function byPlace(a: Diagnostic, b: Diagnostic): number {
  return (
    compareText(a.at.file, b.at.file) ||
    a.at.start - b.at.start ||
    weight[a.severity] - weight[b.severity] ||
    compareText(a.code, b.code) ||
    compareText(a.message, b.message) ||
    a.at.end - b.at.end ||
    compareText(a.rigs.join(' '), b.rigs.join(' '))
  );
}

/** What a phase gives: its result, and the faults met on the way. */
export interface Findings<T> {
  readonly value: T;
  readonly diagnostics: readonly Diagnostic[];
}
