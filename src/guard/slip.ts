// What a slip is: one change to a book's text of the kind that fingers and eyes make, and what kinds there are.

import type { Piece } from '../text/edited.js';
import type { SourceText, Span } from '../text/source.js';

/** The kinds of slips, in the order in which they are told. */
export const slipKinds = [
  'neighbouring-digit',
  'swapped-digits',
  'moved-point',
  'sign',
  'unit-next-door',
  'exchanged-limits',
  'dropped-step',
  'swapped-steps',
  'dropped-need',
  'dropped-requirement',
  'other-state-value',
  'other-instrument',
  'wrong-rig-key',
  'other-reference',
] as const;

export type SlipKind = (typeof slipKinds)[number];

/** What the text is in which a slip is made. */
export type Subject =
  /** Limits that something is judged by: they have a tolerance. */
  | 'limits'
  /** Numbers of a machine, a header or a crop. */
  | 'parameter'
  /** Any other number. */
  | 'number'
  | 'expression'
  | 'order'
  | 'condition'
  | 'name';

export interface Slip {
  readonly kind: SlipKind;
  readonly subject: Subject;
  /** What is changed, in the text as it is. */
  readonly at: Span;
  /** The text with the slip, in pieces of the one without. */
  readonly pieces: readonly Piece[];
  /** What stands there, and what would; a structure in a few words. */
  readonly before: string;
  readonly after: string;
  /** Where that is in the file: `values/on_ground/limits`. */
  readonly path: string;
  /** The whole text in which a number was changed, before and after. */
  readonly text?: { readonly source: SourceText; readonly after: string };
}
