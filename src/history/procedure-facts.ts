// A procedure for one kind of rig as a sheet of facts. What it runs is compared where that procedure stands itself.

import type { PlainProcedure } from '../model/compiled-book.js';
import type { Words } from '../model/text.js';
import { addConditions, type BookSense, conditionParts } from './condition-facts.js';
import {
  addOneOf,
  addPart,
  beginSubject,
  type FactParts,
  type FactSheet,
  newSheet,
  type Place,
  shown,
  tidied,
  wording,
} from './fact-sheet.js';
import { list, names, plain, ui, words } from './said.js';
import { addStep, hazardParts } from './step-facts.js';
import { addAdjuster, addValue, addWorksheet } from './value-facts.js';

/** Facts that no card and no page of work shows: their change asks for no new revision. */
export const recordsOnly: ReadonlySet<string> = new Set(['reviewed', 'verified', 'job', 'status']);

/** The facts of a procedure. */
export function procedureFacts(procedure: PlainProcedure, sense: BookSense): FactSheet {
  const sheet = newSheet();
  const place: Place = { sheet, key: '' };
  addHead(place, procedure, sense);
  addRequires(place, procedure, sense);
  for (const value of procedure.values) addValue(place, value, sense);
  for (const adjuster of procedure.adjusters) addAdjuster(place, adjuster);
  for (const worksheet of procedure.worksheets) addWorksheet(place, worksheet);
  const numbers = new Map(procedure.steps.map(({ id, number }) => [id, number]));
  for (const step of procedure.steps) addStep(place, step, { ...sense, numbers });
  const groups = procedure.anyOrder.map((group) => [...group].sort());
  const said = (id: string) => plain(numbers.get(id) ?? id);
  if (groups.length > 0) {
    addPart(place, 'any-order', {
      weight: 'technical',
      equal: JSON.stringify(groups.map((group) => group.join(' ')).sort()),
      said: list(groups.map((group) => ui('in-any-order', { steps: list(group.map(said)) }))),
    });
  }
  for (const [end, conditions] of Object.entries(procedure.leaves)) {
    addConditions(place, `leaves-${end}`, { conditions: conditions ?? [], sense });
  }
  addProse(place, procedure);
  return sheet;
}

function addHead(place: Place, procedure: PlainProcedure, sense: BookSense): void {
  const { time, tools, supplies, hazards, gives, voidedBy, due, reviewed, verified } = procedure;
  addPart(place, 'title', wording(procedure.title));
  addPart(place, 'summary', wording(procedure.summary));
  addPart(place, 'kind', shown(ui(procedure.kind)));
  addPart(place, 'job', shown(plain(procedure.job), 'text'));
  addPart(place, 'status', shown(ui(procedure.status), 'safety'));
  addPart(place, 'skill', shown(ui(procedure.skill)));
  addPart(place, 'people', shown(plain(String(procedure.people))));
  addPart(place, 'time', time && shown(list([time.total, time.handsOn, time.waiting].map((one) => plain(one ?? '')))));
  for (const { id, label } of tools)
    addOneOf(place, 'tools', id, { weight: 'technical', equal: id, said: words(label) });
  addPart(
    place,
    'supplies',
    supplies.length === 0 ? undefined : shown(list(supplies.map((one) => words(tidied(one))))),
  );
  for (const id of hazards) addOneOf(place, 'hazards', id, hazardParts(id, sense));
  const given = gives === undefined ? undefined : sense.states.get(gives)?.label;
  addPart(
    place,
    'gives',
    gives === undefined
      ? undefined
      : {
          weight: 'technical',
          equal: gives,
          said: given ? words(given) : plain(gives),
        },
  );
  addPart(place, 'voided-by', voidedBy.length === 0 ? undefined : shown(names([...voidedBy].sort())));
  addPart(place, 'due', due && shown(ui(`due-${due.every}`, { count: plain(String(due.count ?? '')) })));
  addPart(
    place,
    'reviewed',
    reviewed &&
      shown(
        list([reviewed.on, reviewed.by, reviewed.next].flatMap((one) => (one === undefined ? [] : [plain(one)]))),
        'text',
      ),
  );
  const tried = verified.map(({ machine, how, by, on }) => `${machine}, ${how}, ${by}, ${on}`).sort();
  addPart(place, 'verified', tried.length === 0 ? undefined : shown(names(tried), 'text'));
}

function addRequires(at: Place, { requires }: PlainProcedure, sense: BookSense): void {
  for (const { condition, throughout, shownBy, ifMissed } of requires) {
    const parts = conditionParts(condition, sense);
    const label = sense.states.get(condition.state)?.label;
    const subject = { kind: 'condition' as const, id: condition.state, ...(label && { label: words(label) }) };
    const place = beginSubject(at, subject, parts);
    addPart(
      place,
      'throughout',
      throughout ? { weight: parts.weight, equal: 'throughout', said: ui('throughout') } : undefined,
    );
    addPart(place, 'shown-by', wording(shownBy));
    addPart(place, 'if-missed', wording(ifMissed));
  }
}

/** Sections of prose: those of steps by their step, the others by their heading in the first language that has them. */
function addProse(at: Place, { prose, steps }: PlainProcedure): void {
  const languages = Object.keys(prose);
  const sections = new Map<string, Record<string, string>>();
  const headings: string[] = [];
  const numbers = new Map(steps.map(({ id, number }) => [id, number]));
  for (const [i, language] of languages.entries()) {
    let count = 0;
    for (const { heading, step, markdown } of prose[language] ?? []) {
      if (step === undefined && i === 0) headings.push(heading ?? '');
      const key = step !== undefined ? `step ${step}` : `text ${headings[count] ?? `${count + 1}`}`;
      if (step === undefined) count += 1;
      const text = step === undefined && heading !== undefined ? `${heading}\n\n${markdown}` : markdown;
      const section = sections.get(key) ?? {};
      section[language] = section[language] === undefined ? text : `${section[language]}\n\n${text}`;
      sections.set(key, section);
    }
  }
  for (const [key, text] of sections) {
    const step = /^step (.*)$/.exec(key)?.[1];
    const number = step === undefined ? undefined : numbers.get(step);
    const heading = key.replace(/^\w+ /, '');
    const subject = {
      kind: 'section' as const,
      id: heading,
      label: plain(heading),
      ...(number !== undefined && { number }),
    };
    // the detail of a step goes with it
    beginSubject(at, subject, { ...proseParts(text), ...(number !== undefined && { under: `step:${step}` }) });
  }
}

function proseParts(text: Words): FactParts {
  return wording(text) ?? { weight: 'text', equal: '' };
}
