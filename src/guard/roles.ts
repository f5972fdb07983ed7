// What each text of a book's files is, by where it stands: a number, a condition, or the name of something. Texts for
// people, dates, serials and versions are nothing to a slip.

import type { FileKind } from '../read/schemas.js';
import type { Subject } from './slip.js';

/** What a name may name. */
export type NameKind =
  | 'machine'
  | 'header'
  | 'header-type'
  | 'option'
  | 'tool'
  | 'hazard'
  | 'state'
  | 'event'
  | 'instrument'
  | 'place'
  | 'procedure'
  | 'quantity'
  | 'value'
  | 'adjuster'
  | 'step'
  | 'bundle';

export type Role =
  | { readonly is: 'number'; readonly subject: Subject }
  | { readonly is: 'name'; readonly of: NameKind }
  /** The value of a state; which one stands in `state` beside it, or in the key of a map. */
  | { readonly is: 'state-value' };

const number = (subject: Subject): Role => ({ is: 'number', subject });
const name = (of: NameKind): Role => ({ is: 'name', of });

const applies = /(?:^|\/)(?:applies|only)(?:\/not)*/.source;

/** Conditions: a map from states to values, or the name of a bundle. */
const conditions: Readonly<Partial<Record<FileKind, RegExp>>> = {
  procedure: /(?:^|\/)(?:sets|needs|means|leaves(?:\/(?:done|stop|call-service))?)$/,
  instruments: /^[^/]+\/needs$/,
  states: /^(?:states\/[^/]+\/moves-when|physics\/(?:when|then))$/,
  safety: /^(?:conditions\/[^/]+|rules\/(?:when|must)|ends\/[^/]+\/must)$/,
};

type Table = readonly (readonly [RegExp, Role])[];

const ofHolder: Table = [
  [/^parameters\/[^/]+(?:\/value)?$/, number('parameter')],
  [/^agree\/(?:that|equals)$/, number('expression')],
  [/^agree\/within$/, number('number')],
  [/^headers$/, name('header')],
  [/^type$/, name('header-type')],
];

const tables: Readonly<Partial<Record<FileKind, Table>>> = {
  machine: ofHolder,
  header: ofHolder,
  crops: [[/^[^/]+\/(?:mass|base-moisture)$/, number('parameter')]],
  instruments: [
    [/^[^/]+\/(?:range|resolution|counts|accuracy)$/, number('number')],
    [/^[^/]+\/quantity$/, name('quantity')],
    [/^[^/]+\/read-at$/, name('place')],
  ],
  states: [[/^states\/[^/]+\/(?:start|safe)$/, { is: 'state-value' }]],
  safety: [
    [/^rules\/hazard$/, name('hazard')],
    [/^rules\/unchanged$/, name('state')],
    [/^ends\/[^/]+\/run$/, name('procedure')],
  ],
  procedure: [
    [/^values\/[^/]+\/(?:limits|nominal)$/, number('limits')],
    [/^values\/[^/]+\/inside$/, number('number')],
    [/^values\/[^/]+\/from$/, number('expression')],
    [/^values\/[^/]+\/quantity$/, name('quantity')],
    [/\/read-with$/, name('instrument')],
    [/\/read-at$/, name('place')],
    [/^adjusters\/[^/]+\/(?:range|smallest|moves\/[^/]+)$/, number('number')],
    [/^adjusters\/[^/]+\/watch$/, name('value')],
    [/^worksheets\/[^/]+\/rows$/, number('number')],
    [/^worksheets\/[^/]+\/(?:columns|results)\/[^/]+\/limits$/, number('limits')],
    [/^worksheets\/[^/]+\/(?:columns|results)\/[^/]+\/from$/, number('expression')],
    [/^steps\/(?:hold|wait)$/, number('limits')],
    [/^(?:time(?:\/(?:hands-on|waiting|total))?|due|people|steps\/by)$/, number('number')],
    [/\/at-most$/, number('number')],
    [/^requires\/state$/, name('state')],
    [/^requires\/is$/, { is: 'state-value' }],
    [/^gives$/, name('state')],
    [/^voided-by$/, name('event')],
    [/^tools$/, name('tool')],
    [/^hazards$|^steps\/hazard$/, name('hazard')],
    [/^verified\/machine$/, name('machine')],
    [/^steps\/at$/, name('place')],
    [/^steps\/run$/, name('procedure')],
    [/^steps\/(?:measure|write|stale)$/, name('value')],
    [/^steps\/adjust$/, name('adjuster')],
    [/^any-order$/, name('step')],
    [/^steps\/(?:then|otherwise|when\/[^/]+|answers\/[^/]+)(?:\/(?:go|else))*$/, name('step')],
    [new RegExp(`${applies}/machine$`), name('machine')],
    [new RegExp(`${applies}/header$`), name('header')],
    [new RegExp(`${applies}/header/type$`), name('header-type')],
    [new RegExp(`${applies}/option$`), name('option')],
  ],
};

/** What a text at `path` is: the keys that lead to it, joined by `/`, without the places in lists and the keys of choices. */
export function roleAt(kind: FileKind, path: string): Role | undefined {
  return tables[kind]?.find(([shape]) => shape.test(path))?.[1];
}

/** Whether conditions stand at `path`. */
export function hasConditions(kind: FileKind, path: string): boolean {
  return conditions[kind]?.test(path) === true;
}

/** Whether a map at `path` is a choice by rig, whose keys are machines, headers, options or versions. */
export function isChoiceAt(kind: FileKind, path: string): boolean {
  const role = roleAt(kind, path);
  if (kind === 'machine' || kind === 'header') return role?.is === 'number';
  if (role?.is === 'number') return !/^(?:time|due|people)$/.test(path);
  return role?.is === 'name' && (role.of === 'instrument' || role.of === 'place');
}
