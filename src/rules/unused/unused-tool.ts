// A tool that a procedure lists and nothing in it takes: no text speaks of it, and nothing that it runs lists it.

import { templatesOf, textsOf } from '../../model/walk.js';
import { toolNames } from '../names/tool-names.js';
import { rule } from '../rule.js';

export default rule({
  id: 'unused-tool',
  severity: 'hint',
  needs: 'procedure',
  *run(procedure, { book }) {
    if (procedure.tools.length === 0) return;
    const [first = 'en'] = book.settings.languages;
    const texts = textsOf(procedure).flatMap(({ text }) => [...templatesOf(text, first)].map(({ source }) => source));
    const prose = (procedure.prose.get(first) ?? []).map(({ body }) => body.source);
    const words = [...texts, ...prose].map(({ value }) => value).join('\n');
    const run = procedure.steps.flatMap((step) => (step.run ? (book.procedures.get(step.run.value) ?? []) : []));
    const inside = new Set(run.flatMap(({ tools }) => tools.map(({ value }) => value)));
    for (const { value, at } of procedure.tools) {
      const tool = book.tools.get(value);
      const names = inside.has(value) ? undefined : tool && toolNames(tool, book);
      if (names && !names.any.test(words)) yield { at, data: { tool: value } };
    }
  },
  say: ({ tool }) => ({
    message: `No step speaks of the tool \`${tool}\` that is listed here`,
    help: 'Say in the step where it is taken what it is for, or take it out of the list.',
  }),
});
