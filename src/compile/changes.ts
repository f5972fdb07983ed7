// What of a book is not as it was: by name for parts that work is done again for, as a whole for all others.

import type { Book, Header, Machine } from '../model/book.js';
import type { StateVariable } from '../model/conditions.js';
import { same } from './same.js';

export interface Changes {
  /** `machine tarn-40 raised`, `instrument display`, `procedure shut-down`: see `watchBook`. */
  readonly named: ReadonlySet<string>;
  /** Whether any procedure may read otherwise, whatever it names. */
  readonly all: boolean;
  /** Whether states, physics or safety rules are others. */
  readonly world: boolean;
  /** Whether numbers of machines, headers, instruments or crops are others. */
  readonly numbers: boolean;
  /** The parts of the book that are others: `machines`, `procedures`. */
  readonly parts: ReadonlySet<string>;
}

/** Compares two books that were read from the same files but some. */
export function changesOf(before: Book, after: Book): Changes {
  const keys = Object.keys({ ...before, ...after }) as (keyof Book)[];
  const parts = new Set(keys.filter((key) => !same(before[key], after[key])));
  const named = new Set<string>();
  const holders = [
    changedHolders('machine', before.machines, { after: after.machines, named }),
    changedHolders('header', before.headers, { after: after.headers, named }),
  ];
  for (const [name, key] of maps) addChanged(named, name, [before[key], after[key]]);
  const declared = maps.some(([, key]) => !same([...before[key].keys()], [...after[key].keys()]));
  const states = !same(wordsOf(before.states), wordsOf(after.states));
  const others = [...parts].some((key) => !ownWay.has(key));
  const worldParts = ['states', 'physics', 'rules', 'ends', 'bundles', 'hazards'] as const;
  return {
    named,
    all: others || states || declared || holders.includes(true) || parts.has('ends'),
    world: states || worldParts.some((key) => parts.has(key)),
    numbers: (['machines', 'headers', 'instruments', 'crops'] as const).some((key) => parts.has(key)),
    parts,
  };
}

const maps = [
  ['instrument', 'instruments'],
  ['crop', 'crops'],
  ['bundle', 'bundles'],
  ['procedure', 'procedures'],
] as const;

/** Parts of which it is told by name, or through the world, what a change in them means. */
const ownWay: ReadonlySet<keyof Book> = new Set([
  'machines',
  'headers',
  'instruments',
  'crops',
  'bundles',
  'procedures',
  'states',
  'physics',
  'rules',
  'hazards',
  'ends',
  'waivers',
  'unread',
]);

function addChanged(
  named: Set<string>,
  name: string,
  [before, after]: readonly [ReadonlyMap<string, unknown>, ReadonlyMap<string, unknown>],
): void {
  for (const key of new Set([...before.keys(), ...after.keys()])) {
    if (!same(before.get(key), after.get(key))) named.add(`${name} ${key}`);
  }
}

/** Whether more of a machine or header changed than its parameters and what must agree. */
function changedHolders<T extends Machine | Header>(
  kind: 'machine' | 'header',
  before: ReadonlyMap<string, T>,
  { after, named }: { readonly after: ReadonlyMap<string, T>; readonly named: Set<string> },
): boolean {
  let more = before.size !== after.size;
  for (const [id, now] of after) {
    const then = before.get(id);
    if (then === now) continue;
    addChanged(named, `${kind} ${id}`, [then?.parameters ?? new Map(), now.parameters]);
    more ||= !then || !same({ ...then, parameters: 0, agree: 0 }, { ...now, parameters: 0, agree: 0 });
  }
  return more;
}

/** What procedures see of states: how they and their values are called. The rest is seen through the world alone. */
function wordsOf(states: ReadonlyMap<string, StateVariable>): readonly unknown[] {
  return [...states.values()].map(({ id, label, values, quantity }) => [id, label, values, quantity]);
}
