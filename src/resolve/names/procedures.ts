// Every name in a procedure.

import type { Branch, Procedure, Step } from '../../model/procedure.js';
import type { Located } from '../../text/source.js';
import type { Report } from '../faults.js';
import { checkAnyOrder } from './any-order.js';
import { checkApplies } from './applies.js';
import { type Checker, checkFigure, checkName, checkNames } from './checker.js';
import { checkCondition, checkConditions } from './conditions.js';
import { checkNumber } from './expressions.js';
import { checkTemplate, checkText, type TextPlaces } from './texts.js';
import { checkAdjuster, checkValue, checkWorksheet } from './values.js';

/** What a procedure itself declares. */
interface Own {
  readonly procedure: Procedure;
  readonly steps: ReadonlySet<string>;
  readonly values: ReadonlySet<string>;
  readonly worksheets: ReadonlySet<string>;
  readonly adjusters: ReadonlySet<string>;
  readonly places: TextPlaces;
}

/** Checks every name in a procedure. */
export function checkProcedure(checker: Checker, procedure: Procedure): void {
  const values = new Set(procedure.values.map(({ id }) => id));
  const own: Own = {
    procedure,
    steps: new Set(procedure.steps.map(({ id }) => id.value)),
    values,
    worksheets: new Set(procedure.worksheets.map(({ id }) => id)),
    adjusters: new Set(procedure.adjusters.map(({ id }) => id)),
    places: { values },
  };
  checkIds(checker.report, procedure);
  checkHead(checker, own);
  for (const value of procedure.values) checkValue(checker, value, own.places);
  for (const adjuster of procedure.adjusters) checkAdjuster(checker, adjuster, own.places);
  for (const worksheet of procedure.worksheets) checkWorksheet(checker, worksheet, own.places);
  for (const step of procedure.steps) checkStep(checker, step, own);
  for (const id of procedure.anyOrder.flat()) checkName(checker, { kind: 'step', name: id, known: own.steps });
  checkAnyOrder(checker.report, procedure);
  for (const conditions of procedure.leaves.values()) checkConditions(checker, conditions);
  checkProse(checker, own);
}

// steps and the parts of one map are looked at when they are read; a step measures values and worksheets alike
function checkIds(report: Report, { values, worksheets }: Procedure): void {
  const ids = new Map(values.map(({ id, idAt }) => [id, idAt]));
  for (const { id, idAt } of worksheets) {
    const before = ids.get(id);
    if (!before) continue;
    report({
      code: 'duplicate-id',
      message: `A value and a worksheet have the id \`${id}\``,
      at: idAt,
      related: [{ message: 'The value', at: before }],
      help: 'Give one of them another id.',
    });
  }
}

function checkHead(checker: Checker, { procedure, places }: Own): void {
  const { book } = checker;
  for (const text of [procedure.title, procedure.summary, ...procedure.supplies]) checkText(checker, text, places);
  checkApplies(checker, procedure.applies);
  checkNames(
    checker,
    procedure.verified.map(({ machine }) => machine),
    { kind: 'machine', known: book.machines },
  );
  checkNames(checker, procedure.tools, { kind: 'tool', known: book.tools });
  checkNames(checker, procedure.hazards, { kind: 'hazard', known: book.hazards });
  checkNames(checker, procedure.voidedBy, { kind: 'event', known: book.events });
  checkGives(checker, procedure);
  checkJob(checker, procedure);
  const { total, handsOn, waiting } = procedure.time ?? {};
  for (const time of [total, handsOn, waiting]) checkNumber(checker, time);
  for (const requirement of procedure.requires) {
    checkCondition(checker, requirement);
    checkApplies(checker, requirement.only);
    checkText(checker, requirement.shownBy, places);
    checkText(checker, requirement.ifMissed, places);
  }
}

function checkGives(checker: Checker, { gives }: Procedure): void {
  const { states } = checker.book;
  if (!gives || !checkName(checker, { kind: 'state', name: gives, known: states })) return;
  const values = new Set(states.get(gives.value)?.values.map(({ id }) => id.value));
  if (!states.has(gives.value) || (values.has('valid') && values.has('invalid'))) return;
  checker.report({
    code: 'gives-without-validity',
    message: `\`${gives.value}\` is given and has no values \`valid\` and \`invalid\``,
    at: gives.at,
    help: 'Write `is: [valid, invalid]` for that state in states.yaml.',
  });
}

function checkJob(checker: Checker, { folder, title }: Procedure): void {
  const { jobs } = checker.book.settings;
  const [job = ''] = folder.split('/');
  if (jobs.length === 0 || job === '') return;
  checkName(checker, {
    kind: 'job',
    name: { value: job, at: title.at },
    known: jobs.map(({ id }) => id.value),
    message: `This procedure stands in the folder \`${job}\`, which is no job of the book`,
    // moving a file is no change to a text
    near: [],
  });
}

function checkStep(checker: Checker, step: Step, own: Own): void {
  const { book, vocabulary } = checker;
  const places: TextPlaces = { ...own.places, hold: step.hold !== undefined, wait: step.wait !== undefined };
  const { energized } = step;
  const texts = [step.do, step.card, step.ask, step.note, step.expect, step.figure?.alt];
  const more = [
    energized?.why,
    energized?.keepAway,
    energized?.secondPerson,
    ...step.answers.map(({ label }) => label),
  ];
  for (const text of [...texts, ...more]) checkText(checker, text, places);
  checkFigure(checker, step.figure);
  checkNames(checker, step.hazards, { kind: 'hazard', known: book.hazards });
  if (step.place) checkName(checker, { kind: 'place', name: step.place, known: vocabulary.places });
  checkConditions(checker, step.needs);
  checkConditions(checker, step.sets, 'set');
  checkNames(checker, step.measure, { kind: 'reading', known: [...own.values, ...own.worksheets] });
  checkNames(checker, step.write, { kind: 'worksheet', known: own.worksheets });
  checkNames(checker, step.adjust, { kind: 'adjuster', known: own.adjusters });
  checkNames(checker, step.stale, { kind: 'value', known: own.values });
  checkNumber(checker, step.hold);
  checkNumber(checker, step.wait);
  if (step.run) checkName(checker, { kind: 'procedure', name: step.run, known: book.procedures });
  checkApplies(checker, step.only);
  for (const branch of branchesOf(step)) checkBranch(checker, branch, { own, places });
}

function branchesOf(step: Step): readonly Branch[] {
  const { otherwise, then } = step;
  const answers = step.answers.map(({ branch }) => branch);
  return [...(otherwise ? [otherwise] : []), ...step.when.values(), ...answers, ...(then ? [then] : [])];
}

function checkBranch(
  checker: Checker,
  { go, because, means, otherwise }: Branch,
  context: { readonly own: Own; readonly places: TextPlaces },
): void {
  const known = [...context.own.steps, 'done', 'stop', 'call-service'];
  checkName(checker, { kind: 'step', name: go, known, message: `No step or end is called \`${go.value}\`` });
  checkText(checker, because, context.places);
  checkConditions(checker, means, 'set');
  if (otherwise) checkBranch(checker, otherwise, context);
}

function checkProse(checker: Checker, { procedure, places }: Own): void {
  const steps = new Map(procedure.steps.map((step) => [step.id.value, step]));
  for (const section of [...procedure.prose.values()].flat()) {
    const step = section.step === undefined ? undefined : steps.get(section.step);
    checkNames(checker, section.images, { kind: 'figure', known: checker.book.figures });
    for (const link of section.links) checkLink(checker, link);
    checkTemplate(checker, section.body, {
      ...places,
      hold: step?.hold !== undefined,
      wait: step?.wait !== undefined,
    });
  }
}

/** A link to another procedure: by its id, or by the path of its file. */
function checkLink(checker: Checker, { value, at }: Located<string>): void {
  const [path = ''] = value.split('#');
  const id = path.slice(path.lastIndexOf('/') + 1).replace(/\.md$/, '');
  if (id === '') return;
  const message = `This link leads to no procedure of the book: \`${value}\``;
  // the link is longer than the name in it
  checkName(checker, { kind: 'procedure', name: { value: id, at }, known: checker.book.procedures, message, near: [] });
}
