// The words of a sentence as what they name: small, without accents, endings and filling words. Judges nothing.

const filling = new Set(
  `a an the of to in on at by for from with and or is are be it its this that these those as if not no do does
  must should can may will reads read shows show which what where how each every both all one two you your
  el la los las un una unos unas de del al en por para con sin y o es son se que su sus este esta como cada
  debe deben puede hay lo le`.split(/\s+/),
);

/** Words that say in another form what a name says: `wide` of a width. */
const sameAs: ReadonlyMap<string, string> = new Map(
  Object.entries({
    wide: 'width',
    high: 'height',
    tall: 'height',
    long: 'length',
    deep: 'depth',
    heavy: 'mass',
    weigh: 'mass',
    weight: 'mass',
    hot: 'temperature',
    warm: 'temperature',
    held: 'hold',
    raise: 'raised',
    ancho: 'ancho',
    ancha: 'ancho',
    alto: 'altura',
    alta: 'altura',
    largo: 'longitud',
    larga: 'longitud',
    peso: 'masa',
    pesa: 'masa',
  }),
);

/** What a text names. `as` turns a word into the one that names have: without it `wide` stays what it is. */
export function namedIn(text: string, as: ReadonlyMap<string, string> = sameAs): ReadonlySet<string> {
  const plain = text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
  const words = plain.match(/\p{L}{2,}/gu) ?? [];
  return new Set(words.filter((word) => !filling.has(word)).map((word) => stem(as.get(word) ?? word)));
}

function stem(word: string): string {
  return word.length > 3 ? word.replace(/(?:es|s|e)$/, '') : word;
}

/** The thing itself in a name: `travel` in *Travel of the sensors* and in *Sensor travel*. */
export function headOf(name: string): string | undefined {
  const [first = ''] = name.split(/[,:;(]| (?:of|for|from|at|in|on|to|between|de|del|desde|en|entre|para) /i);
  return [...namedIn(first)].at(-1);
}
