// Numbers and units as words of English and Spanish, for quantities in prose.

interface NumberWords {
  readonly numbers: ReadonlyMap<string, number>;
  /** Words for units that the unit table does not know. */
  readonly units: ReadonlyMap<string, string>;
}

function table<V>(entries: readonly (readonly [string, V])[]): ReadonlyMap<string, V> {
  return new Map(entries.flatMap(([words, value]) => words.split(' ').map((word) => [word, value] as const)));
}

const english: NumberWords = {
  numbers: table([
    ['one', 1],
    ['two', 2],
    ['three', 3],
    ['four', 4],
    ['five', 5],
    ['six', 6],
    ['seven', 7],
    ['eight', 8],
    ['nine', 9],
    ['ten', 10],
    ['eleven', 11],
    ['twelve', 12],
    ['fifteen', 15],
    ['twenty', 20],
    ['thirty', 30],
    ['forty', 40],
    ['fifty', 50],
    ['sixty', 60],
    ['ninety', 90],
  ]),
  units: new Map(),
};

const spanish: NumberWords = {
  numbers: table([
    ['un una uno', 1],
    ['dos', 2],
    ['tres', 3],
    ['cuatro', 4],
    ['cinco', 5],
    ['seis', 6],
    ['siete', 7],
    ['ocho', 8],
    ['nueve', 9],
    ['diez', 10],
    ['once', 11],
    ['doce', 12],
    ['quince', 15],
    ['veinte', 20],
    ['treinta', 30],
    ['cuarenta', 40],
    ['cincuenta', 50],
    ['sesenta', 60],
    ['noventa', 90],
  ]),
  units: table([
    ['pulgada pulgadas', 'in'],
    ['pie pies', 'ft'],
    ['milímetro milímetros', 'mm'],
    ['centímetro centímetros', 'cm'],
    ['metro metros', 'm'],
    ['segundo segundos', 's'],
    ['minuto minutos', 'min'],
    ['hora horas', 'h'],
    ['voltio voltios', 'V'],
    ['grado grados', 'deg'],
    ['vuelta vueltas', 'rev'],
    ['libra libras', 'lb'],
    ['kilo kilos kilogramo kilogramos', 'kg'],
    ['acre acres', 'ac'],
    ['hectárea hectáreas', 'ha'],
  ]),
};

/** Whether a language writes its decimals with a comma as Spanish does. */
export function isSpanish(language: string): boolean {
  return language === 'es' || language.startsWith('es-');
}

/** The words of a language; English where it has none of its own. */
export function unitWords(language: string): NumberWords {
  return isSpanish(language) ? spanish : english;
}

const patterns = new Map<NumberWords, RegExp>();

/** Finds words that are numbers, none behind a hyphen or before `and a half`. */
export function numberWords(language: string): RegExp {
  const words = unitWords(language);
  const known = patterns.get(words);
  if (known) return known;
  const any = [...words.numbers.keys()].join('|');
  const made = new RegExp(`(?<![\\p{L}\\p{N}-])(?:${any})(?![\\p{L}\\p{N}-]| and a | y med)`, 'giu');
  patterns.set(words, made);
  return made;
}
