// More people than the steps are given to.

import { rule } from '../rule.js';

export default rule({
  id: 'people-not-needed',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    const { value: people, at } = procedure.people;
    const needed = procedure.steps.map(({ by, run }) => {
      const callee = run && book.procedures.get(run.value);
      return Math.max(by?.value ?? 1, callee?.people.value ?? 1);
    });
    const most = Math.max(1, ...needed);
    if (people > most) yield { at, data: { people, most } };
  },
  say: ({ people, most }) => ({
    message: `The procedure has ${people} people, and its steps are given to ${most === 1 ? 'one' : `${most} of them`}`,
    help: `Write \`people: ${most}\`, or say with \`by: ${people}\` which steps the last of them does.`,
    note: 'Whoever plans the job reads the number at the top, and each person has to know what is theirs to do.',
  }),
});
