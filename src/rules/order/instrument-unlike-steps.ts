// A value that is read with an instrument at another place than its step counts on: the words of the step, or the values beside
// it, name the one that was meant.

import type { CheckValue } from '../../model/procedure.js';
import type { ResolvedProcedure, ResolvedValue } from '../../model/resolved.js';
import { leavesOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { type Context, type Proof, rule } from '../rule.js';
import { brokenIn, isRight, wordFix } from './blame.js';
import { code } from './words.js';

export default rule({
  id: 'instrument-unlike-steps',
  severity: 'error',
  needs: 'proofs',
  *run(proofs, context) {
    const { resolved, reprove } = context;
    if (!reprove) return;
    for (const [, broken] of brokenIn(proofs)) {
      const procedure = broken[0]?.variant.procedure;
      for (const value of procedure?.values ?? []) {
        const own = readWithAt(value.source, value.instrument?.id);
        if (!procedure || !own || value.source.readAt || value.readAt === undefined) continue;
        const other = othersFor(value, proofs).find(
          (one) =>
            isNamed(one, { procedure, value }, context) &&
            idsReadAlike(value, procedure).some((ids) =>
              broken.every(({ variant }) =>
                isRight({ ...variant, procedure: readingWith(variant.procedure, ids, one) }, resolved.world, reprove),
              ),
            ),
        );
        if (!other) continue;
        yield { at: own, data: { ...factsOf(value, other), at: own } };
        break;
      }
    }
  },
  say: ({ id, own, ownAt, other, otherAt, at }) => ({
    message: `${code(id)} is read with ${code(own)}, at ${code(ownAt)}, and the steps cannot be done so: they count on ${code(other)}`,
    help: `Write ${code(`read-with: ${other}`)} (tried: the order then holds). If the instrument is right, mend the words of the step, and add the steps that make it safe to be at ${code(ownAt)}.`,
    fixes: [wordFix(at, other)],
    note: `Whoever reads ${code(id)} with ${code(own)} leaves ${otherAt === undefined ? 'where they are' : code(otherAt)} for it.`,
  }),
});

interface Facts {
  readonly id: string;
  readonly own: string;
  readonly ownAt: string;
  readonly other: string;
  readonly otherAt: string | undefined;
}

function factsOf({ id, instrument, readAt = '' }: ResolvedValue, other: ResolvedValue): Facts {
  return { id, own: instrument?.id ?? '', ownAt: readAt, other: other.instrument?.id ?? '', otherAt: other.readAt };
}

/** Values of the book that another instrument reads, of the same quantity and at another place: one for each instrument. */
function othersFor(value: ResolvedValue, proofs: readonly Proof[]): readonly ResolvedValue[] {
  const found = new Map<string, ResolvedValue>();
  for (const { variant } of proofs) {
    for (const other of variant.procedure.values) {
      const id = other.instrument?.id;
      if (id === undefined || id === value.instrument?.id || other.source.readAt || found.has(id)) continue;
      const isLike = other.instrument?.source.quantity.value === value.instrument?.source.quantity.value;
      if (isLike && other.readAt !== value.readAt) found.set(id, other);
    }
  }
  return [...found.values()];
}

/** Whether the step that reads the value names the other instrument and not its own, or another value is read with it there. */
function isNamed(
  other: ResolvedValue,
  { procedure, value }: { readonly procedure: ResolvedProcedure; readonly value: ResolvedValue },
  { book }: Context,
): boolean {
  const language = book.settings.languages[0] ?? '';
  const wordsIn = (text: string): readonly string[] => text.toLowerCase().match(/\p{L}{4,}/gu) ?? [];
  const label = wordsIn(other.instrument?.label[language] ?? '');
  const own = new Set(wordsIn(value.instrument?.label[language] ?? ''));
  const steps = procedure.steps.filter(({ measure }) => measure.includes(value.id));
  const said = new Set(steps.flatMap((step) => wordsIn(step.do?.[language] ?? '')));
  const telling = label.filter((word) => !own.has(word));
  if ([...own].some((word) => !label.includes(word) && said.has(word))) return false;
  return (
    telling.some((word) => said.has(word)) ||
    procedure.values.some((one) => one.id !== value.id && one.instrument?.id === other.instrument?.id)
  );
}

/** The value alone, and with all others that are read with the same instrument. */
function idsReadAlike(
  { id, instrument }: ResolvedValue,
  { values }: ResolvedProcedure,
): readonly (readonly string[])[] {
  const alike = values
    .filter((one) => one.instrument?.id === instrument?.id && !one.source.readAt)
    .map((one) => one.id);
  return alike.length > 1 ? [[id], alike] : [[id]];
}

function readingWith(procedure: ResolvedProcedure, ids: readonly string[], other: ResolvedValue): ResolvedProcedure {
  const read = ({ readAt: _, instrument: __, ...rest }: ResolvedValue): ResolvedValue => ({
    ...rest,
    needs: other.needs,
    ...(other.readAt === undefined ? {} : { readAt: other.readAt }),
    ...(other.instrument ? { instrument: other.instrument } : {}),
  });
  return { ...procedure, values: procedure.values.map((one) => (ids.includes(one.id) ? read(one) : one)) };
}

function readWithAt({ readWith }: CheckValue, instrument: string | undefined): Span | undefined {
  return readWith && [...leavesOf(readWith)].find(({ value }) => value === instrument)?.at;
}
