// A file with an edit in it, and the way back: which place of the file before the edit each place of it stands for.
// Knows nothing of what the text means.

import type { SourceFile } from './source.js';

/** A stretch of the old text, kept as it was, or replaced by `text`. Offsets count in the old text. */
export interface Piece {
  readonly start: number;
  readonly end: number;
  readonly text?: string;
}

/** The side of a place: where two pieces meet, a start belongs to the later and an end to the earlier one. */
export type Side = 'start' | 'end';

export interface Edited {
  /** The file as it reads after the edit. */
  readonly file: SourceFile;
  /** From an offset in the edited text to the one in the text before. */
  readonly back: (offset: number, side: Side) => number;
}

/** Puts a text together from pieces of the old one, in the order given; what no piece names is gone. */
export function editFile(file: SourceFile, pieces: readonly Piece[]): Edited {
  const texts = pieces.map(({ start, end, text }) => text ?? file.text.slice(start, end));
  let length = 0;
  const starts = texts.map((text) => {
    const start = length;
    length += text.length;
    return start;
  });
  const back = (offset: number, side: Side): number => {
    const index = pieceAt(starts, offset, { side, length });
    const piece = pieces[index];
    if (!piece) return offset;
    const inside = offset - (starts[index] ?? 0);
    if (piece.text === undefined) return Math.min(piece.start + inside, piece.end);
    return inside >= piece.text.length ? piece.end : Math.min(piece.start + inside, piece.end);
  };
  return { file: { path: file.path, text: texts.join('') }, back };
}

/** The pieces of a text in which one stretch is replaced. */
export function replacing(
  file: SourceFile,
  at: { readonly start: number; readonly end: number },
  text: string,
): Piece[] {
  return [
    { start: 0, end: at.start },
    { start: at.start, end: at.end, text },
    { start: at.end, end: file.text.length },
  ];
}

interface Wanted {
  readonly side: Side;
  readonly length: number;
}

function pieceAt(starts: readonly number[], offset: number, { side, length }: Wanted): number {
  if (offset >= length && side === 'start') return starts.length - 1;
  let found = 0;
  for (const [index, start] of starts.entries()) {
    if (side === 'start' ? start <= offset : start < offset) found = index;
  }
  return found;
}
