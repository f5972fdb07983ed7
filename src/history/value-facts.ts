// Check values, adjusters and worksheets of a procedure as facts.

import type { Said } from '../model/comparison.js';
import type { PlainAdjuster, PlainLimits, PlainValue, PlainWorksheet } from '../model/compiled-book.js';
import { addConditions, type BookSense } from './condition-facts.js';
import { addOneOf, addPart, beginSubject, type FactParts, type Place, shown, wording } from './fact-sheet.js';
import { endsOf, list, names, plain, ui, words } from './said.js';

/** Limits, compared by their exact ends. */
export function limitsParts(limits: PlainLimits | undefined): FactParts | undefined {
  return (
    limits && {
      weight: 'technical',
      equal: endsOf(limits),
      spelled: limits.shown,
      said: plain(limits.shown),
      numbers: [limits.shown],
    }
  );
}

export function addValue(at: Place, value: PlainValue, sense: BookSense): void {
  const { id, label, band, nominal, instrument, exactResolution, resolution, unit } = value;
  const said = sayLimits(value);
  const place = beginSubject(
    at,
    { kind: 'value', id, label: words(label) },
    { weight: 'technical', ...(said && { said }), numbers: numbersOf(value) },
  );
  addPart(place, 'label', wording(label));
  addPart(place, 'quantity', shown(value.quantity === undefined ? undefined : plain(value.quantity)));
  addPart(place, 'limits', valueLimits(value));
  if (!said) addPart(place, 'unit', shown(plain(unit.symbol)));
  addPart(place, 'band', limitsParts(band));
  addPart(place, 'nominal', limitsParts(nominal));
  addPart(
    place,
    'resolution',
    exactResolution === undefined
      ? undefined
      : {
          weight: 'technical',
          equal: exactResolution,
          said: plain(`${resolution} ${unit.symbol}`.trim()),
        },
  );
  addPart(
    place,
    'instrument',
    instrument && { weight: 'technical', equal: instrument.id, said: words(instrument.label) },
  );
  addPart(place, 'read-at', value.readAt === undefined ? undefined : placeParts(value.readAt, sense));
  addConditions(place, 'needs', { conditions: value.needs, sense });
  addPart(place, 'from', formula(value.from));
  addPart(place, 'decision', shown(ui(value.decision)));
  addPart(place, 'source', wording(value.source));
}

/** Where a person stands: a value of the state `person`. */
export function placeParts(at: string, { states, safetyStates }: BookSense): FactParts {
  const label = states.get('person')?.values.find(({ id }) => id === at)?.label;
  return {
    weight: safetyStates.has('person') ? 'safety' : 'technical',
    equal: at,
    said: label ? words(label) : plain(at),
  };
}

function sayLimits({ limits, bookLimits }: PlainValue): Said | undefined {
  if (!limits) return bookLimits && plain(bookLimits.shown);
  if (!bookLimits || bookLimits.shown === limits.shown) return plain(limits.shown);
  return ui('in-use', { limits: plain(limits.shown), book: plain(bookLimits.shown) });
}

function numbersOf({ limits, bookLimits, otherUnits }: PlainValue): readonly string[] {
  return [limits?.shown, bookLimits?.shown, otherUnits].flatMap((text) => text ?? []);
}

function valueLimits(value: PlainValue): FactParts | undefined {
  const said = sayLimits(value);
  return (
    said && {
      weight: 'technical',
      equal: `${endsOf(value.limits)} ${endsOf(value.bookLimits)}`,
      spelled: numbersOf(value).join(),
      said,
      numbers: numbersOf(value),
    }
  );
}

/** A formula, whatever its blanks. */
function formula(text: string | undefined): FactParts | undefined {
  return text === undefined
    ? undefined
    : { weight: 'technical', equal: text.replaceAll(/\s+/g, ''), said: plain(text.trim().replaceAll(/\s+/g, ' ')) };
}

export function addAdjuster(at: Place, adjuster: PlainAdjuster): void {
  const { id, label, smallest, exactSmallest, effects, watch } = adjuster;
  const place = beginSubject(
    at,
    { kind: 'adjuster', id, label: words(label) },
    { weight: 'technical', said: plain(adjuster.range.shown), numbers: [adjuster.range.shown, smallest ?? ''] },
  );
  addPart(place, 'label', wording(label));
  addPart(place, 'range', limitsParts(adjuster.range));
  addPart(
    place,
    'smallest',
    smallest === undefined
      ? undefined
      : {
          weight: 'technical',
          equal: exactSmallest ?? smallest,
          spelled: smallest,
          said: plain(smallest),
          numbers: [smallest],
        },
  );
  // which way is positive decides which way a person turns
  addPart(place, 'positive', wording(adjuster.positive, 'technical'));
  for (const effect of effects) {
    addOneOf(place, 'effects', effect.value, {
      weight: 'technical',
      equal: `${effect.low}..${effect.high}`,
      said: ui('effect', { value: plain(effect.value), effect: plain(effect.shown) }),
    });
  }
  addPart(place, 'watch', shown(watch === undefined ? undefined : plain(watch)));
}

export function addWorksheet(at: Place, worksheet: PlainWorksheet): void {
  const { id, label, rows, columns, results } = worksheet;
  const place = beginSubject(
    at,
    { kind: 'worksheet', id, ...(label && { label: words(label) }) },
    { weight: 'technical', said: list([...columns, ...results].map((one) => words(one.label))) },
  );
  addPart(place, 'label', wording(label));
  addPart(place, 'rows', shown(plain(rows.max === undefined ? `${rows.min}` : `${rows.min} to ${rows.max}`)));
  addPart(place, 'decision', shown(ui(worksheet.decision)));
  for (const column of columns) {
    const own = beginSubject(
      place,
      { kind: 'column', id: column.id, label: words(column.label) },
      { weight: 'technical' },
    );
    addPart(own, 'label', wording(column.label));
    addPart(own, 'unit', shown(column.unit && plain(column.unit.symbol)));
    addPart(own, 'choices', shown(column.choices && names(column.choices)));
    addPart(own, 'choice-words', shown(column.choiceLabels && list(column.choiceLabels.map(words)), 'text'));
    addPart(own, 'from', formula(column.from));
    addPart(own, 'limits', limitsParts(column.limits));
    const { instrument } = column;
    addPart(
      own,
      'instrument',
      instrument && { weight: 'technical', equal: instrument.id, said: words(instrument.label) },
    );
  }
  for (const result of results) {
    const own = beginSubject(
      place,
      { kind: 'result', id: result.id, label: words(result.label) },
      {
        weight: 'technical',
        ...(result.limits && { said: plain(result.limits.shown) }),
      },
    );
    addPart(own, 'label', wording(result.label));
    addPart(own, 'unit', shown(result.limits ? undefined : plain(result.unit.symbol)));
    addPart(own, 'from', formula(result.from));
    addPart(own, 'limits', limitsParts(result.limits));
  }
}
