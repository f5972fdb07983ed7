// Results kept from one round of work to the next, for as long as what they were made from is the same. Knows nothing of
// what it keeps.

/** What `make` gave before for the same parts, or what it gives now. `slot` names the work; parts are compared by `===`. */
export type Keep = <T>(slot: string, parts: readonly unknown[], make: () => T) => T;

/** Results, and the turn to the next round. */
export interface Kept {
  readonly keep: Keep;
  /** Begins a round: what none of the last rounds asked for is forgotten. */
  readonly turn: () => void;
}

interface Result {
  readonly parts: readonly unknown[];
  readonly value: unknown;
  used: number;
}

/** Keeps nothing: every result is made anew. */
export const keepNothing: Keep = (_slot, _parts, make) => make();

/** Keeps each result until `rounds` rounds have gone by in which it was not asked for. */
export function keepResults(rounds: number): Kept {
  const slots = new Map<string, Result[]>();
  let round = 0;
  const keep: Keep = (slot, parts, make) => {
    const results = slots.get(slot) ?? [];
    const known = results.find((result) => isSame(result.parts, parts));
    if (known) {
      known.used = round;
      return known.value as ReturnType<typeof make>;
    }
    const value = make();
    results.push({ parts, value, used: round });
    slots.set(slot, results);
    return value;
  };
  const turn = (): void => {
    round += 1;
    if (round % rounds !== 0) return;
    for (const [slot, results] of slots) {
      const wanted = results.filter(({ used }) => round - used <= rounds);
      if (wanted.length === 0) slots.delete(slot);
      else if (wanted.length < results.length) slots.set(slot, wanted);
    }
  };
  return { keep, turn };
}

function isSame(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((part, i) => part === b[i]);
}

/** Results of one round for all that come after it. Once it is sealed, nothing more is kept, and nothing forgotten. */
export function keepSealable(): { readonly keep: Keep; readonly seal: () => void } {
  const slots = new Map<string, { readonly parts: readonly unknown[]; readonly value: unknown }[]>();
  let isSealed = false;
  const keep: Keep = (slot, parts, make) => {
    const results = slots.get(slot) ?? [];
    const known = results.find((result) => isSame(result.parts, parts));
    if (known) return known.value as ReturnType<typeof make>;
    const value = make();
    if (isSealed) return value;
    results.push({ parts, value });
    slots.set(slot, results);
    return value;
  };
  const seal = (): void => {
    isSealed = true;
  };
  return { keep, seal };
}
