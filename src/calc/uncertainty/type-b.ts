// Standard uncertainties from what is known without repeated readings (JCGM 100:2008, 4.3), and how well they are known.
// What a book's `accuracy` means stands elsewhere; these are the building stones.

/** What is known of an error: its largest size a, or for `normal` an expanded uncertainty with its coverage factor. */
export type Knowledge =
  | { readonly shape: 'rectangular' | 'triangular' | 'arcsine'; readonly halfWidth: number }
  | { readonly shape: 'resolution'; readonly step: number }
  | { readonly shape: 'normal'; readonly expanded: number; readonly factor: number };

/**
 * Standard uncertainty, in the unit of what is known: a/sqrt(3), a/sqrt(6), a/sqrt(2), step/sqrt(12), U/k
 * (JCGM 100:2008, 4.3.7, 4.3.9, 4.3.3, F.2.2.1; arcsine: H.1.3.4). Throws a RangeError for a size below 0 or a factor of 0 or less.
 */
export function standardUncertainty(known: Knowledge): number {
  switch (known.shape) {
    case 'rectangular':
      return sized(known.halfWidth) / Math.sqrt(3);
    case 'triangular':
      return sized(known.halfWidth) / Math.sqrt(6);
    case 'arcsine':
      return sized(known.halfWidth) / Math.sqrt(2);
    case 'resolution':
      return sized(known.step) / Math.sqrt(12);
    case 'normal':
      if (!(known.factor > 0)) throw new RangeError(`Unexpected coverage factor ${known.factor}, expected more than 0`);
      return sized(known.expanded) / known.factor;
  }
}

function sized(size: number): number {
  if (!(size >= 0)) throw new RangeError(`Unexpected size ${size} of an error, expected 0 or more`);
  return size;
}

/**
 * Degrees of freedom of an uncertainty that is itself known to within the share `doubt`: 1 / (2 doubt^2)
 * (JCGM 100:2008, G.4.2). Infinity for 0. `degreesFromDoubt(0.25)` is 8.
 */
export function degreesFromDoubt(doubt: number): number {
  if (!(doubt >= 0)) throw new RangeError(`Unexpected doubt ${doubt}, expected a share of 0 or more`);
  return 1 / (2 * doubt * doubt);
}

/** How a meter states its largest error: shares of reading and of range (0.005 for 0.5 %), and counts of the last digit. */
export interface MeterAccuracy {
  readonly ofReading?: number;
  readonly ofRange?: number;
  readonly range?: number;
  readonly counts?: number;
  readonly resolution?: number;
}

/**
 * Largest error at a reading, in its unit: |reading| * p + range * q + counts * resolution; rectangular where nothing
 * else is said. `meterError(1.755, { ofReading: 0.005, counts: 1, resolution: 0.001 })` is 0.009775 V.
 */
export function meterError(reading: number, accuracy: MeterAccuracy): number {
  const { ofReading = 0, ofRange = 0, range = 0, counts = 0, resolution = 0 } = accuracy;
  return sized(Math.abs(reading) * ofReading + Math.abs(range) * ofRange + counts * resolution);
}
