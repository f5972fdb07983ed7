// A heading of the prose that looks like the id of a step, and is none: the detail below it is not folded under the step.

import { askWhetherMeant, nearestNames } from '../../diagnostic/nearest.js';
import type { Procedure, ProseSection } from '../../model/procedure.js';
import { rule } from '../rule.js';

export default rule({
  id: 'heading-like-step',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    const ids = procedure.steps.map(({ id }) => id.value);
    for (const sections of procedure.prose.values()) {
      // a step whose detail stands there already is not the one that is meant
      const free = ids.filter((id) => !sections.some(({ step }) => step === id));
      for (const section of sections) {
        const { heading } = section;
        if (!heading || !looksLikeStep(section, procedure)) continue;
        const near = askWhetherMeant(nearestNames(heading.text, free));
        yield { at: heading.at, data: { text: heading.text, near } };
      }
    }
  },
  say: ({ text, near }) => ({
    message: `No step has the id \`${text}\`, which this heading looks like`,
    help:
      near ??
      `If the step \`${text}\` was lost above, put it back. Else write the id of the step that is meant, or give the section a heading in words.`,
    note: 'A heading that is the id of a step holds the detail of that step. Under another it stands at the end of the page.',
  }),
});

/** Whether a section that belongs to no step has a heading that looks like the id of one. */
export function looksLikeStep({ heading, step }: ProseSection, { steps }: Procedure): boolean {
  if (!heading || step !== undefined || !/^[a-z0-9]+(?:-[a-z0-9]+)*$/.test(heading.text)) return false;
  const ids = steps.map(({ id }) => id.value);
  return nearestNames(heading.text, ids).length > 0 || heading.text.includes('-');
}
