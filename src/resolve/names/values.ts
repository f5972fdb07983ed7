// Names in check values, adjusters and worksheets.

import { describeDimension, quantityDimension, quantityKinds } from '../../calc/dimension.js';
import { findUnit, nearestUnits } from '../../calc/unit.js';
import type { Adjuster, CheckValue, Worksheet } from '../../model/procedure.js';
import type { Located } from '../../text/source.js';
import { checkApplies } from './applies.js';
import { type Checker, checkChoice, checkName } from './checker.js';
import { checkExpression, checkNumber } from './expressions.js';
import { checkText, type TextPlaces } from './texts.js';

/** Checks every name in a check value. */
export function checkValue(checker: Checker, value: CheckValue, places: TextPlaces): void {
  checkText(checker, value.label, places);
  checkText(checker, value.origin, places);
  checkQuantity(checker, value.quantity);
  checkUnit(checker, value.unit);
  for (const number of [value.limits, value.nominal, value.inside]) checkNumber(checker, number);
  for (const name of checkChoice(checker, value.readWith)) checkInstrument(checker, name);
  if (value.readAt) checkName(checker, { kind: 'place', name: value.readAt, known: checker.vocabulary.places });
  checkExpression(checker, value.from, { locals: places.values ?? new Set() });
  checkApplies(checker, value.only);
}

/** Checks every name in an adjuster. */
export function checkAdjuster(checker: Checker, adjuster: Adjuster, places: TextPlaces): void {
  checkText(checker, adjuster.label, places);
  checkText(checker, adjuster.positive, places);
  checkNumber(checker, adjuster.range);
  checkNumber(checker, adjuster.smallest);
  const known = places.values ?? new Set<string>();
  for (const { value, effect } of adjuster.moves) {
    checkName(checker, { kind: 'value', name: value, known });
    for (const written of checkChoice(checker, effect)) checkExpression(checker, written);
  }
  if (adjuster.watch) checkName(checker, { kind: 'value', name: adjuster.watch, known });
  checkApplies(checker, adjuster.only);
}

/** Checks every name in a worksheet. */
export function checkWorksheet(checker: Checker, worksheet: Worksheet, places: TextPlaces): void {
  checkText(checker, worksheet.label, places);
  checkExpression(checker, worksheet.rows);
  const locals = new Set([...worksheet.columns, ...worksheet.results].map(({ id }) => id));
  for (const column of worksheet.columns) {
    if (column.readWith) checkInstrument(checker, column.readWith);
  }
  for (const part of [...worksheet.columns, ...worksheet.results]) {
    checkText(checker, part.label, places);
    checkUnit(checker, part.unit);
    checkExpression(checker, part.from, { locals });
    checkNumber(checker, part.limits);
  }
}

/** Checks the name of a quantity. A unit in its place, `volts`, tells which one is meant. */
export function checkQuantity(checker: Checker, name: Located<string> | undefined): void {
  if (!name) return;
  const plain = { ...name, value: name.value.replaceAll(/[ _]/g, '-') };
  const [symbol = name.value] = nearestUnits(name.value);
  const unit = findUnit(symbol);
  const kind = unit && describeDimension(unit.dimension).replaceAll(' ', '-');
  const near = kind !== undefined && quantityDimension(kind) ? { near: [kind] } : {};
  checkName(checker, { kind: 'quantity', name: plain, known: quantityKinds(), ...near });
}

function checkUnit(checker: Checker, name: Located<string> | undefined): void {
  if (!name || findUnit(name.value)) return;
  const near = nearestUnits(name.value);
  checkName(checker, { kind: 'unit', name, known: [], near, message: `\`${name.value}\` is no unit` });
}

function checkInstrument(checker: Checker, name: Located<string>): void {
  checkName(checker, { kind: 'instrument', name, known: checker.book.instruments });
}
