// Words that say another number than the one that is typed.

import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { judgePassages } from '../text/passages.js';
import { wrongBands } from './band-words.js';
import { wrongCrops } from './crop-words.js';
import { statementsOf } from './statements.js';
import { findTries } from './tries.js';

interface Facts {
  readonly written: string;
  readonly path: string;
  /** The crop, value, machine or header that it is a number of. */
  readonly owner?: string;
  readonly typed: string;
  readonly reference?: string;
}

export default rule({
  id: 'prose-contradicts-number',
  severity: 'warning',
  needs: 'book',
  *run(_, context) {
    for (const { passage, quantity, stated, verdict, on } of statementsOf(context)) {
      if (verdict !== 'contradicts') continue;
      yield {
        at: spanWithin(passage.source, quantity.start, quantity.end),
        related: [{ message: `\`${stated.path}\` is typed here`, at: stated.at }],
        data: {
          written: passage.source.value.slice(quantity.start, quantity.end),
          path: stated.path,
          typed: [...stated.typed].slice(0, 4).join(' or '),
          ...(on === undefined ? {} : { owner: on }),
          ...(passage.procedure && stated.refers && on === undefined ? { reference: `{${stated.path}}` } : {}),
        } satisfies Facts,
      };
    }
    for (const { passage, start, end, typed, at } of judgePassages(context.book, findTries)) {
      yield {
        at: spanWithin(passage.source, start, end),
        related: [{ message: '`at-most` is typed here', at }],
        data: { written: passage.source.value.slice(start, end), path: 'at-most', typed: typed.join(' or ') },
      };
    }
    for (const { passage, quantity, value, typed, at } of wrongBands(context)) {
      const written = passage.source.value.slice(quantity.start, quantity.end);
      yield {
        at: spanWithin(passage.source, quantity.start, quantity.end),
        related: [{ message: `the band of \`${value}\` is typed here`, at }],
        data: { written, path: 'inside', owner: value, typed: typed.join(' or ') },
      };
    }
    for (const { passage, quantity, crop, key, typed } of wrongCrops(context.book)) {
      const written = passage.source.value.slice(quantity.start, quantity.end);
      yield {
        at: spanWithin(passage.source, quantity.start, quantity.end),
        related: [{ message: `\`${key}\` of \`${crop}\` is typed here`, at: typed.source.at }],
        data: { written, path: key, owner: crop, typed: typed.source.value.trim() },
      };
    }
  },
  say: ({ written, path, owner, typed, reference }: Facts) => ({
    message: `The text says \`${written}\`, and \`${path}\`${owner === undefined ? '' : ` of \`${owner}\``} is ${typed}`,
    help: `Mend whichever is wrong${reference === undefined ? '' : `, and write \`${reference}\` in the text: then they cannot differ again`}. If the text means another quantity, name it.`,
    note: 'Who reads the text works to its number; what is checked and printed elsewhere is the other.',
  }),
});
