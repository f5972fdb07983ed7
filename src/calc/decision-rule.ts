// How a reading is judged, in the words of the book.

/**
 * simple: the reading within the tolerance passes. guarded: within the acceptance limits passes, all else fails.
 * three-zone: within the acceptance limits passes, beyond the tolerance by the guard band fails, between is unsure
 * (JCGM 106:2012, 8; ISO 14253-1:2017; ILAC-G8:09/2019, 4.2).
 */
export type DecisionRule = 'simple' | 'guarded' | 'three-zone';

/** What a rule says of a reading; `unsure`, too close to call, comes of three zones only. */
export type Verdict = 'pass' | 'fail' | 'unsure';
