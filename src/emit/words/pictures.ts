// What pictures drawn from data show, in words for who cannot see them. `{name}` is a place that is filled.

export interface PictureTexts {
  readonly header: string;
  readonly headerWithRows: string;
  readonly headerWithoutRows: string;
  readonly calculate: string;
  readonly travel: string;
  readonly travelBand: string;
  readonly drives: string;
  readonly drivesHow: string;
  readonly on: string;
  readonly off: string;
  readonly unknown: string;
  readonly steps: string;
}

const english: PictureTexts = {
  header: 'This header from above',
  headerWithRows: '{rows} rows, {spacing} from row to row, {width} wide.',
  headerWithoutRows: '{width} wide.',
  calculate: 'Area and width with these numbers',
  travel: 'Way of the reading: {label}',
  travelBand: 'It reads at all from {band}.',
  drives: 'Which drives run',
  drivesHow:
    'As each step begins: a bar where a drive runs, a line where it stands, dashed where nothing is known. Step numbers stand below.',
  on: 'runs',
  off: 'stands',
  unknown: 'not known',
  steps: 'steps {from} to {to}',
};

const spanish: PictureTexts = {
  header: 'Este cabezal desde arriba',
  headerWithRows: '{rows} surcos, {spacing} de surco a surco, {width} de ancho.',
  headerWithoutRows: '{width} de ancho.',
  calculate: 'Superficie y ancho con estos números',
  travel: 'Recorrido de la lectura: {label}',
  travelBand: 'Mide algo solo de {band}.',
  drives: 'Qué mandos giran',
  drivesHow:
    'Al empezar cada paso: barra donde un mando gira, línea donde está parado, rayas donde no se sabe. Los números de los pasos están debajo.',
  on: 'gira',
  off: 'parado',
  unknown: 'no se sabe',
  steps: 'pasos {from} a {to}',
};

/** The words in a language; English where there is none. */
export function pictureTexts(language: string): PictureTexts {
  return language === 'es' ? spanish : english;
}

/** A text with its places filled; a place that is missing is a fault of ours. */
export function fillText(text: string, parts: Readonly<Record<string, string>>): string {
  return text.replaceAll(/\{([a-z]+)\}/g, (_, name: string) => {
    const part = parts[name];
    if (part === undefined) throw new Error(`The words \`${text}\` lack their \`${name}\``);
    return part;
  });
}
