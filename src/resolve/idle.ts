// What no rig ever meets: entries of choices and restrictions that are written and never come to bear.

import { compareText } from '../diagnostic/diagnostic.js';
import type { Applies, Procedure } from '../model/procedure.js';
import type { Choice } from '../model/text.js';
import type { Pair } from './facets.js';
import type { Report } from './faults.js';
import type { ChoiceUse } from './scene.js';

/** Reports each machine and header that a procedure names and that none of its rigs has. */
export function reportUnmatched({ applies }: Procedure, pairs: readonly Pair[], report: Report): void {
  if (applies.kind !== 'keys') return;
  for (const test of applies.tests) {
    if (test.key !== 'machine' && test.key !== 'header') continue;
    const { key } = test;
    const used = new Set(pairs.map((pair) => pair[key]));
    for (const { value, at } of test.ids.filter((id) => !used.has(id.value))) {
      report({
        code: 'applies-in-part',
        message: `\`${value}\` is named here, and no machine and header with it meet the rest of \`applies\``,
        at,
        help: `Take \`${value}\` out, or mend the rest of \`applies\`, or the list \`headers\` of the machine.`,
      });
    }
  }
}

/** Reports what of a procedure was met by none of its rigs, once all of them were looked at. */
export function reportIdle({ choices }: { readonly choices: ChoiceUse }, procedure: Procedure, report: Report): void {
  for (const { only, what } of restrictionsOf(procedure)) {
    if (!only || choices.picked.has(only)) continue;
    report({
      code: 'only-for-nothing',
      message: `${what} is for none of the rigs that this procedure applies to`,
      at: only.at,
      help: 'Mend the `only`, or what the procedure applies to; or, if both are right, what the file of the machine or header says of it, such as its `type`.',
    });
  }
  const files = new Set([procedure.file, ...[...procedure.translations.values()].map(({ file }) => file)]);
  for (const choice of choicesMet(choices, files)) {
    for (const { key } of choice.entries.filter((entry) => !choices.picked.has(entry))) {
      report({
        code: 'unused-choice-entry',
        message: `No rig that this procedure applies to picks the entry \`${key.value}\``,
        at: key.at,
        help: 'Take the entry out, or mend its key.',
      });
    }
  }
}

type Entries = Extract<Choice<unknown>, { kind: 'choice' }>;

function choicesMet({ met }: ChoiceUse, files: ReadonlySet<string>): readonly Entries[] {
  const found = [...files].flatMap((file) => [...(met.get(file) ?? [])] as Entries[]);
  return found.sort((a, b) => compareText(a.at.file, b.at.file) || a.at.start - b.at.start);
}

function restrictionsOf(
  procedure: Procedure,
): readonly { readonly only: Applies | undefined; readonly what: string }[] {
  return [
    ...procedure.requires.map(({ only, state }) => ({ only, what: `The condition on \`${state.value}\`` })),
    ...procedure.values.map(({ only, id }) => ({ only, what: `The value \`${id}\`` })),
    ...procedure.adjusters.map(({ only, id }) => ({ only, what: `The adjuster \`${id}\`` })),
    ...procedure.steps.map(({ only, id }) => ({ only, what: `The step \`${id.value}\`` })),
  ];
}
