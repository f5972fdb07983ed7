// Maps of ids and lists of steps with their repeated parts written out. The order is the author's: a run of steps with
// `{side}` is repeated whole, side by side.

import type { YamlNode, YamlScalar } from '../tree.js';
import { type ForEach, fillKey, fillPart, mentions, type Repeated, refersTo, replaceParts } from './for-each.js';
import { childOf, entriesOf, isBlank, located, type Part, wordsBehind } from './part.js';
import { markUsed, type Reading } from './reading.js';
import { mainLanguage } from './texts.js';
import type { Entry } from './values.js';

/** How ids of each kind are called in each copy: by value of `for-each`, old name to new. */
export type Renamed = ReadonlyMap<string, ReadonlyMap<string, string>>;

export interface Repeating {
  readonly reading: Reading;
  readonly forEach: ForEach | undefined;
  /** Ids of values, adjusters and worksheets that are repeated though `{side}` is not in them. */
  readonly renamed: Renamed;
}

/** Which entries of `values`, `adjusters` and `worksheets` are repeated under a longer name, and what that is. */
export function findRenamed(reading: Reading, procedure: Part, forEach: ForEach | undefined): Renamed {
  const renamed = new Map<string, Map<string, string>>();
  for (const { value } of forEach?.values ?? []) renamed.set(value, new Map());
  for (const key of ['values', 'adjusters', 'worksheets']) {
    for (const entry of entriesOf(reading, childOf(reading, procedure, key))) {
      if (!forEach || mentions(entry.key, forEach.variable) || !isRepeated(entry, forEach)) continue;
      for (const [value, names] of renamed) names.set(entry.key.text.value, `${entry.key.text.value}_${value}`);
    }
  }
  return renamed;
}

function isRepeated(entry: Entry, forEach: ForEach): boolean {
  const { node } = entry;
  if (mentions(entry.key, forEach.variable) || mentions(node, forEach.variable)) return true;
  return (
    node.kind === 'map' &&
    node.entries.some(({ key, value }) => key.text.value === 'positive' && bySide(value, forEach))
  );
}

function bySide(node: YamlNode, forEach: ForEach): boolean {
  return (
    node.kind === 'map' && node.entries.every(({ key }) => forEach.values.some(({ value }) => value === key.text.value))
  );
}

/** The entries of a map of ids, the repeated ones once for each value. */
export function repeatedEntries(repeating: Repeating, part: Part | undefined): readonly Entry[] {
  const { reading, forEach } = repeating;
  return entriesOf(reading, part).flatMap((entry) => {
    if (!forEach || !isRepeated(entry, forEach)) return [entry];
    return copiesFor(repeating, forEach).map((copy) => {
      const pick = (node: YamlNode) => pickSides(reading, node, { forEach, side: copy.value });
      const words = new Map([...entry.words].map(([code, node]) => [code, pick(node)] as const));
      return { ...fillWords({ node: pick(entry.node), words }, repeating, copy), key: keyOf(entry.key, copy) };
    });
  });
}

function keyOf(key: YamlScalar, copy: Repeated): YamlScalar {
  const name = copy.renamed.get(key.text.value);
  if (name === undefined) return fillKey(key, { repeated: copy });
  const end = key.text.value.length;
  return { ...key, text: replaceParts(key.text, [{ start: 0, end, by: name }]), core: name };
}

function copiesFor(repeating: Repeating, forEach: ForEach): readonly Repeated[] {
  const { variable, words } = forEach;
  return forEach.values.map(({ value }) => ({
    variable,
    value,
    words,
    renamed: repeating.renamed.get(value) ?? new Map(),
  }));
}

function fillWords(part: Part, repeating: Repeating, copy: Repeated): Part {
  const words = [...part.words].map(([code, node]) => [code, fillPart(node, copy, code)] as const);
  return { ...part, node: fillPart(part.node, copy, mainLanguage(repeating.reading)), words: new Map(words) };
}

/** `positive: { left: …, right: … }` becomes the words for one side. */
function pickSides(reading: Reading, node: YamlNode, copy: { forEach: ForEach; side: string }): YamlNode {
  const { forEach, side } = copy;
  if (node.kind !== 'map') return node;
  const entries = node.entries.map((entry) => {
    if (entry.key.text.value !== 'positive' || entry.value.kind !== 'map' || !bySide(entry.value, forEach))
      return entry;
    for (const { key } of entry.value.entries) markUsed(reading, key);
    const own = entry.value.entries.find(({ key }) => key.text.value === side);
    return own ? { ...entry, value: own.value } : entry;
  });
  return { ...node, entries };
}

/** A step as it is read: one of a run that is repeated says of which copy it is. */
export interface StepPart {
  readonly part: Part;
  readonly repeated?: Repeated;
  /** The id as written. */
  readonly written: string;
}

const valueKeys = ['measure', 'write', 'adjust', 'stale'];

/** The steps in order, runs of those with `{side}` written out for each value in turn. */
export function repeatedSteps(repeating: Repeating, procedure: Part): readonly StepPart[] {
  const { reading, forEach } = repeating;
  const list = childOf(reading, procedure, 'steps');
  const nodes = list?.node.kind === 'list' ? list.node.items : [];
  const steps = nodes.map((node): StepPart => {
    const written = writtenId(node);
    const words =
      written === '' ? new Map<string, YamlNode>() : wordsBehind(reading, list?.words ?? new Map(), written);
    return { part: { node, words }, written };
  });
  if (!forEach) return steps;
  const names = new Set([...repeating.renamed.values()].flatMap((one) => [...one.keys()]));
  const isInRun = ({ part: { node } }: StepPart): boolean =>
    mentions(node, forEach.variable) || refersTo(node, valueKeys, names);
  const all: StepPart[] = [];
  for (let at = 0; at < steps.length; ) {
    let end = at;
    while (end < steps.length && isInRun(steps[end] as StepPart)) end += 1;
    if (end > at) all.push(...repeatRun(repeating, forEach, steps.slice(at, end)));
    else all.push(steps[end++] as StepPart);
    at = end;
  }
  return all;
}

function repeatRun(repeating: Repeating, forEach: ForEach, run: readonly StepPart[]): readonly StepPart[] {
  return copiesFor(repeating, forEach).flatMap((copy) => {
    const renamed = new Map(copy.renamed);
    for (const { part, written } of run) {
      const id = idNode(part.node);
      if (id && written !== '' && !mentions(id, forEach.variable)) renamed.set(written, `${written}-${copy.value}`);
    }
    const own: Repeated = { ...copy, renamed };
    return run.map(({ part, written }) => ({ part: fillWords(part, repeating, own), repeated: own, written }));
  });
}

function idNode(node: YamlNode): YamlScalar | undefined {
  const id = node.kind === 'map' ? node.entries.find(({ key }) => key.text.value === 'id')?.value : undefined;
  return id?.kind === 'scalar' && !isBlank(id) ? id : undefined;
}

function writtenId(node: YamlNode): string {
  const id = idNode(node);
  return (id && located(id)?.value) ?? '';
}
