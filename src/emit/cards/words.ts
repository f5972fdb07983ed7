// The words that a card itself says, by language. Texts of the book are not here.

const english = {
  'read-do': "Read each step, then do it. The machine's manual comes first.",
  'will-kill': 'DANGER',
  'may-kill': 'WARNING',
  'may-injure': 'CAUTION',
  damage: 'NOTICE',
  before: 'Before you start',
  expect: 'See',
  failed: 'If not',
  outside: 'Outside',
  low: 'Too low',
  high: 'Too high',
  unsure: 'Too close to call',
  fault: 'No true reading',
  then: 'Then',
  step: 'step {step}',
  once: 'step {step}, once',
  again: 'step {step}, at most {count} times',
  else: 'after that {where}',
  done: 'finished',
  stop: 'stop and leave it safe and unused',
  call: 'call {phone}',
  hold: 'Hold {time}',
  wait: 'Wait {time}',
  person: 'Person {count}',
  technician: 'Technician',
  'worked-out': 'Worked out',
  found: 'found',
  left: 'left',
  trouble: 'A reading is outside, or something is not as it says here?',
  revision: 'Rev {revision}',
  by: 'by {date}',
  draft: 'DRAFT',
  of: '{page} of {pages}',
  with_option: 'with {option}',
  without_option: 'without {option}',
  from: 'from {serial}',
  after: 'after {serial}',
  to: 'up to {serial}',
  below: 'before {serial}',
  software: 'software {versions}',
  or: 'or',
  read: 'Read {values}',
  run: 'Do all of the card “{title}”, then come back here.',
  card: 'do the card “{title}”',
  rises: '{value} rises',
  falls: '{value} falls',
  tick: 'box to tick',
  code: 'code that leads to the page {url}',
} as const;

export type CardWord = keyof typeof english;

const spanish: Record<CardWord, string> = {
  'read-do': 'Lea cada paso y hágalo. El manual de la máquina va primero.',
  'will-kill': 'PELIGRO',
  'may-kill': 'ADVERTENCIA',
  'may-injure': 'ATENCIÓN',
  damage: 'AVISO',
  before: 'Antes de empezar',
  expect: 'Se ve',
  failed: 'Si no',
  outside: 'Fuera de límites',
  low: 'Demasiado bajo',
  high: 'Demasiado alto',
  unsure: 'Demasiado justo',
  fault: 'No es una lectura real',
  then: 'Luego',
  step: 'paso {step}',
  once: 'paso {step}, una vez',
  again: 'paso {step}, como máximo {count} veces',
  else: 'después {where}',
  done: 'terminado',
  stop: 'pare y deje la máquina segura y sin usar',
  call: 'llame al {phone}',
  hold: 'Mantenga {time}',
  wait: 'Espere {time}',
  person: 'Persona {count}',
  technician: 'Técnico',
  'worked-out': 'Calculado',
  found: 'antes',
  left: 'después',
  trouble: '¿Una lectura está fuera, o algo no es como dice aquí?',
  revision: 'Rev {revision}',
  by: 'hasta {date}',
  draft: 'BORRADOR',
  of: '{page} de {pages}',
  with_option: 'con {option}',
  without_option: 'sin {option}',
  from: 'desde {serial}',
  after: 'después de {serial}',
  to: 'hasta {serial}',
  below: 'antes de {serial}',
  software: 'software {versions}',
  or: 'o',
  read: 'Lea {values}',
  run: 'Haga toda la tarjeta “{title}” y vuelva aquí.',
  card: 'haga la tarjeta “{title}”',
  rises: 'sube {value}',
  falls: 'baja {value}',
  tick: 'casilla para marcar',
  code: 'código que lleva a la página {url}',
};

const tables: Readonly<Record<string, Record<CardWord, string>>> = { en: english, es: spanish };

/** The languages that cards speak. */
export function speaks(language: string): boolean {
  return language in tables;
}

/** A word of the card with its places filled. A language without a table reads English. */
export function cardWord(
  language: string,
  key: CardWord,
  parts: Readonly<Record<string, string | number>> = {},
): string {
  const raw = (tables[language] ?? english)[key];
  return raw.replaceAll(/\{([a-z]+)\}/g, (_, name: string) => {
    const part = parts[name];
    if (part === undefined) throw new Error(`The card's word \`${key}\` lacks its \`${name}\``);
    return String(part);
  });
}
