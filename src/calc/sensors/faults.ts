// In which band a sensor voltage lies: valid, beyond the travel, or so far out that the wiring is at fault.

/** The bands of one sensor, as data of its book: there is no band that all sensors share. Ascending, in V. */
export interface FaultBands {
  /** Below this: shorted low, or open with a pull-down. */
  readonly faultLow: number;
  readonly validLow: number;
  readonly validHigh: number;
  /** Above this: shorted high, or open with a pull-up. */
  readonly faultHigh: number;
}

/** Where a voltage lies; `below` and `above` are beyond the travel, but no fault of the wiring. */
export type SensorBand = 'fault-low' | 'below' | 'valid' | 'above' | 'fault-high';

/** The band of a voltage; the limits of `valid` belong to it, those of the faults do not belong to the faults. */
export function classifyVoltage(voltage: number, bands: FaultBands): SensorBand {
  const { faultLow, validLow, validHigh, faultHigh } = bands;
  if (!(faultLow <= validLow && validLow <= validHigh && validHigh <= faultHigh) || Number.isNaN(voltage)) {
    throw new RangeError(
      `Unexpected bands ${faultLow}, ${validLow}, ${validHigh}, ${faultHigh} V or voltage ${voltage} V`,
    );
  }
  if (voltage < faultLow) return 'fault-low';
  if (voltage < validLow) return 'below';
  if (voltage <= validHigh) return 'valid';
  return voltage <= faultHigh ? 'above' : 'fault-high';
}

/**
 * The failure mode number that a band stands for: 3 voltage above normal or shorted to high source, 4 voltage below normal
 * or shorted to low source (SAE J1939-73, appendix A); undefined for the others.
 */
export function failureMode(band: SensorBand): 3 | 4 | undefined {
  if (band === 'fault-high') return 3;
  return band === 'fault-low' ? 4 : undefined;
}
