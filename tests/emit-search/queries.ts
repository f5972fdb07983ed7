// What operators and desk staff type or say, with the procedures that answer it: written from the work and not from the
// index. Homes by their first letters; where two procedures answer, either counts.

export type QueryKind =
  | 'clean'
  | 'misspelt'
  | 'synonym'
  | 'symptom'
  | 'value'
  | 'code'
  | 'spanish'
  | 'spanish-misspelt';

export interface LabelledQuery {
  readonly kind: QueryKind;
  readonly home: string;
  readonly query: string;
  readonly answers: readonly string[];
}

const homes = {
  row: 'tarn-40/row-12x20/',
  draper: 'tarn-60/draper-35/',
  old: 'corrie-9/row-6x30/',
  platform: 'tarn-40/platform-30/',
} as const;

type Row = readonly [query: string, answer: string, home?: keyof typeof homes];

const clean: readonly Row[] = [
  ['learn header height', 'learn-height-range'],
  ['height range', 'learn-height-range'],
  ['set the height sensors', 'check-height-sensor'],
  ['height sensor supply', 'check-height-sensor'],
  ['working height', 'set-working-height'],
  ['headland height', 'set-working-height'],
  ['response', 'set-response'],
  ['area count', 'width-and-area'],
  ['header width', 'width-and-area'],
  ['couple header', 'couple-header'],
  ['hang header', 'couple-header'],
  ['take header off', 'uncouple-header'],
  ['uncouple', 'uncouple-header'],
  ['confirm header', 'confirm-header'],
  ['enter header by hand', 'enter-header', 'old'],
  ['mass flow calibration', 'mass-flow'],
  ['weighed loads', 'mass-flow'],
  ['count losses', 'count-losses'],
  ['kernels on the ground', 'count-losses'],
  ['draper belt', 'track-draper', 'draper'],
  ['belt run true', 'track-draper', 'draper'],
  ['shut down', 'shut-down'],
  ['lift stop', 'shut-down back-to-work'],
  ['park for winter season', 'park-for-season'],
  ['make safe', 'make-safe'],
  ['come back to work', 'back-to-work'],
  ['stow lift stop', 'back-to-work'],
  ['tire pressure', 'one-side-digs-in'],
  ['scale ticket', 'mass-flow'],
  ['do not start tag', 'check-height-sensor'],
  ['hoses on', 'couple-header'],
  ['close latches', 'couple-header'],
  ['stands down', 'uncouple-header'],
  ['ride damper off', 'set-response'],
  ['measuring wheel', 'width-and-area'],
  ['idler roller bolt', 'track-draper', 'draper'],
  ['grease drive shafts', 'park-for-season'],
  ['level the header', 'one-side-digs-in'],
];

const misspelt: readonly Row[] = [
  ['lern hieght range', 'learn-height-range'],
  ['heigth range', 'learn-height-range'],
  ['hight senser', 'check-height-sensor learn-height-range'],
  ['sensr supply', 'check-height-sensor'],
  ['calibrat mas flow', 'mass-flow'],
  ['waying loads', 'mass-flow'],
  ['weigthed loads', 'mass-flow'],
  ['uncuple header', 'uncouple-header'],
  ['cupple header', 'couple-header'],
  ['copling header', 'couple-header uncouple-header'],
  ['parck for seson', 'park-for-season'],
  ['shutdwon', 'shut-down'],
  ['shut donw', 'shut-down'],
  ['lift stopp', 'shut-down back-to-work'],
  ['draper belst', 'track-draper', 'draper'],
  ['idler roler', 'track-draper', 'draper'],
  ['count loses', 'count-losses'],
  ['kernals', 'count-losses'],
  ['wrokng height', 'set-working-height'],
  ['hedland height', 'set-working-height'],
  ['respnse', 'set-response'],
  ['area cuont', 'width-and-area'],
  ['mesuring wheel', 'width-and-area'],
  ['tire presure', 'one-side-digs-in'],
  ['confrim header', 'confirm-header'],
  ['latchs', 'couple-header uncouple-header'],
  ['threshng lamp', 'range-not-stored'],
  ['not storred', 'range-not-stored'],
  ['digs in one sied', 'one-side-digs-in'],
  ['make saef', 'make-safe'],
];

const synonym: readonly Row[] = [
  ['corn head width', 'width-and-area'],
  ['attach corn head', 'couple-header'],
  ['take corn head off', 'uncouple-header'],
  ['height control does not follow', 'set-working-height'],
  ['auto height', 'set-working-height'],
  ['cut height', 'set-working-height'],
  ['stubble height', 'set-working-height'],
  ['turn row height', 'set-working-height'],
  ['cylinder stop', 'shut-down back-to-work'],
  ['safety stop', 'shut-down back-to-work'],
  ['header prop', 'shut-down back-to-work'],
  ['empty grain bin', 'mass-flow'],
  ['header float', 'set-response'],
  ['distance wheel', 'width-and-area'],
  ['belt header tracking', 'track-draper', 'draper'],
  ['separator still on', 'range-not-stored'],
  ['snapping header', 'couple-header uncouple-header enter-header', 'old'],
  ['handbrake', 'shut-down make-safe couple-header set-response'],
];

const symptom: readonly Row[] = [
  ['one side digs in', 'one-side-digs-in'],
  ['header leans to the left', 'one-side-digs-in check-height-sensor'],
  ['header hunts', 'set-response'],
  ['header goes up and down by itself', 'set-response'],
  ['header comes down too fast', 'set-response'],
  ['range is gone after next start', 'range-not-stored'],
  ['no message after holding the key', 'range-not-stored learn-height-range'],
  ['low stored does not appear', 'learn-height-range range-not-stored'],
  ['automatic height does nothing', 'set-working-height'],
  ['header does not come down', 'back-to-work'],
  ['header jumps when engine starts', 'back-to-work'],
  ['yield is wrong', 'width-and-area mass-flow'],
  ['wrong area', 'width-and-area'],
  ['counts with width of the last header', 'width-and-area'],
  ['area runs on at the headland', 'width-and-area'],
  ['losing grain behind the machine', 'count-losses'],
  ['header loses kernels', 'count-losses'],
  ['belt wanders to one side', 'track-draper', 'draper'],
  ['torn belt', 'track-draper', 'draper'],
  ['machine does not know which header', 'confirm-header'],
  ['panel ignores keys', 'enter-header', 'old'],
  ['latch does not close', 'couple-header'],
  ['hook slides past the beam', 'couple-header'],
  ['mice in the elevator', 'park-for-season'],
  ['header sinks on one stand', 'uncouple-header'],
  ['first load weighs more on the scale than display', 'mass-flow'],
  ['one end of header higher than the other', 'learn-height-range one-side-digs-in'],
  ['mud on the arm', 'range-not-stored check-height-sensor'],
  ['feeder house moves in the furrow', 'set-working-height'],
];

const value: readonly Row[] = [
  ['sensor voltage raised', 'learn-height-range'],
  ['sensor voltage on ground', 'learn-height-range check-height-sensor'],
  ['supply voltage sensor', 'check-height-sensor'],
  ['drive tire psi', 'one-side-digs-in'],
  ['travel of sensors', 'learn-height-range'],
  ['time from top to ground', 'set-response'],
  ['largest error of the area', 'width-and-area'],
  ['belt edge to rear lip', 'track-draper', 'draper'],
  ['header lost mean', 'count-losses'],
  ['check load error', 'mass-flow'],
  ['height at which area count stops', 'width-and-area'],
];

const code: readonly Row[] = [
  ['LOW STORED', 'learn-height-range'],
  ['HIGH STORED', 'learn-height-range'],
  ['KEEP 1', 'set-working-height'],
  ['keep2', 'set-working-height'],
  ['COUNT BELOW', 'width-and-area'],
  ['NO GRAIN', 'mass-flow'],
  ['TEACH', 'learn-height-range', 'draper'],
  ['0.73 to 1.07', 'learn-height-range'],
  ['TAKEN', 'enter-header', 'old'],
  ['which header page', 'confirm-header range-not-stored'],
];

const spanish: readonly Row[] = [
  ['aprender altura', 'learn-height-range'],
  ['rango de altura', 'learn-height-range'],
  ['sensor de altura', 'check-height-sensor learn-height-range'],
  ['voltaje del sensor arriba', 'learn-height-range'],
  ['tensión sensor en el suelo', 'learn-height-range check-height-sensor'],
  ['enganchar cabezal', 'couple-header'],
  ['quitar cabezal', 'uncouple-header'],
  ['desenganchar', 'uncouple-header'],
  ['tope de levante', 'shut-down back-to-work'],
  ['apagar la máquina', 'shut-down'],
  ['dejar la máquina segura', 'make-safe'],
  ['volver al trabajo', 'back-to-work'],
  ['confirmar cabezal', 'confirm-header'],
  ['corn head', 'couple-header uncouple-header confirm-header width-and-area'],
  ['lift stop', 'shut-down back-to-work'],
  ['trabas', 'couple-header uncouple-header'],
  ['mangueras', 'couple-header uncouple-header'],
  ['llave puesta', 'back-to-work shut-down'],
  ['un lado más alto que el otro', 'learn-height-range one-side-digs-in'],
];

const spanishMisspelt: readonly Row[] = [
  ['aprendr altura', 'learn-height-range'],
  ['sensr de altura', 'check-height-sensor learn-height-range'],
  ['enganchr cabesal', 'couple-header'],
  ['desengancar', 'uncouple-header'],
  ['apagar la makina', 'shut-down'],
  ['confirmr cabezal', 'confirm-header'],
  ['tope de lebante', 'shut-down back-to-work'],
  ['mangeras', 'couple-header uncouple-header'],
  ['volber al trabajo', 'back-to-work'],
];

function labelled(kind: QueryKind, rows: readonly Row[]): readonly LabelledQuery[] {
  const folder = kind.startsWith('spanish') ? 'es/' : '';
  return rows.map(([query, answers, home = 'row']) => ({
    kind,
    home: folder + homes[home],
    query,
    answers: answers.split(' '),
  }));
}

/** All of them. */
export const queries: readonly LabelledQuery[] = [
  ...labelled('clean', clean),
  ...labelled('misspelt', misspelt),
  ...labelled('synonym', synonym),
  ...labelled('symptom', symptom),
  ...labelled('value', value),
  ...labelled('code', code),
  ...labelled('spanish', spanish),
  ...labelled('spanish-misspelt', spanishMisspelt),
];
