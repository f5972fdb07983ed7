// Process capability: how much room limits leave around the scatter of a process. Judges no single reading.

/** Cp and Cpk; Cp needs two limits. Both are infinite where nothing scatters inside the limits. */
export interface Capability {
  readonly potential: number | undefined;
  readonly actual: number;
}

/**
 * Cp = (high - low) / (6 s); Cpk = the lesser of (high - mean) / (3 s) and (mean - low) / (3 s), one-sided where only one
 * limit stands. Undefined without a limit or for a negative s; for s = 0 the sign of the room decides.
 * Source: D. C. Montgomery, Introduction to Statistical Quality Control, ch. 8. Assumes a normal, stable process.
 */
export function capability(
  process: { readonly mean: number; readonly standardDeviation: number },
  limits: { readonly low?: number; readonly high?: number },
): Capability | undefined {
  const { mean, standardDeviation: s } = process;
  const { low, high } = limits;
  if ((low === undefined && high === undefined) || !(s >= 0) || !Number.isFinite(mean)) return undefined;
  const rooms = [low === undefined ? Infinity : mean - low, high === undefined ? Infinity : high - mean];
  return {
    potential: low === undefined || high === undefined ? undefined : share(high - low, 6 * s),
    actual: share(Math.min(...rooms), 3 * s),
  };
}

function share(room: number, spread: number): number {
  if (spread > 0) return room / spread;
  return room === 0 ? 0 : room > 0 ? Infinity : -Infinity;
}
