// Words that send a reader to a step which is not there: `see step 14` of twelve, `back to step` and an id that no step has.

import { nearestNames } from '../../diagnostic/nearest.js';
import type { Book } from '../../model/book.js';
import type { Procedure } from '../../model/procedure.js';
import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { judgePassages, type Passage } from '../text/passages.js';
import { type StepReference, stepReferences } from './step-references.js';

interface Facts {
  readonly written: string;
  readonly kind: StepReference['kind'];
  readonly procedure: string;
  readonly steps: number;
  readonly near: readonly string[];
}

export default rule({
  id: 'unknown-step-in-text',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const { passage, start, end, kind, name } of judgePassages(book, findReferences)) {
      const { procedure } = passage;
      if (!procedure || isKnown({ kind, name }, procedure, book)) continue;
      const ids = procedure.steps.map(({ id }) => id.value);
      yield {
        at: spanWithin(passage.source, start, end),
        data: {
          written: passage.source.value.slice(start, end),
          kind,
          procedure: procedure.id,
          steps: ids.length,
          near: kind === 'id' ? nearestNames(name, ids) : [],
        },
      };
    }
  },
  say: ({ written, kind, procedure, steps, near }: Facts) => ({
    message:
      kind === 'number'
        ? `The text sends to step ${written}, and \`${procedure}\` has ${steps} ${steps === 1 ? 'step' : 'steps'}`
        : `The text sends to step ${written}, and no step of \`${procedure}\` is called so`,
    help:
      near.length > 0
        ? `Write \`${near[0]}\`, if that step is meant; or name the procedure that has the step in the same sentence.`
        : kind === 'number'
          ? 'Write the number of the step that is meant, or what is done there; or name the procedure that has the step in the same sentence.'
          : 'Write the id of the step that is meant; or name the procedure that has the step in the same sentence.',
    note: 'Whoever is sent to a step that is not there stops, or goes on at one that is not meant.',
  }),
});

interface Found extends StepReference {
  readonly passage: Passage;
}

function* findReferences(passages: readonly Passage[]): Iterable<Found> {
  for (const passage of passages) {
    // a translation with another number than its original is reported as that
    if (passage.differs) continue;
    for (const reference of stepReferences(passage)) yield { passage, ...reference };
  }
}

function isKnown({ kind, name }: Pick<StepReference, 'kind' | 'name'>, procedure: Procedure, book: Book): boolean {
  return kind === 'number' ? hasNumber(procedure, name.split('.').map(Number), book) : hasStep(procedure, name, book);
}

/** Steps are counted over all rigs; those of a procedure that is run stand behind the number of the step that runs it. */
function hasNumber({ steps }: Procedure, [first = 0, ...rest]: readonly number[], book: Book): boolean {
  const step = steps[first - 1];
  if (!step) return false;
  if (rest.length === 0) return true;
  const inner = step.run && book.procedures.get(step.run.value);
  return inner !== undefined && hasNumber(inner, rest, book);
}

/** The steps of a procedure and of all that it runs, at an end too; those written for every side also without their side. */
function hasStep(procedure: Procedure, id: string, book: Book, seen: ReadonlySet<string> = new Set()): boolean {
  const ends = seen.size === 0 ? [...book.ends.values()].flatMap(({ run }) => run?.value ?? []) : [];
  const inner = [...procedure.steps.flatMap(({ run }) => run?.value ?? []), ...ends];
  const known = new Set([...seen, procedure.id]);
  return (
    procedure.steps.some((step) => {
      const own = step.id.value;
      return own === id || (step.repeated !== undefined && own === `${id}-${step.repeated.value}`);
    }) ||
    inner.some((name) => {
      const run = known.has(name) ? undefined : book.procedures.get(name);
      return run !== undefined && hasStep(run, id, book, known);
    })
  );
}
