// What stands in the way of keeping a machine, in one word that the page has a sentence for.

/** Why a set was not kept; nothing that was kept before has changed. */
export type Hindrance = 'away' | 'mixed' | 'full' | 'refused' | 'halted' | 'job' | 'other';

/** Thrown by whatever keeps. */
export class Hindered extends Error {
  constructor(readonly why: Hindrance) {
    super(why);
  }
}
