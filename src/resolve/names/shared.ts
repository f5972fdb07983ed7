// Every name in the shared files: machines, headers, instruments, states, safety rules, crops, the fleet.

import type { Book, FleetUnit, Header, Machine } from '../../model/book.js';
import type { StateVariable } from '../../model/conditions.js';
import { compareSerials } from '../../model/serials.js';
import type { Text } from '../../model/text.js';
import type { Located } from '../../text/source.js';
import { headersOf } from '../facets.js';
import { joinNames } from '../faults.js';
import { hasSerial } from './applies.js';
import { type Checker, checkChoice, checkFigure, checkName, checkNames } from './checker.js';
import { checkConditions } from './conditions.js';
import { checkExpression, checkNumber } from './expressions.js';
import { checkSameText, checkText } from './texts.js';
import { checkQuantity } from './values.js';

/** Checks every name outside the procedures. */
export function checkShared(checker: Checker): void {
  const { book } = checker;
  for (const machine of book.machines.values()) checkMachine(checker, machine);
  for (const header of book.headers.values()) checkHolder(checker, header, 'header');
  for (const state of book.states.values()) checkState(checker, state);
  for (const { when, then } of book.physics) {
    checkConditions(checker, when);
    checkConditions(checker, then, 'set');
  }
  for (const { conditions } of book.bundles.values()) checkConditions(checker, conditions);
  checkSafety(checker);
  for (const text of sameTexts(checker.book)) checkSameText(checker, text);
  checkInstruments(checker);
  for (const crop of book.crops.values()) {
    checkExpression(checker, crop.mass);
    checkExpression(checker, crop.baseMoisture);
  }
  for (const unit of book.fleet) checkUnit(checker, unit);
}

/** Texts that pages show whatever the machine is. Those of states and rules are looked at where they are worked out. */
function* sameTexts(book: Book): Iterable<Text | undefined> {
  const { title, owner, jobs } = book.settings;
  yield* [title, owner, ...jobs.map(({ label }) => label)];
  for (const { name, tell, options, software } of book.machines.values()) {
    yield* [name, tell?.text, tell?.figure?.alt];
    for (const option of options) yield* [option.label, option.tell?.text, option.tell?.figure?.alt];
    for (const { tell: own } of software) yield* [own?.text, own?.figure?.alt];
  }
  for (const { name, tell } of book.headers.values()) yield* [name, tell?.text, tell?.figure?.alt];
  for (const { what, harm, avoid } of book.hazards.values()) yield* [what, harm, avoid];
  for (const { label } of [...book.events.values(), ...book.crops.values()]) yield label;
}

function checkMachine(checker: Checker, machine: Machine): void {
  const { book } = checker;
  checkHolder(checker, machine, 'machine');
  checkNames(checker, machine.headers, { kind: 'header', known: book.headers });
  for (const { text } of machine.words.values()) {
    for (const words of checkChoice(checker, text)) checkText(checker, words);
  }
  for (const { tell } of [...machine.options, ...machine.software]) checkFigure(checker, tell?.figure);
  const { from, to, at } = machine.serials ?? {};
  if (!at || !isReversed(machine)) return;
  checker.report({
    code: 'serials-reversed',
    message: `No serial lies from \`${from}\` to \`${to}\`: the first comes after the second`,
    at,
    help: 'Exchange the two, or mend the one that is wrong.',
  });
}

function isReversed({ serials }: Machine): boolean {
  return serials?.to !== undefined && compareSerials(serials.from, serials.to) > 0;
}

function checkHolder(checker: Checker, holder: Machine | Header, owner: 'machine' | 'header'): void {
  checkFigure(checker, holder.tell?.figure);
  for (const { value } of holder.parameters.values()) checkNumber(checker, value, { owner });
  for (const { that, equals, limits, within } of holder.agree) {
    for (const written of [that, equals, within]) checkExpression(checker, written, { owner });
    if (limits) checkNumber(checker, { kind: 'one', value: limits, at: limits.source.at }, { owner });
  }
}

function checkState(checker: Checker, state: StateVariable): void {
  const known = state.values.map(({ id }) => id.value);
  for (const name of [state.start, state.safe]) {
    const message = `\`${state.id}\` is never \`${name?.value}\``;
    if (name) checkName(checker, { kind: 'state-value', name, known, message });
  }
  checkQuantity(checker, state.quantity);
  checkConditions(checker, state.movesWhen);
}

function checkSafety(checker: Checker): void {
  const { book } = checker;
  for (const { when, must, unchanged, hazard } of book.rules) {
    checkConditions(checker, when);
    checkConditions(checker, must);
    checkNames(checker, unchanged ?? [], { kind: 'state', known: book.states });
    if (hazard) checkName(checker, { kind: 'hazard', name: hazard, known: book.hazards });
  }
  for (const { run, must } of book.ends.values()) {
    if (run) checkName(checker, { kind: 'procedure', name: run, known: book.procedures });
    checkConditions(checker, must);
  }
}

function checkInstruments(checker: Checker): void {
  const { book, vocabulary } = checker;
  for (const instrument of book.instruments.values()) {
    checkText(checker, instrument.label);
    checkQuantity(checker, instrument.quantity);
    checkNumber(checker, instrument.range);
    checkNumber(checker, instrument.resolution);
    checkChoice(checker, instrument.accuracy);
    if (instrument.readAt) checkName(checker, { kind: 'place', name: instrument.readAt, known: vocabulary.places });
    checkConditions(checker, instrument.needs);
  }
  for (const tool of book.tools.values()) checkText(checker, tool.label);
}

function checkUnit(checker: Checker, unit: FleetUnit): void {
  const { book } = checker;
  for (const { header } of unit.headers) checkName(checker, { kind: 'header', name: header, known: book.headers });
  if (!checkName(checker, { kind: 'machine', name: unit.machine, known: book.machines })) return;
  const machine = book.machines.get(unit.machine.value);
  if (!machine) return;
  const options = machine.options.map(({ id }) => id);
  for (const name of unit.options) {
    const message = `\`${machine.id}\` has no option \`${name.value}\``;
    checkName(checker, { kind: 'option', name, known: options, message });
  }
  for (const { header } of unit.headers) checkFit(checker, header, machine);
  for (const { module, version } of unit.software) {
    const listed = machine.software.filter((one) => !module || one.module.value === module.value);
    const known = listed.flatMap(({ versions }) => versions.map(({ value }) => value));
    const message = `\`${machine.id}\` lists no software version \`${version.value}\``;
    checkName(checker, { kind: 'software', name: version, known, message });
  }
  if (!unit.serial || isReversed(machine) || hasSerial(machine, unit.serial.value)) return;
  checker.report({
    code: 'serial-outside-machine',
    message: `\`${machine.id}\` has the serials ${machine.serials?.from ?? ''} to ${machine.serials?.to ?? 'the newest'}, and this unit has \`${unit.serial.value}\``,
    at: unit.serial.at,
    help: 'Mend the serial, the machine, or the serials in the file of the machine.',
  });
}

function checkFit(checker: Checker, header: Located<string>, machine: Machine): void {
  const fitting = headersOf(checker.book, machine);
  if (fitting.includes(header.value) || !checker.book.headers.has(header.value)) return;
  checker.report({
    code: 'header-does-not-fit',
    message: `\`${header.value}\` does not fit \`${machine.id}\``,
    at: header.at,
    help:
      fitting.length > 0 ? `Headers that fit it: ${joinNames(fitting, 'and')}.` : `No header fits \`${machine.id}\`.`,
  });
}
