// Random numbers that are the same in every run and every engine, for Monte Carlo. Not for secrets.

/** A source of random numbers. Each call moves on by one. */
export interface RandomSource {
  /** Evenly spread between 0 and 1, both left out. */
  readonly uniform: () => number;
  /** Standard normal. */
  readonly normal: () => number;
}

const MODULI = [2147483579, 2147483543, 2147483423, 2147483123] as const;
const FACTORS = [11600, 47003, 23000, 33000] as const;

/**
 * The enhanced Wichmann-Hill generator (JCGM 101:2008, C.3; period 2^121): four congruential generators whose fractions
 * are added. All products stay below 2^53, so every engine gives the same. Normal numbers after Box and Muller (C.4).
 * `seed` is any whole number.
 */
export function createRandom(seed: number): RandomSource {
  const state = seedState(seed);
  const uniform = (): number => {
    let sum = 0;
    for (let i = 0; i < 4; i += 1) {
      state[i] = (FACTORS[i]! * state[i]!) % MODULI[i]!;
      sum += state[i]! / MODULI[i]!;
    }
    const value = sum - Math.floor(sum);
    return value > 0 ? value : uniform();
  };
  let spare: number | undefined;
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    const turn = 2 * Math.PI * uniform();
    spare = radius * Math.sin(turn);
    return radius * Math.cos(turn);
  };
  return { uniform, normal };
}

/** Four different starting numbers from one, spread by a small congruential generator. */
function seedState(seed: number): number[] {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`Unexpected seed ${seed}, expected a whole number`);
  let x = Math.abs(seed) % 2147483647;
  return MODULI.map((modulus) => {
    for (let i = 0; i < 8; i += 1) x = (x * 48271 + 11) % 2147483647;
    return 1 + (x % (modulus - 1));
  });
}
