// Refuses numbers that a formula is not made for, in one wording, so that no formula answers with NaN.

/** Throws a RangeError unless `value` is a finite number above 0; gives it back. */
export function requirePositive(value: number, name: string): number {
  if (!(value > 0) || !Number.isFinite(value))
    throw new RangeError(`Unexpected ${name} ${value}, expected a number above 0`);
  return value;
}

/** Throws a RangeError unless `value` is a finite number of 0 or more; gives it back. */
export function requireNotNegative(value: number, name: string): number {
  if (!(value >= 0) || !Number.isFinite(value)) throw new RangeError(`Unexpected ${name} ${value}, expected 0 or more`);
  return value;
}

/** Throws a RangeError unless 0 <= value <= 1; gives it back. */
export function requireShare(value: number, name: string): number {
  if (!(value >= 0 && value <= 1)) throw new RangeError(`Unexpected ${name} ${value}, expected a share from 0 to 1`);
  return value;
}

/** Throws a RangeError unless `value` is a finite number; gives it back. */
export function requireNumber(value: number, name: string): number {
  if (!Number.isFinite(value)) throw new RangeError(`Unexpected ${name} ${value}, expected a finite number`);
  return value;
}
