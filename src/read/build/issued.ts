// issued.yaml into the model: the register of printed cards. Its names are those of another day, and are not looked up.

import type { IssuedCard } from '../../model/book.js';
import { dateBehind } from './dates.js';
import { childOf, countBehind, idBehind, idsBehind, itemsOf, type Part, partOf } from './part.js';
import { filled, type Reading } from './reading.js';

/** The cards of issued.yaml, in the order of the file. */
export function issuedOf(reading: Reading, part: Part): readonly IssuedCard[] {
  return itemsOf(childOf(reading, part, 'cards')).flatMap((node) => cardOf(reading, partOf(node)) ?? []);
}

function cardOf(reading: Reading, part: Part): IssuedCard | undefined {
  const id = (key: string) => idBehind(reading, part, key);
  const [code, procedure, language] = [id('code'), id('procedure'), id('language')];
  const [printed, content] = [id('printed'), id('content')];
  const revision = countBehind(reading, part, 'revision');
  const on = dateBehind(reading, part, 'on');
  if (!code || !procedure || !language || !printed || !content || !revision || !on) return undefined;
  return filled({
    code,
    procedure,
    revision,
    language,
    rigs: idsBehind(reading, part, 'rigs'),
    printed,
    content,
    unit: id('unit'),
    place: id('for'),
    on,
    at: part.node.at,
  });
}
