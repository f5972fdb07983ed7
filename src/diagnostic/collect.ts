// Diagnostics of all phases as one list: in order, each fault once, without what only follows from another.

import type { Span } from '../text/source.js';
import { byPlace, compareText, type Diagnostic } from './diagnostic.js';

/** Codes whose cause is one thing that a shared file lacks: said once, with the other places that miss it. */
const sharedCauses: ReadonlySet<string> = new Set([
  'missing-parameter',
  'missing-word',
  'unknown-job',
  'unknown-language',
]);

const translation = /\.[a-z]{2}\.md$/;

/**
 * Sorted by place. The same code at the same place is one fault: its rigs are joined. Where rigs say it with other
 * numbers, these words follow as related places.
 */
export function collectDiagnostics(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const collected: Diagnostic[] = [];
  const known = new Map<string, number>();
  for (const diagnostic of [...joinCauses(diagnostics)].sort(byPlace)) {
    const { code, severity, at, message, rigs } = diagnostic;
    const place = [code, severity, at.file, at.start, at.end].join('\n');
    const key = rigs.length > 0 ? place : `${place}\n${message}`;
    const index = known.get(key);
    const first = index === undefined ? undefined : collected[index];
    if (index === undefined || !first) {
      known.set(key, collected.length);
      collected.push(diagnostic);
    } else collected[index] = join(first, diagnostic);
  }
  return collected;
}

/** One diagnostic for what is missing in several places, at the first that is no translation. */
function joinCauses(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const shared = diagnostics.filter(({ code }) => sharedCauses.has(code)).sort(byPlace);
  const groups = new Map<string, Diagnostic[]>();
  for (const diagnostic of shared) {
    const key = [diagnostic.code, diagnostic.severity, diagnostic.message].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), diagnostic]);
  }
  const joined = [...groups.values()].flatMap((group) => {
    const main = group.find(({ at }) => !translation.test(at.file)) ?? group[0];
    if (!main) return [];
    const others = group.filter(({ at }) => at !== main.at).map(({ at }) => ({ message: 'the same here', at }));
    const rigs = group.every((one) => one.rigs.length > 0)
      ? [...new Set(group.flatMap((one) => one.rigs))].sort(compareText)
      : [];
    return [{ ...main, rigs, related: [...main.related, ...others] }];
  });
  return [...diagnostics.filter(({ code }) => !sharedCauses.has(code)), ...joined];
}

function join(first: Diagnostic, other: Diagnostic): Diagnostic {
  const rigs = [...new Set([...first.rigs, ...other.rigs])].sort(compareText);
  const all = first.rigs.length === 0 || other.rigs.length === 0;
  const joined: Diagnostic = { ...first, rigs: all ? [] : rigs };
  if (other.message === first.message) return joined;
  return {
    ...joined,
    related: [...first.related, { message: `${other.rigs.join(', ')}: ${other.message}`, at: other.at }],
  };
}

/**
 * Takes out of `later` what lies inside, or touches, a part that an error of `earlier` already covers (its place, and
 * what its fixes would change): a text that was misread is no second fault because its words are then wrong.
 */
export function withoutFollowUps(earlier: readonly Diagnostic[], later: readonly Diagnostic[]): readonly Diagnostic[] {
  const covered = new Map<string, Span[]>();
  for (const { severity, at, fixes } of earlier) {
    if (severity !== 'error') continue;
    const spans = [at, ...(fixes ?? []).flatMap((fix) => fix.edits.map((edit) => edit.at))];
    for (const span of spans) covered.set(span.file, [...(covered.get(span.file) ?? []), span]);
  }
  return later.filter(
    ({ at }) => !(covered.get(at.file) ?? []).some((span) => at.start >= span.start && at.end <= span.end),
  );
}
