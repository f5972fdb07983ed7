// Hazards, physics and pictures of two books: what has no key that facts could be told apart by, or differs by rig.

import type { Change, Subject } from '../model/comparison.js';
import type { CompiledBook, PlainHazard } from '../model/compiled-book.js';
import type { Rig } from '../model/resolved.js';
import type { RigMachines } from '../model/rig-lists.js';
import type { Words } from '../model/text.js';
import type { BookSense } from './condition-facts.js';
import { tidied } from './fact-sheet.js';
import { writeRigs } from './rig-notation.js';
import { conditionsKey, plain, sayConditions, ui, words } from './said.js';

/** What changed in the hazards: each is a caution on pages and cards. */
export function compareHazards(
  before: CompiledBook,
  after: CompiledBook,
  { machines, first }: { readonly machines: RigMachines; readonly first: string },
): readonly Change[] {
  const [old, now] = [byId(before.hazards), byId(after.hazards)];
  const ids = [...new Set([...now.keys(), ...old.keys()])].sort();
  const rigs = homesOf(before, after);
  return ids.flatMap((id) => {
    const [was, is] = [old.get(id), now.get(id)];
    if (!was || !is) return [itself(was, is)];
    return [...severity(was, is), ...texts(was, is, { rigs, machines, first })];
  });
}

function byId(hazards: readonly PlainHazard[]): ReadonlyMap<string, PlainHazard> {
  return new Map(hazards.map((hazard) => [hazard.id, hazard]));
}

function subjectOf({ id, texts: [text] }: PlainHazard): Subject {
  return { kind: 'hazard', id, ...(text && { label: words(text.what) }) };
}

function itself(was: PlainHazard | undefined, is: PlainHazard | undefined): Change {
  const hazard = is ?? was;
  const text = hazard?.texts[0];
  const said = text && ui('caution', { what: words(text.what), harm: words(text.harm), avoid: words(text.avoid) });
  return {
    about: 'itself',
    how: is ? 'added' : 'dropped',
    weight: 'safety',
    ...(hazard && { subject: subjectOf(hazard) }),
    rigs: [],
    ...(said && { [is ? 'after' : 'before']: said }),
  };
}

function severity(was: PlainHazard, is: PlainHazard): readonly Change[] {
  if (was.severity === is.severity) return [];
  const said = { before: ui(was.severity), after: ui(is.severity) };
  return [{ about: 'severity', how: 'changed', weight: 'safety', subject: subjectOf(is), rigs: [], ...said }];
}

interface Where {
  readonly rigs: readonly Rig[];
  readonly machines: RigMachines;
  readonly first: string;
}

function texts(was: PlainHazard, is: PlainHazard, { rigs, machines, first }: Where): readonly Change[] {
  return (['what', 'harm', 'avoid'] as const).flatMap((part) => {
    const found = new Map<string, { readonly change: Change; readonly wanted: Set<Rig> }>();
    for (const rig of rigs) {
      const [old, now] = [textFor(was, rig)?.[part], textFor(is, rig)?.[part]];
      if (!old || !now) continue;
      const languages = differing(old, now);
      if (languages.length === 0) continue;
      const change: Change = {
        about: part,
        how: 'changed',
        weight: 'safety',
        subject: subjectOf(is),
        rigs: [],
        before: words(old),
        after: words(now),
        ...(!languages.includes(first) && { languages }),
      };
      const key = JSON.stringify([tidied(old), tidied(now)]);
      const entry = found.get(key) ?? { change, wanted: new Set() };
      entry.wanted.add(rig);
      found.set(key, entry);
    }
    return [...found.values()].map(({ change, wanted }) => ({ ...change, rigs: writeRigs(wanted, rigs, machines) }));
  });
}

function textFor({ texts: all }: PlainHazard, { machine, header }: Rig): PlainHazard['texts'][number] | undefined {
  return all.find((text) => text.machine === undefined || (text.machine === machine && text.header === header));
}

function differing(old: Words, now: Words): readonly string[] {
  const [before, after] = [tidied(old), tidied(now)];
  return [...new Set([...Object.keys(before), ...Object.keys(after)])]
    .sort()
    .filter((language) => before[language] !== after[language]);
}

/** Every machine with each header, of both books. */
function homesOf(...books: readonly CompiledBook[]): readonly Rig[] {
  const pairs = books.flatMap(({ machines }) =>
    machines.flatMap(({ id, headers }) => headers.map((header) => `${id} ${header}`)),
  );
  return [...new Set(pairs)].sort().map((pair) => {
    const [machine = '', header = ''] = pair.split(' ');
    return { machine, header, options: new Map(), software: new Map() };
  });
}

type Follows = CompiledBook['physics'][number];

/** What follows from what: one whose other half stayed is changed, not new. */
export function comparePhysics(
  before: { readonly book: CompiledBook; readonly sense: BookSense },
  after: { readonly book: CompiledBook; readonly sense: BookSense },
): readonly Change[] {
  const keyOf = ({ when, then }: Follows): string => `${conditionsKey(when)} -> ${conditionsKey(then)}`;
  const sorted = (all: readonly Follows[]): readonly Follows[] =>
    [...all].sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : keyOf(a) > keyOf(b) ? 1 : 0));
  const [oldKeys, nowKeys] = [before.book.physics.map(keyOf), after.book.physics.map(keyOf)];
  const old = [...sorted(before.book.physics.filter((one) => !nowKeys.includes(keyOf(one))))];
  const now = sorted(after.book.physics.filter((one) => !oldKeys.includes(keyOf(one))));
  const say = ({ when, then }: Follows, { states }: BookSense) =>
    ui('follows', { when: sayConditions(when, states), then: sayConditions(then, states) });
  const changes: Change[] = [];
  const head = { about: 'itself', weight: 'safety' as const, rigs: [] };
  for (const follows of now) {
    const half =
      old.find(({ when }) => conditionsKey(when) === conditionsKey(follows.when)) ??
      old.find(({ then }) => conditionsKey(then) === conditionsKey(follows.then));
    const subject: Subject = { kind: 'physics', id: keyOf(follows) };
    const said = { after: say(follows, after.sense) };
    if (!half) changes.push({ ...head, how: 'added', subject, ...said });
    else {
      old.splice(old.indexOf(half), 1);
      changes.push({ ...head, how: 'changed', subject, before: say(half, before.sense), ...said });
    }
  }
  for (const follows of old) {
    const subject: Subject = { kind: 'physics', id: keyOf(follows) };
    changes.push({ ...head, how: 'dropped', subject, before: say(follows, before.sense) });
  }
  return changes;
}

/** Pictures of one name that show something else. One that came or went is told where it is used. */
export function comparePictures(before: CompiledBook, after: CompiledBook): readonly Change[] {
  return Object.entries(after.figures)
    .filter(([file, digest]) => before.figures[file] !== undefined && before.figures[file] !== digest)
    .map(([file]) => file)
    .sort()
    .map((file) => ({ about: 'picture', how: 'changed', weight: 'technical', rigs: [], after: plain(file) }));
}
