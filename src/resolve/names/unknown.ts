// Reports names that name nothing, with the nearest that do.

import { askWhetherMeant, nearestNames } from '../../diagnostic/nearest.js';
import type { Book } from '../../model/book.js';
import type { Located } from '../../text/source.js';
import type { ResolveCode } from '../codes.js';
import { joinNames, type Report } from '../faults.js';

/** What a kind of name is called, and where such names are declared. */
const kinds = {
  adjuster: { code: 'unknown-adjuster', noun: 'adjuster', where: 'in `adjusters` of this procedure' },
  bundle: { code: 'unknown-conditions', noun: 'bundle of conditions', where: 'in `conditions` of safety.yaml' },
  event: { code: 'unknown-event', noun: 'event', where: 'in `events` of states.yaml' },
  figure: { code: 'unknown-figure', noun: 'figure', where: 'as a file of the book, below `figures/`' },
  hazard: { code: 'unknown-hazard', noun: 'hazard', where: 'in `hazards` of safety.yaml' },
  header: { code: 'unknown-header', noun: 'header', where: 'as a file in `headers/`' },
  instrument: { code: 'unknown-instrument', noun: 'instrument', where: 'in instruments.yaml' },
  job: { code: 'unknown-job', noun: 'job', where: 'in `jobs` of book.yaml' },
  machine: { code: 'unknown-machine', noun: 'machine', where: 'as a file in `machines/`' },
  option: { code: 'unknown-option', noun: 'option', where: 'in `options` of a machine' },
  place: { code: 'unknown-place', noun: 'place', where: 'in `is` of the state `person` in states.yaml' },
  procedure: { code: 'unknown-procedure', noun: 'procedure', where: 'as a file of the book' },
  quantity: { code: 'unknown-quantity', noun: 'quantity', where: undefined },
  reading: {
    code: 'unknown-value',
    noun: 'value or worksheet',
    where: 'in `values` or `worksheets` of this procedure',
  },
  software: { code: 'unknown-software', noun: 'software version', where: 'in `software` of a machine' },
  state: { code: 'unknown-state', noun: 'state', where: 'in `states` of states.yaml' },
  'state-value': { code: 'unknown-state-value', noun: 'value', where: undefined },
  step: { code: 'unknown-step', noun: 'step', where: 'in `steps` of this procedure' },
  tool: { code: 'unknown-tool', noun: 'tool', where: 'in tools.yaml' },
  unit: { code: 'unknown-unit', noun: 'unit', where: undefined },
  value: { code: 'unknown-value', noun: 'value', where: 'in `values` of this procedure' },
} as const satisfies Readonly<Record<string, { code: ResolveCode; noun: string; where: string | undefined }>>;

export type NameKind = keyof typeof kinds;

/** A name that may name nothing. */
export interface NameUse {
  readonly kind: NameKind;
  readonly name: Located<string>;
  /** The names that there are. */
  readonly known: ReadonlySet<string> | ReadonlyMap<string, unknown> | readonly string[];
  /** Instead of `No state is called …`. */
  readonly message?: string;
  /** Names that are meant, where something better is known than the spelling. */
  readonly near?: readonly string[];
}

/** Reports a name that is not among the known ones; gives whether it is. */
export function requireName(report: Report, use: NameUse): boolean {
  const declared = 'has' in use.known ? use.known : new Set(use.known);
  if (declared.has(use.name.value)) return true;
  const known = new Set(declared.keys());
  const { code, noun, where } = kinds[use.kind];
  const near = use.near ?? nearestNames(use.name.value, known);
  const article = /^[aeiou]/.test(noun) ? 'an' : 'a';
  report({
    code,
    message: use.message ?? `No ${noun} is called \`${use.name.value}\``,
    at: use.name.at,
    help:
      askWhetherMeant(near) ??
      listKnown(known, noun) ??
      (where === undefined
        ? `Write ${article} ${noun} that is known.`
        : `Write ${article} ${noun} that is declared ${where}.`),
    ...(where === undefined ? {} : { note: `Names of this kind are declared ${where}.` }),
    ...fixFor(use.name, near),
  });
  return false;
}

function listKnown(known: ReadonlySet<string>, noun: string): string | undefined {
  if (known.size === 0 || known.size > 8) return undefined;
  return `Write ${known.size === 1 ? `the ${noun}` : 'one of'} ${joinNames([...known], 'or')}.`;
}

/** The change to the one name that is near. */
export function fixFor(
  name: Located<string>,
  near: readonly string[],
): {
  readonly fixes?: readonly {
    title: string;
    safe: boolean;
    edits: readonly { at: Located<string>['at']; text: string }[];
  }[];
} {
  const [only, ...others] = near;
  if (only === undefined || others.length > 0) return {};
  const isQuoted = name.at.end - name.at.start === name.value.length + 2;
  return {
    fixes: [{ title: `Write \`${only}\``, safe: false, edits: [{ at: name.at, text: isQuoted ? `"${only}"` : only }] }],
  };
}

/** Whether a file of the book could not be read in which this name may be declared: nothing is said of it then. */
export function mayBeUnread(book: Book, kind: NameKind, name: string): boolean {
  if (book.unread.size === 0) return false;
  if (kind === 'machine' || kind === 'header') return book.unread.has(`${kind}s/${name}.yaml`);
  if (kind === 'procedure')
    return [...book.unread].some((file) => file === `${name}.md` || file.endsWith(`/${name}.md`));
  if (kind === 'option' || kind === 'software') return [...book.unread].some((file) => file.startsWith('machines/'));
  const files: Readonly<Partial<Record<NameKind, string>>> = {
    bundle: 'safety.yaml',
    event: 'states.yaml',
    hazard: 'safety.yaml',
    instrument: 'instruments.yaml',
    job: 'book.yaml',
    place: 'states.yaml',
    state: 'states.yaml',
    'state-value': 'states.yaml',
    tool: 'tools.yaml',
  };
  return book.unread.has(files[kind] ?? '');
}
