// A step done by a person that the procedure does not have.

import { rule } from '../rule.js';

export default rule({
  id: 'too-few-people',
  severity: 'error',
  needs: 'procedure',
  *run(procedure, { book }) {
    const people = procedure.people.value;
    const related = [{ message: 'the number of people is given here', at: procedure.people.at }];
    for (const step of procedure.steps) {
      const callee = step.run && book.procedures.get(step.run.value);
      if (step.by && step.by.value > people) {
        yield { at: step.by.at, related, data: { step: step.id.value, by: step.by.value, people, runs: '' } };
      } else if (step.run && callee && callee.people.value > people) {
        yield {
          at: step.run.at,
          related,
          data: { step: step.id.value, by: callee.people.value, people, runs: callee.id },
        };
      }
    }
  },
  say: ({ step, by, people, runs }) => ({
    message: `Step \`${step}\` ${runs === '' ? `is done by person ${by}` : `runs \`${runs}\`, which takes ${by} people`}, and the procedure has ${people === 1 ? 'one person' : `${people} people`}`,
    help: `Say \`people: ${by}\` at the top${runs === '' ? ', or give the step to another person' : ''}.`,
    note: 'Whoever plans the job reads the number at the top.',
  }),
});
