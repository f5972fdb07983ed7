// Places of diagnostics as lines and columns, worked out once a file.

import { lineStarts, type Position, positionOf } from '../text/lines.js';
import type { SourceFile, Span } from '../text/source.js';

export type Sources = ReadonlyMap<string, SourceFile>;

/** A span by lines and columns, both from 1, the end exclusive. */
export interface Region {
  readonly file: string;
  readonly start: Position;
  readonly end: Position;
}

export type Locate = (span: Span) => Region;

/** Makes a function from spans to regions. A place in a file that is not among the sources is its line 1, column 1. */
export function locator(sources: Sources): Locate {
  const known = new Map<string, readonly number[]>();
  const startsOf = (file: string): readonly number[] => {
    const starts = known.get(file) ?? lineStarts(sources.get(file)?.text ?? '');
    known.set(file, starts);
    return starts;
  };
  return (span) => {
    const source = sources.get(span.file);
    const length = source?.text.length ?? 0;
    const start = Math.max(0, Math.min(span.start, length));
    const end = Math.max(start, Math.min(span.end, length));
    const starts = startsOf(span.file);
    return { file: span.file, start: positionOf(starts, start), end: positionOf(starts, end) };
  };
}
