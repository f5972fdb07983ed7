// A tool that a procedure lists and no text of it speaks of.

import { templatesOf, textsOf } from '../../model/walk.js';
import { toolPattern } from '../names/tool-names.js';
import { rule } from '../rule.js';

export default rule({
  id: 'unused-tool',
  severity: 'hint',
  needs: 'procedure',
  *run(procedure, { book }) {
    const [first = 'en'] = book.settings.languages;
    const texts = [...textsOf(procedure)].flatMap(({ text }) =>
      [...templatesOf(text, first)].map(({ source }) => source),
    );
    const prose = (procedure.prose.get(first) ?? []).map(({ body }) => body.source);
    const words = [...texts, ...prose].map(({ value }) => value).join('\n');
    for (const { value, at } of procedure.tools) {
      const tool = book.tools.get(value);
      const pattern = tool && toolPattern(tool, book);
      if (pattern && !pattern.test(words)) yield { at, data: { tool: value } };
    }
  },
  say: ({ tool }) => ({
    message: `No step speaks of the tool \`${tool}\` that is listed here`,
    help: 'Say in the step where it is taken what it is for, or take it out of the list.',
  }),
});
