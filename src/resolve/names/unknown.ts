// Reports names that name nothing, with the nearest that do.

import { askWhetherMeant, nearestNames } from '../../diagnostic/nearest.js';
import type { ResolveCode } from '../../diagnostic/resolving-codes.js';
import type { Book } from '../../model/book.js';
import type { Located } from '../../text/source.js';
import { joinNames, type Report } from '../faults.js';

interface Kind {
  readonly code: ResolveCode;
  readonly noun: string;
  /** Where such names are declared: one sentence. Missing where it goes without saying. */
  readonly where?: string;
  /** What to do, where the names that there are do not help. */
  readonly mend?: string;
}

/** What a kind of name is called, and where such names are declared. */
const kinds = {
  adjuster: {
    code: 'unknown-adjuster',
    noun: 'adjuster',
    where: 'Adjusters are declared under `adjusters` of the same procedure.',
  },
  bundle: {
    code: 'unknown-conditions',
    noun: 'bundle of conditions',
    where: 'Bundles are declared under `conditions` in safety.yaml.',
  },
  event: { code: 'unknown-event', noun: 'event', where: 'Events are declared under `events` in states.yaml.' },
  figure: {
    code: 'unknown-figure',
    noun: 'figure',
    where: 'Figures are files of the book below `figures/`, and are named with that folder.',
    mend: 'Put the picture there under this name, or write the name that it has.',
  },
  hazard: { code: 'unknown-hazard', noun: 'hazard', where: 'Hazards are declared under `hazards` in safety.yaml.' },
  header: {
    code: 'unknown-header',
    noun: 'header',
    where: 'Each header is a file in `headers/`; its id is the name of the file without the ending.',
  },
  instrument: {
    code: 'unknown-instrument',
    noun: 'instrument',
    where: 'Instruments are declared in instruments.yaml.',
  },
  job: {
    code: 'unknown-job',
    noun: 'job',
    where: 'The site is laid out by the `jobs` of book.yaml: this procedure would stand under none of them.',
    mend: 'Move the file to the folder of a job, or declare the folder under `jobs` in book.yaml.',
  },
  machine: {
    code: 'unknown-machine',
    noun: 'machine',
    where: 'Each machine is a file in `machines/`; its id is the name of the file without the ending.',
  },
  option: {
    code: 'unknown-option',
    noun: 'option',
    where: 'Options are declared under `options` in the file of each machine that may have them.',
  },
  place: {
    code: 'unknown-place',
    noun: 'place',
    where: 'The places are the values of the state `person` in states.yaml.',
  },
  procedure: {
    code: 'unknown-procedure',
    noun: 'procedure',
    where: 'The id of a procedure is the name of its file without `.md`.',
    mend: 'Write the id of a procedure, or add the file.',
  },
  quantity: {
    code: 'unknown-quantity',
    noun: 'quantity',
    mend: 'Write the name of a quantity, such as `voltage`, `length`, `pressure`, `temperature` or `rotational-speed`.',
  },
  reading: {
    code: 'unknown-value',
    noun: 'value or worksheet',
    where: 'These are declared under `values` and `worksheets` of the same procedure.',
  },
  software: {
    code: 'unknown-software',
    noun: 'software version',
    where: 'Versions are listed under `software` in the file of a machine.',
  },
  state: { code: 'unknown-state', noun: 'state', where: 'States are declared under `states` in states.yaml.' },
  'state-value': { code: 'unknown-state-value', noun: 'value' },
  step: {
    code: 'unknown-step',
    noun: 'step',
    mend: 'Write the id of a step of this procedure, or one of the ends `done`, `stop` or `call-service`; or, if the step was lost, put it back.',
  },
  tool: { code: 'unknown-tool', noun: 'tool', where: 'Tools are declared in tools.yaml.' },
  unit: {
    code: 'unknown-unit',
    noun: 'unit',
    mend: 'Write the symbol of a unit, as in `V`, `in`, `rpm` or `bu/ac`.',
  },
  value: { code: 'unknown-value', noun: 'value', where: 'Values are declared under `values` of the same procedure.' },
  worksheet: {
    code: 'unknown-value',
    noun: 'worksheet',
    where: 'Worksheets are declared under `worksheets` of the same procedure.',
  },
} as const satisfies Readonly<Record<string, Kind>>;

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
  const { code, noun, where, mend }: Kind = kinds[use.kind];
  const plain = use.name.value.replaceAll(/^[“”„‟«»‘’]+|[“”„‟«»‘’]+$/gu, '');
  const near = use.near ?? (known.has(plain) ? [plain] : nearestNames(use.name.value, known));
  report({
    code,
    message:
      use.message ??
      `No ${noun} is called \`${use.name.value}\`${known.size === 0 && noun === 'state' ? ': the book has no states' : ''}`,
    at: use.name.at,
    help:
      (plain === near[0] && plain !== use.name.value ? plainQuotes(plain) : undefined) ??
      askWhetherMeant(near) ??
      severalIn(use.name.value, known) ??
      mend ??
      adviseOn(use.name.value, known, kinds[use.kind]),
    ...(where === undefined ? {} : { note: where }),
    ...fixFor(use.name, near),
  });
  return false;
}

function plainQuotes(name: string): string {
  return `Write \`"${name}"\`, with the plain quotes of the keyboard: typographic ones are taken for letters.`;
}

/** `raised, travel`, or `raised and travel`, where each of them is a name. */
function severalIn(written: string, known: ReadonlySet<string>): string | undefined {
  const names = written.split(/\s*(?:,|;|\band\b)\s*/);
  if (names.length < 2 || !names.every((name) => known.has(name))) return undefined;
  return `Several names are a list: write \`[${names.join(', ')}]\`.`;
}

function adviseOn(name: string, known: ReadonlySet<string>, { noun, where }: Kind): string {
  if (known.size === 0 && noun === 'state') {
    return `If \`states.yaml\` is missing, put it back; else declare there what \`${name}\` and the other states can be.`;
  }
  if (known.size === 0 || known.size > 8) {
    return `Declare \`${name}\`, or write ${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun} that is declared.`;
  }
  const orDeclare = where === undefined ? '' : `, or declare \`${name}\``;
  return `Write ${known.size < 3 ? '' : 'one of '}${joinNames([...known], 'or')}${orDeclare}.`;
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
