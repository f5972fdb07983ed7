// Diagnostics as open data: the shape that `--format json` prints.

import type { Span } from '../text/source.js';
import type { Diagnostic, Severity } from './diagnostic.js';
import { type Locate, locator, type Sources } from './locate.js';

/** Line and column from 1, columns in UTF-16 units, ends exclusive; the file relative to the book. */
export interface JsonRegion {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export interface JsonFix {
  readonly title: string;
  /** Whether it cannot change what was meant, so that it may be applied unseen. */
  readonly safe: boolean;
  readonly edits: readonly (JsonRegion & { readonly text: string })[];
}

export interface JsonDiagnostic extends JsonRegion {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  /** Empty where it concerns all rigs. */
  readonly rigs: readonly string[];
  readonly related: readonly {
    readonly message: string;
    readonly file: string;
    readonly line: number;
    readonly column: number;
  }[];
  readonly help: string;
  readonly note?: string;
  readonly fixes: readonly JsonFix[];
}

/** The diagnostics in the order given. */
export function renderJson(diagnostics: readonly Diagnostic[], sources: Sources): readonly JsonDiagnostic[] {
  const locate = locator(sources);
  return diagnostics.map((diagnostic) => ({
    code: diagnostic.code,
    severity: diagnostic.severity,
    message: diagnostic.message,
    ...regionOf(locate, diagnostic.at),
    rigs: diagnostic.rigs,
    related: diagnostic.related.map(({ message, at }) => {
      const { file, line, column } = regionOf(locate, at);
      return { message, file, line, column };
    }),
    help: diagnostic.help ?? '',
    ...(diagnostic.note === undefined ? {} : { note: diagnostic.note }),
    fixes: (diagnostic.fixes ?? []).map(({ title, safe, edits }) => ({
      title,
      safe,
      edits: edits.map(({ at, text }) => ({ ...regionOf(locate, at), text })),
    })),
  }));
}

function regionOf(locate: Locate, at: Span): JsonRegion {
  const { file, start, end } = locate(at);
  return { file, line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
}
