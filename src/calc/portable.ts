// Expressions, limits and instruments as text and back, so that a page carries what was compiled and needs no parser.

/** Anything made of plain objects, lists, texts, numbers and whole numbers of any length, as JSON. */
export function writePortable(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) => (typeof part === 'bigint' ? `${part}n` : part));
}

const longNumber = /^-?\d+n$/;

/** What `writePortable` wrote. The caller names the type; the text must come from the same build. */
export function readPortable<T>(text: string): T {
  return JSON.parse(text, (_, part: unknown) =>
    typeof part === 'string' && longNumber.test(part) ? BigInt(part.slice(0, -1)) : part,
  ) as T;
}
