// Offsets to lines and columns. The only place where either appears.

/** Line and column, both counted from 1; columns in UTF-16 units. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Where each line of a text starts. `\n`, `\r\n` and a lone `\r` each end a line. */
export function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (const ending of text.matchAll(/\r\n|\r|\n/g)) starts.push(ending.index + ending[0].length);
  return starts;
}

/** Turns an offset into a line and a column; an offset past the end counts as the end. */
export function positionOf(starts: readonly number[], offset: number): Position {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 };
}
