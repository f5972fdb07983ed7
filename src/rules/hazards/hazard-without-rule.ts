// A hazard of which the book says in words how to keep clear, and that no safety rule proves anything of.

import { rule } from '../rule.js';

export default rule({
  id: 'hazard-without-rule',
  severity: 'hint',
  needs: 'book',
  *run(book) {
    const ruled = new Set(book.rules.flatMap(({ hazard }) => hazard?.value ?? []));
    for (const { id, severity } of book.hazards.values()) {
      const canKill = severity.value === 'will-kill' || severity.value === 'may-kill';
      if (canKill && !ruled.has(id)) yield { at: severity.at, data: { id, severity: severity.value } };
    }
  },
  say: ({ id, severity }) => ({
    message: `No safety rule names the hazard \`${id}\`, which is \`${severity}\`: that people keep clear of it is only said`,
    help: `Add a rule to safety.yaml with \`hazard: ${id}\` that says when it is there and what must then hold.`,
    note: 'DOE-STD-1029: what has to be done is a step, and no part of a warning. Only a rule can prove that it is there.',
  }),
});
