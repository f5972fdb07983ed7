// Numbers beside an axis: few and round, each written from the same whole numbers that say where it stands.

/** A mark of an axis. */
export interface Tick {
  readonly value: number;
  /** As printed: `2000`, `0.5`. */
  readonly text: string;
}

/**
 * At most `count`, two or more, multiples of 1, 2 or 5 times a power of ten above zero and up to `most`, as many as there can be; none
 * where `most` is not above zero.
 */
export function roundTicks(most: number, count: number): readonly Tick[] {
  if (!(most > 0) || !Number.isFinite(most)) return [];
  for (let power = Math.floor(Math.log10(most)) - 2; ; power += 1) {
    for (const step of [1, 2, 5]) {
      // a billionth more: that 0.3 holds three tenths is not to be lost in binary digits
      const fitting = Math.floor((most / Number(`${step}e${power}`)) * (1 + 1e-9));
      if (fitting > count) continue;
      return Array.from({ length: fitting }, (_, i) => tickOf((i + 1) * step, power));
    }
  }
}

/** `count` times ten to the `power`. */
function tickOf(count: number, power: number): Tick {
  const text = power >= 0 ? `${count}${'0'.repeat(power)}` : (count / 10 ** -power).toFixed(-power);
  return { value: Number(text), text };
}
