// States, hazards, safety rules and what follows from what, as plain data.

import type { Book } from '../../model/book.js';
import type { CompiledBook, PlainHazard, PlainRule, PlainState } from '../../model/compiled-book.js';
import type { World } from '../../model/resolved.js';
import { anyone, isSameForAll, type Reader, wordsOf } from '../book-text.js';
import type { SiteMap } from '../pages/site-map.js';
import { plainCondition } from './plain-conditions.js';
import { withoutMissing } from './without-missing.js';

export function plainStates({ variables }: World): readonly PlainState[] {
  return variables.map((variable) =>
    withoutMissing({
      id: variable.id,
      label: variable.label,
      values: variable.values.map((id) => withoutMissing({ id, label: variable.valueLabels.get(id) })),
      quantity: variable.quantity,
      start: variable.start,
      restore: variable.restore,
      safe: variable.safe,
      movesWhen: variable.movesWhen.map(plainCondition),
    }),
  );
}

export function plainRules({ rules }: World): readonly PlainRule[] {
  return rules.map(({ id, label, when, must, unchanged, hazard, exceptEnergized, origin }) =>
    withoutMissing({
      id,
      label,
      when: when.map(plainCondition),
      must: must.map(plainCondition),
      unchanged,
      hazard,
      exceptEnergized,
      source: origin,
    }),
  );
}

export function plainPhysics({ physics }: World): CompiledBook['physics'] {
  return physics.map(({ when, then }) => ({ when: when.map(plainCondition), then: then.map(plainCondition) }));
}

export function plainBundles({ bundles }: World): CompiledBook['conditions'] {
  return [...bundles].map(([id, conditions]) => ({ id, conditions: conditions.map(plainCondition) }));
}

export function plainEnds(book: Book, { ends }: World): CompiledBook['ends'] {
  return [...book.ends].map(([id, { run }]) =>
    withoutMissing({ id, run: run?.value, must: (ends.get(id)?.must ?? []).map(plainCondition) }),
  );
}

// a hazard whose words differ by rig has one text for each machine and header
export function plainHazards(book: Book, { homes }: SiteMap): readonly PlainHazard[] {
  return [...book.hazards.values()].map(({ id, severity, what, harm, avoid }) => {
    const read = (reader: Reader): PlainHazard['texts'][number] => ({
      what: wordsOf(what, reader),
      harm: wordsOf(harm, reader),
      avoid: wordsOf(avoid, reader),
    });
    const texts = [what, harm, avoid].every(isSameForAll)
      ? [read(anyone)]
      : homes.map(({ machine, header, keys }) => ({
          machine: machine.id,
          header: header.id,
          ...read({ machine, keys }),
        }));
    return { id, severity: severity.value, texts };
  });
}
