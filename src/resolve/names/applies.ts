// Names in `applies` and `only`, and whether the serials in them can be meant.

import type { Machine } from '../../model/book.js';
import type { Applies, AppliesTest } from '../../model/procedure.js';
import { compareSerials, isInStretch } from '../../model/serials.js';
import type { Located } from '../../text/source.js';
import { joinNames } from '../faults.js';
import { type Checker, checkName, checkNames } from './checker.js';

/** Checks every name of a restriction. */
export function checkApplies(checker: Checker, applies: Applies | undefined): void {
  if (!applies || applies.kind === 'all') return;
  if (applies.kind === 'not') {
    checkApplies(checker, applies.of);
    return;
  }
  for (const test of applies.tests) checkTest(checker, test, applies.tests);
}

function checkTest(checker: Checker, test: AppliesTest, siblings: readonly AppliesTest[]): void {
  const { vocabulary } = checker;
  if (test.key === 'not') checkApplies(checker, test.of);
  else if (test.key === 'software') checkSoftware(checker, test);
  else if (test.key === 'serials') checkSerials(checker, test, siblings);
  else if (test.key === 'machine') checkNames(checker, test.ids, { kind: 'machine', known: vocabulary.machines });
  else if (test.key === 'header') checkNames(checker, test.ids, { kind: 'header', known: vocabulary.headers });
  else if (test.key === 'option') checkNames(checker, test.ids, { kind: 'option', known: vocabulary.options });
  // the types of headers are words of the format, which the schema knows
}

function checkSoftware(checker: Checker, test: AppliesTest & { key: 'software' }): void {
  const { vocabulary } = checker;
  const { module } = test;
  if (module) {
    const message = `No machine has a kind of software called \`${module.value}\``;
    if (!checkName(checker, { kind: 'software', name: module, known: vocabulary.modules, message })) return;
  }
  for (const name of [...(test.atLeast ? [test.atLeast] : []), ...test.versions]) {
    const message = `No machine lists the software version \`${name.value}\``;
    const isKnown = checkName(checker, { kind: 'software', name, known: vocabulary.versions, message });
    if (isKnown && !module) checkOneKind(checker, name);
  }
}

/** Reports a version that two kinds of software of one machine have, where nothing says which is meant. */
function checkOneKind(checker: Checker, { value, at }: Located<string>): void {
  for (const { id, software } of checker.book.machines.values()) {
    const listing = software.filter(({ versions }) => versions.some((version) => version.value === value));
    const kinds = listing.map(({ module }) => module.value);
    if (kinds.length < 2) continue;
    checker.report({
      code: 'ambiguous-software',
      message: `\`${id}\` has the version \`${value}\` of ${joinNames(kinds, 'and')}, and nothing says which is meant`,
      at,
      help: `Say which, as in \`software: { ${kinds[0]}: at least ${value} }\`.`,
    });
    return;
  }
}

function checkSerials(
  checker: Checker,
  { from, to, at }: AppliesTest & { key: 'serials' },
  siblings: readonly AppliesTest[],
): void {
  if (from && to && compareSerials(from.value, to.value) > 0) {
    checker.report({
      code: 'serials-reversed',
      message: `No serial lies from \`${from.value}\` to \`${to.value}\`: the first comes after the second`,
      at,
      help: 'Exchange the two, or mend the one that is wrong.',
    });
    return;
  }
  const named = siblings.flatMap((test) => (test.key === 'machine' ? test.ids.map(({ value }) => value) : []));
  const machines = [...checker.book.machines.values()].filter(({ id }) => named.length === 0 || named.includes(id));
  for (const end of [from, to]) if (end) checkEnd(checker, end, machines);
}

function checkEnd(checker: Checker, end: Located<string>, machines: readonly Machine[]): void {
  if (machines.length === 0 || machines.some((machine) => hasSerial(machine, end.value))) return;
  const stretches = machines.map(
    ({ id, serials }) => `\`${id}\` has ${serials?.from ?? ''} to ${serials?.to ?? 'the newest'}`,
  );
  checker.report({
    code: 'serial-outside-machine',
    message: `No machine here has the serial \`${end.value}\`: ${stretches.join(', ')}`,
    at: end.at,
    help: 'Mend the serial, or the serials in the file of the machine.',
    note: 'An end outside all serials splits nothing: what it was meant for would hold for all machines, or for none.',
  });
}

/** Whether a serial may be one of the machine's. */
export function hasSerial(machine: Machine, serial: string): boolean {
  const { from, to } = machine.serials ?? {};
  return isInStretch(
    {
      ...(from === undefined ? {} : { from: { serial: from, included: true } }),
      ...(to === undefined ? {} : { to: { serial: to, included: true } }),
    },
    serial,
  );
}
