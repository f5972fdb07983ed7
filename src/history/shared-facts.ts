// What all procedures of a book share as a sheet of facts: states, safety rules, machines, headers, instruments, settings.
// Hazards, physics and pictures are compared by themselves: their texts differ by rig, or they have no name.

import type { Said } from '../model/comparison.js';
import type {
  CompiledBook,
  PlainHeader,
  PlainInstrument,
  PlainMachine,
  PlainParameter,
  PlainRule,
  PlainState,
  PlainTell,
  PlainWord,
  PlainWritten,
} from '../model/compiled-book.js';
import { addConditions, type BookSense, togetherParts } from './condition-facts.js';
import {
  addOneOf,
  addPart,
  beginSubject,
  type FactParts,
  type FactSheet,
  newSheet,
  type Place,
  shown,
  wording,
} from './fact-sheet.js';
import { list, names, plain, sayConditions, ui, words } from './said.js';
import { hazardParts } from './step-facts.js';

/** The facts of all that procedures share. */
export function sharedFacts(book: CompiledBook, sense: BookSense): FactSheet {
  const sheet = newSheet();
  const place: Place = { sheet, key: '' };
  for (const rule of byId(book.rules)) addRule(place, rule, sense);
  for (const { id, run, must } of byId(book.ends)) {
    const own = beginSubject(
      place,
      { kind: 'end', id, label: ui(`end-${id}`) },
      { weight: 'safety', said: sayConditions(must, sense.states) },
    );
    addPart(
      own,
      'run',
      run === undefined ? undefined : { weight: 'safety', equal: run, said: sense.titles.get(run) ?? plain(run) },
    );
    addConditions(own, 'must', { conditions: must, sense });
  }
  for (const { id, conditions } of byId(book.conditions)) {
    const own = beginSubject(
      place,
      { kind: 'bundle', id },
      { weight: 'safety', said: sayConditions(conditions, sense.states) },
    );
    addConditions(own, 'conditions', { conditions: conditions.map(({ bundle: _, ...own }) => own), sense });
  }
  for (const state of byId(book.states)) addState(place, state, sense);
  for (const { id, label } of byId(book.events)) {
    const own = beginSubject(place, { kind: 'event', id, label: words(label) }, { weight: 'technical' });
    addPart(own, 'label', wording(label));
  }
  for (const machine of byId(book.machines)) addMachine(place, machine);
  for (const header of byId(book.headers)) addHeader(place, header);
  for (const instrument of byId(book.instruments)) addInstrument(place, instrument);
  for (const { id, label } of byId(book.tools)) {
    const own = beginSubject(place, { kind: 'tool', id, label: words(label) }, { weight: 'technical' });
    addPart(own, 'label', wording(label));
  }
  for (const crop of byId(book.crops)) {
    const own = beginSubject(place, { kind: 'crop', id: crop.id, label: words(crop.label) }, { weight: 'technical' });
    addPart(own, 'label', wording(crop.label));
    addPart(own, 'mass', shown(crop.mass === undefined ? undefined : plain(crop.mass)));
    addPart(own, 'base-moisture', shown(crop.baseMoisture === undefined ? undefined : plain(crop.baseMoisture)));
    addPart(own, 'source', wording(crop.source));
  }
  addSettings(place, book);
  return sheet;
}

function byId<T extends { readonly id: string }>(of: readonly T[]): readonly T[] {
  return [...of].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

function addSettings(place: Place, book: CompiledBook): void {
  addPart(place, 'book-title', wording(book.title));
  addPart(place, 'owner', wording(book.owner));
  addPart(place, 'phone', shown(plain(book.phone)));
  addPart(place, 'url', shown(plain(book.url)));
  addPart(place, 'languages', shown(names(book.languages)));
  addPart(place, 'units', shown(ui(`units-${book.units}`)));
  addPart(place, 'decision', shown(ui(book.decision)));
  for (const { id, label } of byId(book.jobs)) {
    const own = beginSubject(place, { kind: 'job', id, label: words(label) }, { weight: 'text' });
    addPart(own, 'label', wording(label));
  }
  for (const { use, also, never } of book.terms) {
    const [name = ''] = Object.values(use);
    const said = [words(use), ui('also', { of: names(also) }), ui('never', { of: names(never) })];
    addOneOf(place, 'term', name, { weight: 'text', equal: JSON.stringify([use, also, never]), said: list(said) });
  }
}

function addRule(at: Place, rule: PlainRule, sense: BookSense): void {
  const { id, label, when, must, unchanged, hazard, exceptEnergized, source } = rule;
  const place = beginSubject(
    at,
    { kind: 'rule', id, ...(label && { label: words(label) }) },
    { weight: 'safety', said: sayConditions([...when, ...must], sense.states) },
  );
  addPart(place, 'label', wording(label));
  addConditions(place, 'when', { conditions: when, sense });
  addConditions(place, 'must', { conditions: must, sense });
  for (const state of unchanged)
    addOneOf(place, 'unchanged', state, { weight: 'safety', equal: state, said: stateName(state, sense) });
  addPart(place, 'hazard', hazard === undefined ? undefined : hazardParts(hazard, sense));
  addPart(
    place,
    'except-energized',
    exceptEnergized ? { weight: 'safety', equal: 'except', said: ui('energized') } : undefined,
  );
  addPart(place, 'source', wording(source));
}

function stateName(id: string, { states }: BookSense): Said {
  const state = states.get(id);
  return state ? words(state.label) : plain(id);
}

function addState(at: Place, state: PlainState, sense: BookSense): void {
  const { id, label, values, quantity, start, restore, safe, movesWhen } = state;
  const place = beginSubject(at, { kind: 'state', id, label: words(label) }, { weight: 'safety' });
  addPart(place, 'label', wording(label));
  for (const value of byId(values)) {
    const own = beginSubject(
      place,
      { kind: 'state-value', id: value.id, label: value.label ? words(value.label) : plain(value.id) },
      { weight: 'safety' },
    );
    addPart(own, 'label', wording(value.label));
  }
  const named = (value: string | undefined): FactParts | undefined => {
    const of = values.find((one) => one.id === value)?.label;
    return value === undefined ? undefined : { weight: 'safety', equal: value, said: of ? words(of) : plain(value) };
  };
  addPart(place, 'quantity', shown(quantity === undefined ? undefined : plain(quantity), 'safety'));
  addPart(place, 'start', named(start));
  addPart(place, 'safe', named(safe));
  addPart(place, 'restore', shown(ui(restore ? 'yes' : 'no'), 'safety'));
  addPart(place, 'moves-when', togetherParts(movesWhen, sense, 'safety'));
}

function addMachine(at: Place, machine: PlainMachine): void {
  const { id, name, tell, headers, options, serials, software } = machine;
  const place = beginSubject(at, { kind: 'machine', id, label: words(name) }, { weight: 'technical' });
  addPart(place, 'name', wording(name));
  addTell(place, tell);
  for (const header of headers)
    addOneOf(place, 'fits', header, { weight: 'technical', equal: header, said: plain(header) });
  for (const option of byId(options)) {
    const label = option.label ? words(option.label) : plain(option.id);
    const own = beginSubject(
      place,
      { kind: 'option', id: option.id, label },
      { weight: 'technical', said: ui(option.is) },
    );
    addPart(own, 'is', shown(ui(option.is)));
    addPart(own, 'label', wording(option.label));
    addTell(own, option.tell);
  }
  addPart(place, 'serials', serials && shown(plain(`${serials.from} to ${serials.to ?? '…'}`)));
  for (const [module, versions] of Object.entries(software)) {
    addOneOf(place, 'software', module, {
      weight: 'technical',
      equal: versions.join(),
      said: ui('versions', { module: plain(module), of: names(versions) }),
    });
  }
  for (const [module, { text, figure }] of Object.entries(machine.softwareTells ?? {})) {
    const said = sayChosen(text);
    addOneOf(place, 'software-tell', module, { weight: 'text', equal: JSON.stringify([said, figure]), said });
  }
  for (const word of byId(machine.words)) {
    const own = beginSubject(
      place,
      { kind: 'word', id: word.id },
      { weight: 'technical', said: sayChosen(word.words) },
    );
    addPart(own, 'word', shown(sayChosen(word.words)));
  }
  for (const parameter of byId(machine.parameters)) addParameter(place, parameter);
}

function addHeader(at: Place, { id, name, type, tell, parameters }: PlainHeader): void {
  const place = beginSubject(at, { kind: 'header', id, label: words(name) }, { weight: 'technical' });
  addPart(place, 'name', wording(name));
  addPart(place, 'type', shown(plain(type)));
  addTell(place, tell);
  for (const parameter of byId(parameters)) addParameter(place, parameter);
}

function addTell(place: Place, tell: PlainTell | undefined): void {
  if (!tell) return;
  addPart(place, 'tell', shown(sayChosen(tell.text), 'text'));
  addPart(place, 'tell-figure', shown(tell.figure === undefined ? undefined : plain(tell.figure)));
}

function addParameter(at: Place, { id, label, source, values }: PlainParameter): void {
  const parts = writtenParts(values);
  const place = beginSubject(
    at,
    { kind: 'parameter', id, ...(label && { label: words(label) }) },
    { weight: 'technical', ...(parts?.said && { said: parts.said }) },
  );
  addPart(place, 'parameter', parts);
  addPart(place, 'label', wording(label));
  addPart(place, 'source', wording(source));
}

function addInstrument(at: Place, instrument: PlainInstrument): void {
  const { id, label, quantity, range, resolution, accuracy, counts, builtIn, readAt } = instrument;
  const place = beginSubject(at, { kind: 'instrument', id, label: words(label) }, { weight: 'technical' });
  addPart(place, 'label', wording(label));
  addPart(place, 'quantity', shown(plain(quantity)));
  addPart(place, 'instrument-range', writtenParts(range));
  addPart(place, 'resolution', writtenParts(resolution));
  addPart(place, 'accuracy', accuracy.length === 0 ? undefined : shown(sayChoices(accuracy)));
  addPart(place, 'counts', shown(counts === undefined ? undefined : plain(String(counts))));
  addPart(place, 'built-in', shown(ui(builtIn ? 'yes' : 'no')));
  addPart(place, 'read-at', shown(readAt === undefined ? undefined : plain(readAt)));
}

/** A written number, compared by its exact ends where it has any. */
function writtenParts(values: readonly PlainWritten[]): FactParts | undefined {
  if (values.length === 0) return undefined;
  const keyOf = ({ keys, text, exact }: PlainWritten): string =>
    `${keys.join(' ')} ${exact ? `${exact.low ?? ''}..${exact.high ?? ''}` : text.replaceAll(/\s+/g, '')}`;
  return {
    weight: 'technical',
    equal: values.map(keyOf).sort().join('; '),
    spelled: values
      .map(({ text }) => text)
      .sort()
      .join('; '),
    said: sayChoices(values),
    numbers: values.map(({ text }) => text),
  };
}

function sayChoices(entries: readonly { readonly keys: readonly string[]; readonly text: string }[]): Said {
  return list(
    entries.map(({ keys, text }) =>
      keys.length === 0 ? plain(text) : ui('for', { keys: plain(keys.join(', ')), what: plain(text) }),
    ),
  );
}

// one text for all in several languages is one text; what is chosen by rig stands with its keys
function sayChosen(entries: PlainWord['words']): Said {
  const byKeys = new Map<string, { keys: readonly string[]; words: Record<string, string> }>();
  for (const { keys, language, text } of entries) {
    const entry = byKeys.get(keys.join(' ')) ?? { keys, words: {} };
    entry.words[language] = text.replaceAll(/\s+/g, ' ').trim();
    byKeys.set(keys.join(' '), entry);
  }
  return list(
    [...byKeys.values()].map((entry) =>
      entry.keys.length === 0
        ? words(entry.words)
        : ui('for', { keys: plain(entry.keys.join(', ')), what: words(entry.words) }),
    ),
  );
}
