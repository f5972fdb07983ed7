// A step that names a tool, or runs a procedure that takes one, which the list at the top asks nobody to bring.

import type { Book } from '../../model/book.js';
import type { Procedure, Step } from '../../model/procedure.js';
import { templatesOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { type ToolNames, toolNames } from './tool-names.js';

interface Facts {
  readonly step: string;
  readonly tool: string;
  readonly run?: string;
  readonly none: boolean;
}

interface Known extends ToolNames {
  readonly id: string;
}

export default rule({
  id: 'tool-not-listed',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    const known = [...book.tools.values()].flatMap((tool): readonly Known[] => {
      const names = toolNames(tool, book);
      return names ? [{ id: tool.id, ...names }] : [];
    });
    const told = new Set(procedure.tools.map(({ value }) => value));
    for (const step of procedure.steps) {
      for (const finding of [...namedIn(step, { known, told, book }), ...takenIn(step, { procedure, book })]) {
        if (told.has(finding.data.tool)) continue;
        told.add(finding.data.tool);
        yield { ...finding, data: { ...finding.data, none: procedure.tools.length === 0 } };
      }
    }
  },
  say: ({ step, tool, run, none }: Facts) => ({
    message: run
      ? `Step \`${step}\` runs \`${run}\`, which takes the tool \`${tool}\`, and \`tools\` does not list it here`
      : `Step \`${step}\` takes the tool \`${tool}\`, and \`tools\` does not list it`,
    help: none ? `Write \`tools: [${tool}]\` at the top.` : `Add \`${tool}\` to \`tools\` at the top.`,
    note: 'Whoever reads the list at the bench comes to the machine without it.',
  }),
});

type Found = Finding<Omit<Facts, 'none'>>;

/** Tools that the words of a step name, and no tool of the list is called so too. */
function* namedIn(
  { do: act, id: step }: Step,
  { known, told, book }: { readonly known: readonly Known[]; readonly told: ReadonlySet<string>; readonly book: Book },
): Iterable<Found> {
  for (const { source } of templatesOf(act, book.settings.languages[0])) {
    for (const { id, whole, doneWith } of known) {
      const found = whole.exec(source.value) ?? doneWith.exec(source.value);
      if (!found || known.some((one) => told.has(one.id) && one.any.test(found[0]))) continue;
      const at = spanWithin(source, found.index, found.index + found[0].length);
      yield { at, data: { step: step.value, tool: id } };
    }
  }
}

/** Tools of a procedure that a step runs. */
function takenIn(
  { run, id: step }: Step,
  { procedure, book }: { readonly procedure: Procedure; readonly book: Book },
): readonly Found[] {
  const inner = run && run.value !== procedure.id ? book.procedures.get(run.value) : undefined;
  return (inner?.tools ?? []).flatMap(({ value, at }) =>
    run && book.tools.has(value)
      ? [
          {
            at: run.at,
            related: [{ message: 'the procedure that is run lists it here', at }],
            data: { step: step.value, tool: value, run: run.value },
          },
        ]
      : [],
  );
}
