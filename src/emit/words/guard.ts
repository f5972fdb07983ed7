// The words of the page about slips, in every language of the interface. `{name}` is a place that the page fills.

const english = {
  title: 'What a slip of the fingers could change',
  why: 'Each number, unit, limit, state, step and name of the book was changed as fingers slip, and the book was checked again.',
  figure: '{percent} % of the slips that count were noticed: {noticed} of {counted}.',
  sample: 'Tried: {size} of {possible} slips, drawn at random.',
  all: 'Tried: all {possible} slips.',
  apart: 'Not counted: {small} smaller than the tolerance, {same} that change nothing on any page.',
  kinds: 'By kind of slip',
  files: 'By file',
  noticed: 'noticed',
  counted: 'of',
  percent: '%',
  survivors: 'What nothing would notice',
  'survivors-why': 'Look at these twice. Below each stands what would guard it.',
  'survivors-none': 'Every slip that was tried was noticed.',
  line: 'line {line}',
  'left-out': 'left out',
  'neighbouring-digit': 'another digit',
  'swapped-digits': 'two digits exchanged',
  'moved-point': 'decimal point moved',
  sign: 'sign lost or added',
  'unit-next-door': 'unit next door',
  'exchanged-limits': 'limits exchanged',
  'dropped-step': 'step left out',
  'swapped-steps': 'two steps exchanged',
  'dropped-need': 'condition of a step left out',
  'dropped-requirement': 'condition of the start left out',
  'other-state-value': 'another value of a state',
  'other-instrument': 'another instrument',
  'wrong-rig-key': 'wrong machine or header',
  'other-reference': 'another name',
} as const;

type GuardKey = keyof typeof english;

const spanish: Readonly<Record<GuardKey, string>> = {
  title: 'Lo que un error de dedos podría cambiar',
  why: 'Cada número, unidad, límite, estado, paso y nombre del libro se cambió como se equivocan los dedos, y se revisó el libro otra vez.',
  figure: 'Se notó el {percent} % de los errores que cuentan: {noticed} de {counted}.',
  sample: 'Probados: {size} de {possible} errores, al azar.',
  all: 'Probados: todos los {possible} errores.',
  apart: 'No cuentan: {small} menores que la tolerancia, {same} que no cambian nada en ninguna página.',
  kinds: 'Por clase de error',
  files: 'Por archivo',
  noticed: 'notados',
  counted: 'de',
  percent: '%',
  survivors: 'Lo que nada notaría',
  'survivors-why': 'Mírelos dos veces. Debajo de cada uno está lo que lo protegería (en inglés).',
  'survivors-none': 'Se notó cada error que se probó.',
  line: 'línea {line}',
  'left-out': 'omitido',
  'neighbouring-digit': 'otra cifra',
  'swapped-digits': 'dos cifras cambiadas',
  'moved-point': 'punto decimal corrido',
  sign: 'signo perdido o agregado',
  'unit-next-door': 'unidad vecina',
  'exchanged-limits': 'límites cambiados',
  'dropped-step': 'paso omitido',
  'swapped-steps': 'dos pasos cambiados',
  'dropped-need': 'condición de un paso omitida',
  'dropped-requirement': 'condición del comienzo omitida',
  'other-state-value': 'otro valor de un estado',
  'other-instrument': 'otro instrumento',
  'wrong-rig-key': 'máquina o cabezal equivocado',
  'other-reference': 'otro nombre',
};

/** A word of the page; a kind of slip that has none here stands for itself. */
export function guardWord(
  language: string,
  key: string,
  parts: Readonly<Record<string, string | number>> = {},
): string {
  const words: Readonly<Record<string, string>> = language === 'es' ? spanish : english;
  return (words[key] ?? key).replaceAll(/\{(\w+)\}/g, (whole, name: string) => String(parts[name] ?? whole));
}
