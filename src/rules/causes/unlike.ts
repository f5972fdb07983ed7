// One word that is wrong breaks the order wherever it counts: it is told where it stands, and what it breaks stands beside it.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import { joinTo } from './followers.js';
import { orderFaults } from './order-codes.js';

/** What is said of an order that is broken. */
const ofOrder: ReadonlySet<string> = new Set([
  ...orderFaults,
  'back-into-step',
  'hazard-not-listed',
  'instrument-out-of-reach',
  'physics-contradicts',
  'requirement-lost',
  'start-impossible',
  'two-places-in-step',
  'wrong-place-at-run',
]);

/** What is said of readings that come too early or too late. */
const ofReadings: ReadonlySet<string> = new Set([
  'adjust-without-reading',
  'derived-from-stale',
  'stale-value-at-done',
]);

/** More places than these help nobody. */
const mostBeside = 6;

/** Joins what follows from a start, a safety rule, a requirement or an instrument that is unlike the procedures to that. */
export function joinUnlike(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const causes = diagnostics.filter(({ code }) => code in fits);
  if (causes.length === 0) return diagnostics;
  const joined = joinTo(diagnostics, (diagnostic) =>
    causes.find((one) => one !== diagnostic && fits[one.code]?.(one, diagnostic, book)),
  );
  return joined.map((one) => (one.code in fits ? shortened(one) : one));
}

/** With the first place of each file, and the number of the others. */
function shortened(diagnostic: Diagnostic): Diagnostic {
  const { related, note } = diagnostic;
  const firsts = related.filter(({ at }, i) => related.findIndex((one) => one.at.file === at.file) === i);
  const beside = firsts.slice(0, mostBeside);
  const more = related.length - beside.length;
  if (more === 0) return diagnostic;
  const others = `${more === 1 ? 'One more place is' : `${more} more places are`} wrong for the same reason.`;
  return { ...diagnostic, related: beside, note: note === undefined ? others : `${note} ${others}` };
}

type Fits = (cause: Diagnostic, of: Diagnostic, book: Book) => boolean;

const fits: Readonly<Record<string, Fits>> = {
  'start-unlike-procedures': ({ note = '' }, of, book) =>
    of.code === 'rule-unlike-procedures' || (ofOrder.has(of.code) && namesFile(note, of, book)),
  'rule-unlike-procedures': ({ message }, of, { rules }) => {
    const id = /`([^`]+)`/.exec(message)?.[1] ?? '';
    const hazard = rules.find((rule) => rule.id === id)?.hazard?.value;
    if (of.code === 'hazard-not-listed') return of.message.includes(`the hazard \`${hazard}\``);
    return /^(?:safety|unchanged)-rule-broken$/.test(of.code) && of.message.includes(`the safety rule \`${id}\``);
  },
  'requirement-unlike-steps': ({ message, note = '', at }, of, book) => {
    const [state = ''] = /^`[^`]+`/.exec(message) ?? [];
    if (of.code === 'same-sign-other-state')
      return [of, ...of.related].some((one) => one.at.start === at.start && one.at.file === at.file);
    if (of.at.file === at.file) return ofOrder.has(of.code);
    return of.code === 'requires-not-met-at-run' && namesFile(note, of, book) && of.message.includes(`${state} is`);
  },
  'any-order-unlike-steps': ({ at }, of) => of.at.file === at.file && (ofOrder.has(of.code) || ofReadings.has(of.code)),
  'instrument-unlike-steps': ({ at }, of) =>
    of.at.file === at.file &&
    (ofOrder.has(of.code) || (of.code === 'other-instrument-said' && of.at.start === at.start)),
};

/** Whether a note names the procedure that another diagnostic is in. */
function namesFile(note: string, { at }: Diagnostic, { procedures }: Book): boolean {
  return [...note.matchAll(/`([^`]+)`/g)].some(([, id = '']) => procedures.get(id)?.file === at.file);
}
