import { describe, expect, it } from 'vitest';
import { askWhetherMeant, nearestNames } from '../../src/diagnostic/nearest.js';

describe('nearestNames', () => {
  it.each([
    ['a letter left out', 'multmeter', ['multimeter', 'display'], ['multimeter']],
    ['two letters exchanged', 'brid', ['bird', 'brick'], ['bird']],
    ['capitals', 'Display', ['display'], ['display']],
    ['the joint', 'low_idle', ['low-idle', 'off'], ['low-idle']],
    ['a space for the joint', 'truck scale', ['truck-scale'], ['truck-scale']],
    ['nothing near', 'engine', ['person', 'key'], []],
    ['one letter is near to nothing', 'x', ['y', 'z'], []],
    ['two letters with one wrong', 'on', ['off', 'in'], ['in']],
  ])('%s', (_, name, candidates, expected) => {
    expect(nearestNames(name, candidates)).toEqual(expected);
  });

  it('gives three at most, the nearest first and then by letters', () => {
    expect(nearestNames('step-1x', ['step-14', 'step-13', 'step-12', 'step-1x-a', 'step-1'])).toEqual([
      'step-1',
      'step-12',
      'step-13',
    ]);
  });
});

describe('askWhetherMeant', () => {
  it.each([
    [[], undefined],
    [['a'], 'Did you mean `a`?'],
    [['a', 'b', 'c'], 'Did you mean `a`, `b` or `c`?'],
  ])('%j', (names, expected) => {
    expect(askWhetherMeant(names)).toBe(expected);
  });
});
