// A procedure's file, with its translations, into the model.

import type { Conditions } from '../../model/conditions.js';
import type { Due, Duration, Procedure, Requirement, Verification } from '../../model/procedure.js';
import type { SourceFile, Span } from '../../text/source.js';
import { entryWith } from '../schema-places.js';
import type { YamlNode } from '../tree.js';
import { appliesBehind } from './applies.js';
import { conditionsBehind, conditionsOf, stateTest } from './conditions.js';
import { dateBehind } from './dates.js';
import { forEachOf } from './for-each.js';
import { checkTwice, endNames } from './names.js';
import { numberChoice, numbersBehind } from './numbers.js';
import {
  childOf,
  countBehind,
  idBehind,
  idsBehind,
  isNone,
  isSetBehind,
  itemsOf,
  located,
  type Part,
  wordBehind,
  wordsBehind,
} from './part.js';
import { type ProsePart, proseOf } from './prose.js';
import { filled, type Reading, report } from './reading.js';
import { findRenamed, type Repeating, repeatedEntries, repeatedSteps, type StepPart } from './repeat.js';
import { stepOf } from './steps.js';
import { textBehind, textOf } from './texts.js';
import { adjusterOf, checkValueOf, worksheetOf } from './values.js';
import { waiversOf } from './waivers.js';

/** What a procedure is read from: the tree of its typed part, its prose, and the same of each translation. */
export interface ProcedureSource {
  readonly id: string;
  readonly file: SourceFile;
  readonly part: Part;
  readonly prose: ReadonlyMap<string, ProsePart>;
  readonly translations: Procedure['translations'];
}

const kinds = ['setup', 'calibration', 'adjustment', 'inspection', 'fault-finding'] as const;
const statuses = ['draft', 'released', 'withdrawn'] as const;

/** The procedure; missing where something is missing that no page can do without, which was reported. */
export function procedureOf(reading: Reading, source: ProcedureSource): Procedure | undefined {
  const { part, file } = source;
  const at = part.node.at;
  const required = requiredOf(reading, part);
  const steps = stepsOf(reading, part);
  const prose = proseOf(reading, source.prose, steps.parts);
  const rest = {
    id: source.id,
    file: file.path,
    folder: file.path.includes('/') ? file.path.slice(0, file.path.lastIndexOf('/')) : '',
    reviewed: reviewedOf(reading, childOf(reading, part, 'reviewed')),
    verified: verifiedOf(reading, part),
    skill: wordBehind(reading, { part, key: 'skill' }, ['operator', 'technician']) ?? {
      value: 'operator' as const,
      at,
    },
    people: countBehind(reading, part, 'people') ?? { value: 1, at },
    time: timeOf(reading, childOf(reading, part, 'time')),
    tools: idsBehind(reading, part, 'tools'),
    supplies: suppliesOf(reading, childOf(reading, part, 'supplies')),
    hazards: idsBehind(reading, part, 'hazards'),
    gives: idsBehind(reading, part, 'gives')[0],
    voidedBy: idsBehind(reading, part, 'voided-by'),
    due: dueOf(idBehind(reading, part, 'due')),
    requires: requirementsOf(reading, childOf(reading, part, 'requires')),
    ...steps.made,
    leaves: leavesOf(reading, childOf(reading, part, 'leaves')),
    waivers: [
      ...waiversOf(part.node, wholeFile(file)),
      ...[...part.words.values()].flatMap((node) => waiversOf(node, node.at)),
    ],
    prose,
    translations: source.translations,
    at,
  };
  return required && filled({ ...required, ...rest });
}

function wholeFile(file: SourceFile): Span {
  return { file: file.path, start: 0, end: file.text.length };
}

function requiredOf(
  reading: Reading,
  part: Part,
): Pick<Procedure, 'title' | 'summary' | 'kind' | 'revision' | 'status' | 'applies'> | undefined {
  const title = textBehind(reading, part, 'title');
  const summary = textBehind(reading, part, 'summary');
  const kind = wordBehind(reading, { part, key: 'kind' }, kinds);
  const revision = countBehind(reading, part, 'revision');
  const status = wordBehind(reading, { part, key: 'status' }, statuses);
  const applies = appliesBehind(reading, part, 'applies');
  if (!title || !summary || !kind || !revision || !status || !applies) return undefined;
  return { title, summary, kind, revision, status, applies };
}

type Made = Pick<Procedure, 'values' | 'adjusters' | 'worksheets' | 'steps' | 'anyOrder'> &
  Partial<Pick<Procedure, 'forEach'>>;

function stepsOf(reading: Reading, part: Part): { readonly made: Made; readonly parts: readonly StepPart[] } {
  const forEach = forEachOf(reading, part);
  const repeating: Repeating = { reading, forEach, renamed: findRenamed(reading, part, forEach) };
  const entries = (key: string) => repeatedEntries(repeating, childOf(reading, part, key));
  const values = entries('values').map((entry) => checkValueOf(reading, entry));
  const adjusters = entries('adjusters').flatMap((entry) => adjusterOf(reading, entry) ?? []);
  const worksheets = entries('worksheets').flatMap((entry) => worksheetOf(reading, entry) ?? []);
  const parts = repeatedSteps(repeating, part);
  const steps = parts.flatMap(({ part: step, repeated }) => stepOf(reading, step, repeated) ?? []);
  const named = [...values, ...worksheets].map(({ id, idAt }) => ({ value: id, at: idAt }));
  checkTwice(reading, named, 'values or worksheets');
  checkTwice(
    reading,
    adjusters.map(({ id, idAt }) => ({ value: id, at: idAt })),
    'adjusters',
  );
  checkTwice(
    reading,
    steps.map(({ id }) => id),
    'steps',
  );
  const anyOrder = anyOrderOf(reading, part, parts);
  return { made: filled({ values, adjusters, worksheets, steps, anyOrder, forEach }), parts };
}

/** Groups of steps in any order; a repeated step stands for all its copies. */
function anyOrderOf(reading: Reading, part: Part, steps: readonly StepPart[]): Procedure['anyOrder'] {
  const list = childOf(reading, part, 'any-order')?.node;
  const items = list?.kind === 'list' ? list.items : [];
  const isOneGroup = items.every(({ kind }) => kind === 'scalar');
  const groups = isOneGroup ? [items] : items.map((item) => (item.kind === 'list' ? item.items : [item]));
  return groups.map((group) => group.flatMap((node) => copiesOf(node, steps))).filter((group) => group.length > 0);
}

function copiesOf(node: YamlNode, steps: readonly StepPart[]): Procedure['anyOrder'][number] {
  const id = located(node);
  if (!id) return [];
  const copies = steps.filter(({ written, repeated }) => repeated && written === id.value);
  if (copies.length === 0) return [id];
  return copies.flatMap(({ part }) => {
    const own = part.node.kind === 'map' ? located(entryWith(part.node, 'id')?.value) : undefined;
    return own ? [{ value: own.value, at: id.at }] : [];
  });
}

function reviewedOf(reading: Reading, part: Part | undefined): Procedure['reviewed'] {
  if (!part) return undefined;
  return filled({
    on: dateBehind(reading, part, 'on'),
    by: idBehind(reading, part, 'by'),
    next: dateBehind(reading, part, 'next'),
    at: part.node.at,
  });
}

function verifiedOf(reading: Reading, procedure: Part): readonly Verification[] {
  const part = childOf(reading, procedure, 'verified');
  return itemsOf(part).flatMap((node) => {
    const entry: Part = { node, words: new Map() };
    const machine = idBehind(reading, entry, 'machine');
    const how = wordBehind(reading, { part: entry, key: 'how' }, ['desk', 'on-machine', 'both']);
    const by = idBehind(reading, entry, 'by');
    const on = dateBehind(reading, entry, 'on');
    const content = idBehind(reading, entry, 'content');
    return machine && how && by && on ? [filled({ machine, how, by, on, content })] : [];
  });
}

const timeKeys = ['hands-on', 'waiting', 'total'];

function timeOf(reading: Reading, part: Part | undefined): Duration | undefined {
  if (!part) return undefined;
  const { node } = part;
  const { at } = node;
  const isMap = node.kind === 'map' && timeKeys.some((key) => entryWith(node, key) !== undefined);
  if (!isMap) return filled({ total: numberChoice(reading, node), at });
  return filled({
    total: numbersBehind(reading, part, 'total'),
    handsOn: numbersBehind(reading, part, 'hands-on'),
    waiting: numbersBehind(reading, part, 'waiting'),
    at,
  });
}

function suppliesOf(reading: Reading, part: Part | undefined): Procedure['supplies'] {
  if (!part || isNone(part)) return [];
  const lists = [...part.words].map(([language, node]) => [language, itemsOf({ node, words: new Map() })] as const);
  const own = itemsOf(part);
  for (const [, items] of lists) {
    for (const { at } of items.slice(own.length)) {
      const message = `The original has ${own.length === 1 ? 'one text' : `${own.length} texts`} here, and this is one more`;
      report(reading, {
        code: 'extra-translation',
        message,
        at,
        help: 'If the original has lost it, put it back there; or take it out here.',
      });
    }
  }
  return own.flatMap((node, index) => {
    const words = lists.flatMap(([language, items]) => {
      const item = items[index];
      return item ? [[language, item] as const] : [];
    });
    return textOf(reading, { node, words: new Map(words) }) ?? [];
  });
}

function dueOf(text: ReturnType<typeof located>): Due | undefined {
  const found = text && /^every (?:season|(\d+) ?(h|ac|months?))$/.exec(text.value);
  if (!text || !found) return undefined;
  const { at } = text;
  const [, count, unit] = found;
  if (count === undefined) return { kind: 'season', at };
  return { kind: 'every', count: Number(count), unit: unit === 'h' || unit === 'ac' ? unit : 'months', at };
}

function requirementsOf(reading: Reading, part: Part | undefined): readonly Requirement[] {
  if (!part || isNone(part)) return [];
  return itemsOf(part).flatMap((node) => {
    const name = node.kind === 'map' ? located(entryWith(node, 'state')?.value) : undefined;
    const words = name ? wordsBehind(reading, part.words, name.value) : new Map<string, YamlNode>();
    return requirementOf(reading, { node, words }) ?? [];
  });
}

function requirementOf(reading: Reading, part: Part): Requirement | undefined {
  const state = idBehind(reading, part, 'state');
  const is = childOf(reading, part, 'is');
  const test = state && is && stateTest(reading, { state, node: is.node, isEffect: false });
  const rest = {
    throughout: isSetBehind(reading, part, 'throughout'),
    shownBy: textBehind(reading, part, 'shown-by'),
    ifMissed: textBehind(reading, part, 'if-missed'),
    only: appliesBehind(reading, part, 'only'),
    at: part.node.at,
  };
  return state && test ? filled({ state, test, ...rest }) : undefined;
}

function leavesOf(reading: Reading, part: Part | undefined): Procedure['leaves'] {
  if (!part || isNone(part)) return new Map();
  const isByEnd =
    part.node.kind === 'map' && endNames.some((end) => part.node.kind === 'map' && entryWith(part.node, end));
  const byEnd: readonly (readonly [(typeof endNames)[number], Conditions | undefined])[] = isByEnd
    ? endNames.map((end) => [
        end,
        isNone(childOf(reading, part, end)) ? undefined : conditionsBehind(reading, part, end),
      ])
    : [['done', conditionsOf(reading, part)]];
  return new Map(byEnd.flatMap(([end, conditions]) => (conditions ? [[end, conditions] as const] : [])));
}
