// Every slip that can be made in a book: its files as trees, each text by what it is, each changed in the ways that people
// slip. Makes no judgement of them.

import { compareText } from '../diagnostic/diagnostic.js';
import type { Book } from '../model/book.js';
import { fileAt } from '../read/build/files.js';
import { openFile } from '../read/build/open.js';
import type { FileKind } from '../read/schemas.js';
import type { YamlEntry, YamlMap, YamlNode, YamlScalar } from '../read/tree.js';
import { entryOf } from '../read/tree.js';
import { replacing } from '../text/edited.js';
import { keepNothing } from '../text/keep.js';
import { type SourceFile, spanWithin } from '../text/source.js';
import { alike, type NamesOfKind, namesFor } from './names.js';
import { numberSlips } from './number-slips.js';
import { hasConditions, isChoiceAt, type NameKind, roleAt } from './roles.js';
import type { Slip, SlipKind, Subject } from './slip.js';
import { idOf, leavingOut, linesOfItem, swapping, withoutEntry } from './structure-slips.js';

/** Files whose numbers, names and order count: not texts of translations, words to use, or whose unit is whose. */
const looked: ReadonlySet<FileKind> = new Set([
  'procedure',
  'machine',
  'header',
  'instruments',
  'states',
  'safety',
  'crops',
] as const);

/** Every slip of a book that was read whole, by file and place. */
export function findSlips(sources: ReadonlyMap<string, SourceFile>, book: Book): readonly Slip[] {
  const files = [...sources.values()].sort((a, b) => compareText(a.path, b.path));
  return files.flatMap((file) => slipsIn(file, book));
}

function slipsIn(file: SourceFile, book: Book): readonly Slip[] {
  const { kind } = fileAt(file.path);
  if (kind === 'unknown' || !looked.has(kind)) return [];
  const { node } = openFile(file, kind, keepNothing);
  if (!node) return [];
  const finder: Finder = { file, kind, book, names: namesFor(book, node), slips: [] };
  visit(finder, { node, path: '' });
  if (kind === 'procedure') findOrder(finder, node);
  return finder.slips.sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end);
}

interface Finder {
  readonly file: SourceFile;
  readonly kind: FileKind;
  readonly book: Book;
  readonly names: NamesOfKind;
  readonly slips: Slip[];
}

/** A node, the keys that lead to it, and the map around it. */
interface Spot {
  readonly node: YamlNode;
  readonly path: string;
  readonly map?: YamlMap;
  readonly entry?: YamlEntry;
}

function visit(finder: Finder, spot: Spot): void {
  const { node, path } = spot;
  if (/(?:^|\/)waive$/.test(path)) return;
  if (hasConditions(finder.kind, path) && node.kind !== 'list') visitConditions(finder, spot);
  else if (node.kind === 'list') for (const item of node.items) visit(finder, { ...spot, node: item });
  else if (node.kind === 'scalar') visitScalar(finder, { ...spot, node });
  else visitMap(finder, { ...spot, node });
}

function visitMap(finder: Finder, { node, path }: Spot & { readonly node: YamlMap }): void {
  const isChoice = isChoiceAt(finder.kind, path) && !isHolder(node);
  for (const entry of node.entries) {
    const key = entry.key.text.value;
    if (isChoice) addRigKey(finder, entry.key, path);
    const under = isChoice ? path : [path, key].filter((part) => part !== '').join('/');
    visit(finder, { node: entry.value, path: under, map: node, entry });
  }
}

/** `{ value: …, label: … }` is a parameter with more to it, and no choice. */
function isHolder(map: YamlMap): boolean {
  return map.entries.some(({ key }) => ['value', 'label', 'source'].includes(key.text.value));
}

function visitScalar(finder: Finder, { node, path, map }: Spot & { readonly node: YamlScalar }): void {
  const role = roleAt(finder.kind, path);
  if (node.text.value === 'none' || node.text.value === 'all' || !role) return;
  if (role.is === 'number') addNumbers(finder, node, { path, subject: role.subject });
  else if (role.is === 'name') addNames(finder, node, { path, of: role.of });
  else addStateValues(finder, node, { path, state: stateBeside(path, map) });
}

function stateBeside(path: string, map: YamlMap | undefined): string {
  const state = map && entryOf(map, 'state')?.value;
  return state?.kind === 'scalar' ? state.text.value : (/^states\/([^/]+)/.exec(path)?.[1] ?? '');
}

function addNumbers(
  finder: Finder,
  { text }: YamlScalar,
  { path, subject }: { readonly path: string; readonly subject: Subject },
): void {
  for (const { kind, start, end, after } of numberSlips(text.value)) {
    const before = text.value.slice(start, end);
    if (before === after) continue;
    const whole = text.value.slice(0, start) + after + text.value.slice(end);
    const at = spanWithin(text, start, end);
    const pieces = replacing(finder.file, at, after);
    const shown = kind === 'exchanged-limits' ? { before: text.value, after: whole } : { before, after };
    finder.slips.push({ kind, subject, at, pieces, ...shown, path, text: { source: text, after: whole } });
  }
  for (const { 0: name, index } of text.value.matchAll(/[\p{L}_][\p{L}\p{Nd}_]*(?:\.[\p{L}\p{Nd}_]+)*/gu)) {
    const [other] = alike(name, namesLike(finder, name));
    if (other === undefined) continue;
    const at = spanWithin(text, index, index + name.length);
    add(finder, { kind: 'other-reference', subject, at, after: other, path });
  }
}

/** Parameters of the same holder, values of the same procedure: whatever may stand where `name` stands. */
function namesLike({ names, book, kind }: Finder, name: string): readonly string[] {
  const [start = '', ...rest] = name.split('.');
  const holders = start === 'machine' ? book.machines : start === 'header' ? book.headers : undefined;
  const parameters = (of: typeof holders): readonly string[] =>
    [...(of ?? new Map()).values()].flatMap((holder) => [...holder.parameters.keys()]);
  if (holders && rest.length > 0) return parameters(holders).map((id) => `${start}.${id}`);
  const own =
    kind === 'header' ? parameters(book.headers) : kind === 'machine' ? parameters(book.machines) : names('value');
  return own.includes(name) ? own : [];
}

function addNames(
  finder: Finder,
  { text, at }: YamlScalar,
  { path, of }: { readonly path: string; readonly of: NameKind },
): void {
  const name = text.value;
  if (of === 'instrument') {
    const quantity = finder.book.instruments.get(name)?.quantity.value;
    const others = [...finder.book.instruments.values()].filter((one) => one.quantity.value === quantity);
    for (const after of alike(
      name,
      others.map(({ id }) => id),
    ).slice(0, 2)) {
      add(finder, { kind: 'other-instrument', subject: 'name', at, after, path });
    }
    return;
  }
  const [after] = alike(name, finder.names(of));
  if (after !== undefined) add(finder, { kind: 'other-reference', subject: 'name', at, after, path });
}

function addStateValues(
  finder: Finder,
  { text, at, style }: YamlScalar,
  { path, state }: { readonly path: string; readonly state: string },
): void {
  const values = (finder.book.states.get(state)?.values ?? []).map(({ id }) => id.value);
  if (!values.includes(text.value)) {
    addNumbers(finder, { kind: 'scalar', text, at, style, core: null }, { path, subject: 'limits' });
    return;
  }
  for (const after of alike(text.value, values).slice(0, 2)) {
    add(finder, { kind: 'other-state-value', subject: 'condition', at, after, path });
  }
}

function addRigKey(finder: Finder, { text, at }: YamlScalar, path: string): void {
  const { names } = finder;
  const kind = (['machine', 'header', 'header-type', 'option'] as const).find((one) => names(one).includes(text.value));
  if (!kind) return;
  const misspelt = text.value.replace(/(.)(.)$/, '$2$1');
  const [other] = alike(text.value, names(kind));
  const written = [other, misspelt].filter((after) => after !== undefined && after !== text.value);
  for (const after of written) if (after) add(finder, { kind: 'wrong-rig-key', subject: 'name', at, after, path });
}

function add(finder: Finder, { after, at, ...rest }: Pick<Slip, 'kind' | 'subject' | 'at' | 'after' | 'path'>): void {
  const before = finder.file.text.slice(at.start, at.end);
  // `at` of a quoted text covers its words alone; a word that YAML would read otherwise stands in quotes anyway
  finder.slips.push({ ...rest, at, pieces: replacing(finder.file, at, after), before, after });
}

/** Conditions: states and their values, a bundle by its name; and each of them left out. */
function visitConditions(finder: Finder, { node, path, map, entry }: Spot): void {
  if (node.kind === 'scalar') {
    if (node.text.value !== 'none') addNames(finder, node, { path, of: 'bundle' });
    if (isNeed(path) && map && entry) addDropped(finder, map, { index: map.entries.indexOf(entry), path });
    return;
  }
  if (node.kind !== 'map') return;
  for (const [index, { key, value }] of node.entries.entries()) {
    addNames(finder, key, { path, of: 'state' });
    for (const one of value.kind === 'list' ? value.items : [value]) {
      if (one.kind === 'scalar') addStateValues(finder, one, { path, state: key.text.value });
    }
    if (isNeed(path)) {
      const around = map && entry ? { around: { ...entry, in: map } } : {};
      addDropped(finder, node, { index, path, ...around });
    }
  }
}

/** Whether conditions there are asked for, not brought about. */
function isNeed(path: string): boolean {
  return /(?:^|\/)(?:needs|must|moves-when)$|^conditions\//.test(path);
}

function addDropped(
  finder: Finder,
  map: YamlMap,
  {
    index,
    path,
    around,
  }: { readonly index: number; readonly path: string; readonly around?: YamlEntry & { readonly in: YamlMap } },
): void {
  const without = withoutEntry(finder.file, map, { index, ...(around ? { around } : {}) });
  if (!without) return;
  const before = finder.file.text.slice(without.at.start, without.at.end);
  finder.slips.push({ kind: 'dropped-need', subject: 'condition', ...without, before, after: '', path });
}

/** Steps left out or in each other's place, and conditions of the start left out. */
function findOrder(finder: Finder, top: YamlNode): void {
  const { file } = finder;
  const order = (kind: SlipKind, parts: Pick<Slip, 'at' | 'pieces' | 'before' | 'after' | 'path'>): void => {
    finder.slips.push({ kind, subject: 'order', ...parts });
  };
  const steps = entryOf(top, 'steps')?.value;
  for (const [index, step] of (steps?.kind === 'list' ? steps.items : []).entries()) {
    if (steps?.kind !== 'list') break;
    const own = linesOfItem(file, steps, index);
    if (!own) continue;
    const id = idOf(step);
    order('dropped-step', { at: step.at, pieces: leavingOut(file, own), before: id, after: '', path: 'steps' });
    const next = linesOfItem(file, steps, index + 1);
    const following = steps.items[index + 1];
    if (!next || !following) continue;
    const other = idOf(following);
    const pieces = swapping(file, own, next);
    order('swapped-steps', { at: step.at, pieces, before: `${id}, ${other}`, after: `${other}, ${id}`, path: 'steps' });
  }
  const requires = entryOf(top, 'requires')?.value;
  for (const [index, one] of (requires?.kind === 'list' ? requires.items : []).entries()) {
    const own = requires?.kind === 'list' ? linesOfItem(file, requires, index) : undefined;
    const state = entryOf(one, 'state')?.value;
    if (!own || state?.kind !== 'scalar') continue;
    const before = state.text.value;
    order('dropped-requirement', { at: one.at, pieces: leavingOut(file, own), before, after: '', path: 'requires' });
  }
}
