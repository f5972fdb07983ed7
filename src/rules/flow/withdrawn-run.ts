// A procedure that was withdrawn and is run all the same.

import { rule } from '../rule.js';

export default rule({
  id: 'withdrawn-run',
  severity: 'error',
  needs: 'book',
  *run({ procedures, ends }) {
    const runs = [
      ...[...procedures.values()]
        .filter(({ status }) => status.value !== 'withdrawn')
        .flatMap(({ steps }) => steps.flatMap(({ run }) => run ?? [])),
      ...[...ends.values()].flatMap(({ run }) => run ?? []),
    ];
    for (const { value, at } of runs) {
      const status = procedures.get(value)?.status;
      if (status?.value !== 'withdrawn') continue;
      yield { at, related: [{ message: 'it was withdrawn here', at: status.at }], data: { id: value } };
    }
  },
  say: ({ id }) => ({
    message: `\`${id}\` is withdrawn and is run here`,
    help: 'Run another procedure, or release that one again.',
    note: 'A withdrawn procedure shows no steps: whoever comes here would stand before an empty page.',
  }),
});
