// A question to which there is one answer alone: whoever finds it otherwise is led nowhere.

import { rule } from '../rule.js';

export default rule({
  id: 'question-with-one-answer',
  severity: 'error',
  needs: 'procedure',
  *run({ steps }) {
    const told = new Set<number>();
    for (const { id, ask, answers } of steps) {
      const [only, ...others] = answers;
      if (!ask || !only || others.length > 0 || told.has(only.key.at.start)) continue;
      told.add(only.key.at.start);
      yield { at: only.key.at, data: { step: id.value, answer: only.key.value } };
    }
  },
  say: ({ step, answer }) => ({
    message: `Step \`${step}\` asks, and its only answer is \`${answer}\`: whoever finds it otherwise is led nowhere`,
    help: `${opposite(answer)} If it is no question, write \`do\` and \`expect\`, and \`otherwise\` where it may fail.`,
    note: 'A person gives the only answer that there is, also where it is not true.',
  }),
});

function opposite(answer: string): string {
  const other = { yes: 'no', no: 'yes' }[answer];
  return other === undefined
    ? 'Add the other answers with where they lead.'
    : `Add the other answer with where it leads, as in \`${other}: call-service\`.`;
}
