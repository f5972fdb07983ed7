// A card as the book would print it now, as far as printed cards are held against it.

import type { Rig } from './resolved.js';

export interface PrintedCard {
  readonly code: string;
  /** Those of it that may be printed on older ones, and lead to it still. */
  readonly alsoCodes: readonly string[];
  readonly procedure: string;
  readonly revision: number;
  /** Whether it is of a draft: nobody has released it for work. */
  readonly draft: boolean;
  readonly language: string;
  readonly machine: string;
  /** Those of the machine. */
  readonly rigs: readonly Rig[];
  /** Digest of all that stands on it but its revision, its dates, its code and for whom it holds. */
  readonly body: string;
  /** Digest of the procedure as it is for these rigs. */
  readonly content: string;
}
