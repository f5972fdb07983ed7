// Exact fractions. Every number of a book is one of these until a function needs a floating bound.

/** An exact fraction in lowest terms; `den` is positive. */
export interface Rational {
  readonly num: bigint;
  readonly den: bigint;
}
