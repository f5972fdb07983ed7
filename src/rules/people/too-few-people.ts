// A step done by a person that the procedure does not have.

import { rule } from '../rule.js';

export default rule({
  id: 'too-few-people',
  severity: 'error',
  needs: 'procedure',
  *run(procedure) {
    for (const step of procedure.steps) {
      if (!step.by || step.by.value <= procedure.people.value) continue;
      const related = [{ message: 'the number of people is given here', at: procedure.people.at }];
      yield {
        at: step.by.at,
        related,
        data: { step: step.id.value, by: step.by.value, people: procedure.people.value },
      };
    }
  },
  say: ({ step, by, people }) => ({
    message: `Step \`${step}\` is done by person ${by}, and the procedure has ${people === 1 ? 'one person' : `${people} people`}`,
    help: `Say \`people: ${by}\` at the top, or give the step to another person.`,
    note: 'Whoever plans the job reads the number at the top.',
  }),
});
