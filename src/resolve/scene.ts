// Where something is worked out: the book, the rig as far as it was asked about, and where faults go.

import type { Limits } from '../calc/limits.js';
import type { Book, Header, Machine } from '../model/book.js';
import type { World } from '../model/resolved.js';
import type { Span } from '../text/source.js';
import { emptyMemo, type Memo, recall } from './explore.js';
import type { Ask } from './facets.js';
import type { Fault, Report } from './faults.js';
import type { Vocabulary } from './vocabulary.js';

/** Which entries of choices were picked by some rig, and which choices were met at all. */
export interface ChoiceUse {
  /** By file. */
  readonly met: Map<string, Set<object>>;
  readonly picked: WeakSet<object>;
}

/** What came of a piece of work, and what is to be told wherever it is used. */
interface Outcome {
  readonly value: unknown;
  readonly faults: readonly Fault[];
  readonly parameters: ReadonlyMap<string, Limits>;
}

/** Results that were worked out before, by the procedure that they belong to and by what they are; see `remember`. */
export type Memory = Map<string, Map<string, Memo<Outcome>>>;

/** A piece of work by its name in full; `of` is the procedure that it belongs to, where it belongs to one. */
export type Work = string | { readonly of: string; readonly key: string };

export interface Scene {
  readonly book: Book;
  readonly vocabulary: Vocabulary;
  readonly ask: Ask;
  readonly report: Report;
  /** What is worked out holds for all rigs alike: nothing in it may ask about the rig. */
  readonly rigless?: true;
  /** States, physics and rules; missing while they are being worked out. */
  readonly world?: World;
  readonly choices: ChoiceUse;
  readonly memory: Memory;
  /** Hears of every parameter that is named, with what it comes to. */
  readonly onParameter?: (path: string, limits: Limits) => void;
  /** What is being worked out around this, outermost first: whoever meets itself here goes in a circle. */
  readonly within: readonly string[];
}

/**
 * Works something out once for all rigs that give the same answers. The same name is always the same work. Its faults and
 * the parameters that it names are told wherever it is used. Undefined where it would need itself.
 */
export function remember<T>(scene: Scene, work: Work, run: (inner: Scene) => T): T | undefined {
  const { of: owner, key } = typeof work === 'string' ? { of: '', key: work } : work;
  if (scene.within.includes(key)) return undefined;
  const known = scene.memory.get(owner) ?? new Map<string, Memo<Outcome>>();
  const memo = known.get(key) ?? emptyMemo<Outcome>();
  scene.memory.set(owner, known.set(key, memo));
  const outcome = recall(memo, scene.ask, (ask): Outcome => {
    const faults: Fault[] = [];
    const parameters = new Map<string, Limits>();
    const value = run({
      ...scene,
      ask,
      within: [...scene.within, key],
      report: (fault) => faults.push(fault),
      onParameter: (path, limits) => parameters.set(path, limits),
    });
    return { value, faults, parameters };
  });
  for (const fault of outcome.faults) scene.report(fault);
  if (scene.onParameter) for (const [path, limits] of outcome.parameters) scene.onParameter(path, limits);
  return outcome.value as T;
}

/** The machine of the rig. */
export function machineOf(scene: Scene): Machine {
  const machine = scene.book.machines.get(String(scene.ask({ about: 'machine' })));
  if (!machine) throw new Error('A rig was given a machine that the book has not');
  return machine;
}

/** The header of the rig. */
export function headerOf(scene: Scene): Header {
  const header = scene.book.headers.get(String(scene.ask({ about: 'header' })));
  if (!header) throw new Error('A rig was given a header that the book has not');
  return header;
}

/** The type of the rig's header. */
export function headerTypeOf(scene: Scene): string {
  return String(scene.ask({ about: 'header-type' }));
}

/** Whether the rig's machine or header is one of these. */
export function isAmong(scene: Scene, about: 'machine' | 'header', ids: readonly string[]): boolean {
  return scene.ask({ about: `${about}-among`, ids }) === true;
}

/** Whether the rig has an option: fitted, or standard on its machine. */
export function hasOption(scene: Scene, option: string): boolean {
  machineOf(scene);
  return scene.ask({ about: 'option', option }) === true;
}

/** Reports that something which holds for all rigs alike asks about the rig. */
export function reportDependence(scene: Scene, at: Span): void {
  scene.report({
    code: 'depends-on-rig',
    message: 'This holds for all rigs alike, so it can be no choice and have nothing of a rig in it',
    at,
    help: 'Write what holds for every machine here, and put what differs into the procedures.',
  });
}
