// SHA-256 (FIPS 180-4) of a text's UTF-8 bytes: the same on every machine and in the browser.

/** The first `count` primes. */
function primes(count: number): readonly number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n += 1) if (found.every((prime) => n % prime !== 0)) found.push(n);
  return found;
}

// FIPS 180-4, 4.2.2 and 5.3.3: the first 32 bits of the fractions of the cube and square roots of the first primes
const fraction = (root: number): number => ((root % 1) * 2 ** 32) | 0;
const roundConstants = Int32Array.from(primes(64), (prime) => fraction(Math.cbrt(prime)));
const startState = primes(8).map((prime) => fraction(Math.sqrt(prime)));

const rotate = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** The digest of a text as 64 hexadecimal digits. */
export function sha256(text: string): string {
  const state = Int32Array.from(startState);
  const words = paddedWords(new TextEncoder().encode(text));
  const schedule = new Int32Array(64);
  for (let at = 0; at < words.length; at += 16) addBlock(state, schedule, words.subarray(at, at + 16));
  return [...state].map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}

function paddedWords(bytes: Uint8Array): Int32Array {
  const words = new Int32Array((((bytes.length + 8) >> 6) + 1) * 16);
  for (let i = 0; i < bytes.length; i += 1)
    words[i >> 2] = (words[i >> 2] ?? 0) | ((bytes[i] ?? 0) << (24 - (i % 4) * 8));
  words[bytes.length >> 2] = (words[bytes.length >> 2] ?? 0) | (0x80 << (24 - (bytes.length % 4) * 8));
  words[words.length - 2] = Math.floor(bytes.length / 2 ** 29);
  words[words.length - 1] = bytes.length << 3;
  return words;
}

function addBlock(state: Int32Array, schedule: Int32Array, block: Int32Array): void {
  schedule.set(block);
  for (let i = 16; i < 64; i += 1) {
    const [two, fifteen] = [schedule[i - 2]!, schedule[i - 15]!];
    const small1 = rotate(two, 17) ^ rotate(two, 19) ^ (two >>> 10);
    const small0 = rotate(fifteen, 7) ^ rotate(fifteen, 18) ^ (fifteen >>> 3);
    schedule[i] = (small1 + schedule[i - 7]! + small0 + schedule[i - 16]!) | 0;
  }
  let [a, b, c, d] = [state[0]!, state[1]!, state[2]!, state[3]!];
  let [e, f, g, h] = [state[4]!, state[5]!, state[6]!, state[7]!];
  for (let i = 0; i < 64; i += 1) {
    const big1 = rotate(e, 6) ^ rotate(e, 11) ^ rotate(e, 25);
    const first = (h + big1 + ((e & f) ^ (~e & g)) + roundConstants[i]! + schedule[i]!) | 0;
    const big0 = rotate(a, 2) ^ rotate(a, 13) ^ rotate(a, 22);
    const second = (big0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    h = g;
    g = f;
    f = e;
    e = (d + first) | 0;
    d = c;
    c = b;
    b = a;
    a = (first + second) | 0;
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => {
    state[i] = state[i]! + word;
  });
}
