// A step that names a tool which the procedure does not ask anybody to bring.

import { templatesOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { toolPattern } from './tool-names.js';

export default rule({
  id: 'tool-not-listed',
  severity: 'warning',
  needs: 'procedure',
  *run({ steps, tools }, { book }) {
    const known = [...book.tools.values()].flatMap((tool) => {
      const pattern = toolPattern(tool, book);
      return pattern ? [{ id: tool.id, pattern }] : [];
    });
    const listed = new Set(tools.map(({ value }) => value));
    const brought = known.filter(({ id }) => listed.has(id)).map(({ pattern }) => pattern.source);
    const told = new Set<string>();
    for (const { do: act, id: step } of steps) {
      for (const { source } of templatesOf(act, book.settings.languages[0])) {
        for (const { id, pattern } of known) {
          const found = pattern.exec(source.value);
          if (!found || brought.includes(pattern.source) || told.has(pattern.source)) continue;
          told.add(pattern.source);
          yield {
            at: spanWithin(source, found.index, found.index + found[0].length),
            data: { step: step.value, tool: id },
          };
        }
      }
    }
  },
  say: ({ step, tool }) => ({
    message: `Step \`${step}\` takes the tool \`${tool}\`, and \`tools\` does not list it`,
    help: `Add \`${tool}\` to \`tools\` at the top.`,
    note: 'Whoever reads the list at the bench comes to the machine without it.',
  }),
});
