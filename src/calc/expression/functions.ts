// The functions that expressions may call, and the words that no name may be.

/** How many arguments a function takes, and whether it gathers the rows of a column. */
export interface FunctionShape {
  readonly least: number;
  readonly most: number;
  readonly gathers: boolean;
}

const single: FunctionShape = { least: 1, most: 1, gathers: false };
const gathering: FunctionShape = { least: 1, most: 64, gathers: true };

// a map, never an object: `toString` and `__proto__` are no functions
const functions: ReadonlyMap<string, FunctionShape> = new Map([
  ['abs', single],
  ['sqrt', single],
  ['sin', single],
  ['cos', single],
  ['tan', single],
  ['asin', single],
  ['acos', single],
  ['atan', single],
  ['min', gathering],
  ['max', gathering],
  ['mean', gathering],
  ['sum', gathering],
  ['count', gathering],
  ['slope', { least: 2, most: 2, gathers: true }],
]);

/** What is known of a function; undefined where there is none of that name. */
export function findFunction(name: string): FunctionShape | undefined {
  return functions.get(name);
}

/** The names of all functions. */
export function functionNames(): readonly string[] {
  return [...functions.keys()];
}

const keywords = new Set(['to', 'for', 'at', 'pi']);

/** Whether a word has a meaning of its own in limits or expressions. */
export function isKeyword(word: string): boolean {
  return keywords.has(word);
}
