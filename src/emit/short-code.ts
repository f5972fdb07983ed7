// Short codes to read out on the telephone: one for each page of a rig at one revision and content.

/** Signs that neither look nor sound like one another in English or Spanish: no 0 O 1 I L, no B V, no S, no U. */
const signs = '23456789ACDEFGHJKMNPQRTWXYZ';
const length = 6;

/** A code of six signs from a text; the same text gives the same code on every machine. `turn` gives another. */
export function shortCode(text: string, turn = 0): string {
  let [a, b] = [0xdeadbeef ^ turn, 0x41c6ce57 ^ turn];
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    a = Math.imul(a ^ unit, 2654435761);
    b = Math.imul(b ^ unit, 1597334677);
  }
  a = Math.imul(a ^ (a >>> 16), 2246822507) ^ Math.imul(b ^ (b >>> 13), 3266489909);
  b = Math.imul(b ^ (b >>> 16), 2246822507) ^ Math.imul(a ^ (a >>> 13), 3266489909);
  let rest = (BigInt(b >>> 0) << 32n) | BigInt(a >>> 0);
  let code = '';
  for (let i = 0; i < length; i += 1) {
    code += signs[Number(rest % BigInt(signs.length))] ?? '';
    rest /= BigInt(signs.length);
  }
  return code;
}

/** A code for each text, no two alike and none of those taken: where two would be, the later takes its next. */
export function shortCodes(
  texts: readonly string[],
  before: ReadonlySet<string> = new Set(),
): ReadonlyMap<string, string> {
  const taken = new Set(before);
  const codes = new Map<string, string>();
  for (const text of texts) {
    if (codes.has(text)) continue;
    let turn = 0;
    while (taken.has(shortCode(text, turn))) turn += 1;
    taken.add(shortCode(text, turn));
    codes.set(text, shortCode(text, turn));
  }
  return codes;
}

/** `QF7 2KD`, in two groups that stay on one line. */
export function spokenCode(code: string): string {
  return `${code.slice(0, 3)}\u00a0${code.slice(3)}`;
}
