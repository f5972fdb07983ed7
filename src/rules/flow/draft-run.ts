// A procedure that is still a draft and is run by a released one.

import { rule } from '../rule.js';

export default rule({
  id: 'draft-run',
  severity: 'warning',
  needs: 'book',
  *run({ procedures, ends }) {
    const released = [...procedures.values()].filter(({ status }) => status.value === 'released');
    const runs = [
      ...released.flatMap(({ steps }) => steps.flatMap(({ run }) => run ?? [])),
      ...(released.length > 0 ? [...ends.values()].flatMap(({ run }) => run ?? []) : []),
    ];
    for (const { value, at } of runs) {
      const status = procedures.get(value)?.status;
      if (status?.value !== 'draft') continue;
      yield { at, related: [{ message: 'it is a draft here', at: status.at }], data: { id: value } };
    }
  },
  say: ({ id }) => ({
    message: `\`${id}\` is a draft and is run by what is released`,
    help: 'Release that one, once it was looked at; or make this one a draft as well.',
    note: 'Its steps are printed on a page that says that it is released, and nobody has released them.',
  }),
});
