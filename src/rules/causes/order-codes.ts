// What is known of codes and files by those who look for the cause of a fault.

/** Faults of an order: something is done that the steps before it do not allow. */
export const orderFaults: readonly string[] = [
  'cannot-move-here',
  'end-state-not-met',
  'instrument-needs-not-met',
  'need-not-met',
  'not-restored',
  'requires-not-met-at-run',
  'safety-rule-broken',
  'state-not-possible',
  'unchanged-rule-broken',
  'unsafe-end',
];

/** The file of a translation. */
export const translationFile = /\.[a-z]{2}\.md$/;
