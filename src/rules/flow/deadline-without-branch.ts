// An act that has to be done within some time, and no word of what to do when it was not.

import { templatesOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';

/** By language: a time that something must be done within. */
const deadlines: Readonly<Record<string, RegExp>> = {
  en: /\bwithin (?:the next )?(?:\{[^}]+\}|\d[\d./]*)\s*(?:s|sec|seconds?|min|minutes?|h|hours?)\b/i,
  es: /\b(?:en menos de|dentro de|antes de que pasen) (?:\{[^}]+\}|\d[\d,./]*)\s*(?:s|segundos?|min|minutos?|h|horas?)\b/i,
};

export default rule({
  id: 'deadline-without-branch',
  severity: 'warning',
  needs: 'procedure',
  *run({ steps }, { book }) {
    const [first = 'en'] = book.settings.languages;
    const deadline = deadlines[first];
    for (const step of deadline ? steps : []) {
      if (step.otherwise || step.ask) continue;
      for (const { source } of templatesOf(step.do, first)) {
        const found = deadline?.exec(source.value);
        if (!found) continue;
        const at = spanWithin(source, found.index, found.index + found[0].length);
        yield { at, data: { step: step.id.value, deadline: found[0] } };
      }
    }
  },
  say: ({ step, deadline }) => ({
    message: `Step \`${step}\` is to be done \`${deadline}\`, and nothing says what to do when it was not`,
    help: 'Add `otherwise: { because: It took longer., go: … }` with the step to begin again from.',
    note: 'DOE-STD-1029: a step with a time limit says what to do when the time has passed.',
  }),
});
