// A number of things out of many, the same for the same seed on any machine.

/** `size` of `all`, in their order, drawn without repeats. All of them where there are no more. */
export function sampleOf<T>(
  all: readonly T[],
  { size, seed }: { readonly size: number; readonly seed: number },
): readonly T[] {
  const indices = all.map((_, index) => index);
  const next = numbersFrom(seed);
  for (let i = 0; i < Math.min(size, indices.length); i += 1) {
    const j = i + Math.floor(next() * (indices.length - i));
    [indices[i], indices[j]] = [indices[j] ?? 0, indices[i] ?? 0];
  }
  const chosen = new Set(indices.slice(0, size));
  return all.filter((_, index) => chosen.has(index));
}

/** Numbers from 0 to under 1, of 32 bits each: a Weyl sequence, mixed. */
function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 0x1_0000_0000;
  };
}
