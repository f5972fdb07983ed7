import { describe, expect, it } from 'vitest';
import { joinHyphens } from '../../src/calc/expression/hyphens.js';
import { namesIn } from '../../src/calc/expression/names.js';
import { parseExpression } from '../../src/calc/expression/parse.js';

function names(text: string, known: readonly string[], unknownToo = false): readonly string[] {
  const parsed = parseExpression(text);
  if (!parsed.ok) throw new Error(parsed.fault.message);
  const isName = (path: string): boolean => known.includes(path);
  return namesIn(joinHyphens(parsed.value, { isName, unknownToo })).map(({ path }) => path);
}

describe('joinHyphens', () => {
  it.each([
    ['a name with a hyphen', 'on-ground - raised', ['on_ground', 'raised'], ['on_ground', 'raised']],
    ['a subtraction where both sides are names', 'a-b', ['a', 'b', 'a_b'], ['a', 'b']],
    ['a subtraction where the joined name is none', 'a-b', ['a', 'b'], ['a', 'b']],
    ['two hyphens', 'max(low-idle-speed, 1)', ['low_idle_speed', 'low_idle'], ['low_idle_speed']],
    ['spaces make it a subtraction', 'on - ground', ['on_ground'], ['on', 'ground']],
    ['after a dot', 'header.on-ground', ['header.on_ground'], ['header.on_ground']],
  ])('%s', (_, text, known, expected) => {
    expect(names(text, known)).toEqual(expected);
  });

  it('takes two names that are none as one, where asked to', () => {
    expect(names('on-grund', ['on_ground'], true)).toEqual(['on_grund']);
    expect(names('on-grund', ['on_ground'])).toEqual(['on', 'grund']);
  });
});
