// The faults that working out a book can meet: how the same fault in many rigs becomes one diagnostic.

import { byPlace, type Diagnostic, diagnose } from '../diagnostic/diagnostic.js';
import { type ResolveCode, resolveCodes } from '../diagnostic/resolving-codes.js';
import { rigLabel } from '../model/rig.js';
import { completeRigs, type PartialRig } from './facets.js';

/**
 * A fault as it was met for one rig. `{about}` in the message stands for `about`: the same fault that several rigs meet
 * with different parts of them is then one diagnostic that names these parts.
 */
export interface Fault
  extends Pick<Diagnostic, 'message' | 'at'>,
    Partial<Pick<Diagnostic, 'help' | 'note' | 'fixes' | 'related'>> {
  readonly code: ResolveCode;
  readonly about?: string;
}

export type Report = (fault: Fault) => void;

/** Faults that a part which could not be read may itself be the reason of. */
const needsWhole: ReadonlySet<ResolveCode> = new Set([
  'choice-not-covered',
  'value-without-unit',
  'placeholder-without-value',
]);

/** What one exploration met. A fault in one of `files` that all of its leaves have is reported without rigs. */
export interface FaultRun {
  readonly files: ReadonlySet<string>;
  readonly leaves: readonly { readonly rig: PartialRig; readonly faults: readonly Fault[] }[];
}

interface Gathered {
  readonly fault: Fault;
  readonly about: Set<string>;
  readonly related: Map<string, { readonly message: string; readonly at: Diagnostic['at'] }>;
  readonly rigs: Set<PartialRig>;
  concernsAll: boolean;
}

/**
 * The same fault met by several rigs is one diagnostic with all of them. In a file that is not read whole, what may follow
 * from that is left out.
 */
export function gatherFaults(unread: ReadonlySet<string>, runs: readonly FaultRun[]): readonly Diagnostic[] {
  const gathered = new Map<string, Gathered>();
  for (const run of runs) {
    const leavesOf = new Map<Gathered, number>();
    for (const { rig, faults } of run.leaves) {
      for (const entry of new Set(faults.map((fault) => gather(gathered, fault)))) {
        entry.rigs.add(rig);
        leavesOf.set(entry, (leavesOf.get(entry) ?? 0) + 1);
      }
    }
    for (const [entry, count] of leavesOf) {
      if (count === run.leaves.length && run.files.has(entry.fault.at.file)) entry.concernsAll = true;
    }
  }
  const shown = [...gathered.values()].filter(({ fault }) => !needsWhole.has(fault.code) || !unread.has(fault.at.file));
  return shown.map((entry) => describe(entry)).sort(byPlace);
}

function gather(gathered: Map<string, Gathered>, fault: Fault): Gathered {
  const { file, start, end } = fault.at;
  const key = [fault.code, file, start, end, fault.message].join('\0');
  const entry = gathered.get(key) ?? {
    fault,
    about: new Set<string>(),
    related: new Map(),
    rigs: new Set<PartialRig>(),
    concernsAll: false,
  };
  gathered.set(key, entry);
  if (fault.about !== undefined) entry.about.add(fault.about);
  for (const place of fault.related ?? []) entry.related.set(JSON.stringify(place), place);
  return entry;
}

function describe({ fault, about, related, rigs, concernsAll }: Gathered): Diagnostic {
  const { about: _, message, ...rest } = fault;
  const labels = concernsAll ? [] : [...rigs].flatMap((rig) => completeRigs(rig)).map(rigLabel);
  return diagnose({
    ...rest,
    severity: resolveCodes[fault.code],
    message: message.replace('{about}', joinNames([...about].sort(), 'and')),
    related: [...related.values()],
    rigs: [...new Set(labels)].sort(),
  });
}

/** `\`a\`, \`b\` and \`c\``. */
export function joinNames(names: readonly string[], word: 'and' | 'or'): string {
  const quoted = names.map((name) => `\`${name}\``);
  if (quoted.length < 2) return quoted.join('');
  return `${quoted.slice(0, -1).join(', ')} ${word} ${quoted.at(-1)}`;
}
