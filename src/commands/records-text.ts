// The report on a book's records in words, for a desk to read.

import type {
  Bounded,
  DoubtfulInstrument,
  Drift,
  KeepingSample,
  RecordsReport,
  ReportLimits,
  ReportRig,
  Sample,
  ValueReport,
  WrongNote,
} from '../model/records-report.js';

/** Words that the report itself does not hold. */
export interface ReportWords {
  /** The customer of a unit, where the fleet says one. */
  readonly customer: (unit: string) => string | undefined;
}

/** The report as text, a line feed at its end. */
export function renderReport(report: RecordsReport, words: ReportWords): string {
  const sections = [
    [headLine(report)],
    ...inProcedures(report.values, words),
    section('Between two jobs: as left then, as found now', driftLines(report.drift, words)),
    section('Pages found wrong', wrongLines(report.wrong)),
    section(
      'Instruments in doubt',
      report.instruments.map((one) => instrumentLine(one, report)),
    ),
    section(
      'Files that could not be used',
      report.unused.map(({ file, why }) => `  ${file}: ${why}`),
    ),
    footLines(report),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

function section(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [title, ...lines];
}

function headLine({ jobs: { count, open, from, to }, values }: RecordsReport): string {
  if (count === 0) return 'No records';
  const units = new Set(values.flatMap((value) => value.units.flatMap(({ unit }) => unit ?? [])));
  const of = units.size === 0 ? '' : ` of ${counted(units.size, 'machine')} known by unit or serial`;
  const when = from === to ? `on ${from}` : `from ${from} to ${to}`;
  const still =
    open === 0 ? '' : `; ${open} ${open === 1 ? 'is' : 'are'} open, and what is left there does not count yet`;
  return `${counted(count, 'job')}${of}, ${when}${still}`;
}

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? '' : 's'}`;
}

/** A block for each procedure: its title, then its values. */
function inProcedures(values: readonly ValueReport[], words: ReportWords): readonly (readonly string[])[] {
  const ids = [...new Set(values.map(({ procedure }) => procedure))];
  return ids.map((id) => {
    const own = values.filter(({ procedure }) => procedure === id);
    return [`${own[0]?.title} (${id})`, ...own.flatMap((value) => valueLines(value, words))];
  });
}

function valueLines(value: ValueReport, words: ReportWords): readonly string[] {
  const { limits, otherLimits, asFound, asLeft, near } = value;
  const judged = otherLimits > 0 ? `; ${counted(otherLimits, 'reading')} judged by others` : '';
  const [only, ...more] = value.units;
  const all = more.length === 0 && only?.unit !== undefined ? `, all of ${sayUnit(only.unit, words)}` : '';
  return [
    `  ${value.label}: ${value.value}, ${sayRig(value.rig)}${all}`,
    `    ${limits ? `limits in use ${sayLimits(limits, value)} (revision ${limits.revision})${judged}` : 'no limits'}`,
    `    ${' '.repeat(labelWidth)}${columns.map(([title]) => title.padStart(9)).join('')}`,
    sampleLine('as found', asFound, value),
    sampleLine('as left', asLeft, value),
    ...(value.units.length > 1 ? value.units.flatMap((one) => unitLines(one, value, words)) : []),
    ...keepingLines(asFound, asLeft),
    ...(near
      ? [`    All ${near.count} as ${near.when} lie by the ${near.side === 'low' ? 'lower' : 'upper'} limit.`]
      : []),
  ];
}

function unitLines(
  { unit, asFound, asLeft }: ValueReport['units'][number],
  value: ValueReport,
  words: ReportWords,
): readonly string[] {
  const name = sayUnit(unit, words);
  return [
    ...(asFound.count > 0 ? [sampleLine(`${name} found`, asFound, value)] : []),
    ...(asLeft.count > 0 ? [sampleLine(`${name} left`, asLeft, value)] : []),
  ];
}

function sayRig({ machine, header, version }: ReportRig): string {
  return `${machine}+${header}${version === undefined ? '' : ` ${version}`}`;
}

function sayUnit(unit: string | undefined, { customer }: ReportWords): string {
  if (unit === undefined) return 'not said';
  const name = customer(unit);
  return name === undefined ? unit : `${unit} ${name}`;
}

function sayLimits({ low, high }: Pick<ReportLimits, 'low' | 'high'>, { unit, decimals }: ValueReport): string {
  const sign = unit === '' ? '' : ` ${unit}`;
  const [from, to] = [low, high].map((end) => end !== undefined && limitDigits(end, decimals));
  if (from && to) return `${from} to ${to}${sign}`;
  return from ? `at least ${from}${sign}` : `at most ${to}${sign}`;
}

/** All digits that a limit has, up to two more than were read. */
function limitDigits(end: number, decimals: number): string {
  const plain = Number(end.toFixed(decimals + 2));
  return plain.toFixed(Math.max(decimals, (/\.(\d+)/.exec(String(plain))?.[1] ?? '').length));
}

const labelWidth = 30;

type Cell = (sample: Sample, decimals: number) => string;
const number =
  (key: 'min' | 'max' | 'mean' | 'standardDeviation', more: number): Cell =>
  (sample, decimals) =>
    sample[key] === undefined ? '' : sample[key].toFixed(decimals + more);
const columns: readonly (readonly [string, Cell])[] = [
  ['readings', ({ count }) => String(count)],
  ['pass', ({ pass }) => String(pass)],
  ['fail', ({ fail }) => String(fail)],
  ['unsure', ({ unsure }) => String(unsure)],
  ['fault', ({ fault }) => String(fault)],
  ['min', number('min', 0)],
  ['mean', number('mean', 1)],
  ['max', number('max', 0)],
  ['s', number('standardDeviation', 1)],
];

function sampleLine(label: string, sample: Sample, { decimals }: ValueReport): string {
  const short = label.length > labelWidth ? `${label.slice(0, labelWidth - 1)}…` : label;
  const cells = columns.map(([, cell]) => cell(sample, decimals).padStart(9)).join('');
  return `    ${short.padEnd(labelWidth)}${cells}`.trimEnd();
}

function keepingLines(asFound: KeepingSample, asLeft: KeepingSample): readonly string[] {
  const [found, left] = [sayKeeping(asFound), sayKeeping(asLeft)];
  if (found === tooFew && left === tooFew) return [`    ${tooFew}`];
  return [
    ...(found === undefined ? [] : [`    as found: ${found}`]),
    ...(left === undefined ? [] : [`    as left: ${left}`]),
  ];
}

const tooFew = 'too few readings to claim anything of them together';

const whyNoIndex = {
  few: 'too few readings for an index',
  'not-normal': 'no index, the readings do not look normal',
  'no-scatter': 'no index, the readings do not scatter',
  faults: 'no index, faults are among the readings',
} as const;

function sayKeeping({ count, keeping }: KeepingSample): string | undefined {
  if (keeping.kind === 'not-claimed') {
    return keeping.why === 'no-limits' || count === 0 ? undefined : tooFew;
  }
  if (keeping.kind === 'share') {
    const { outside, share, why } = keeping;
    return `${outside} of ${count} outside, ${percent(share.value)} (${percent(share.low)} to ${percent(share.high)}); ${whyNoIndex[why]}`;
  }
  const { cp, cpk } = keeping;
  return [...(cp ? [`Cp ${sayIndex(cp)}`] : []), `Cpk ${sayIndex(cpk)}`].join(', ');
}

function sayIndex({ value, low, high }: Bounded): string {
  return `${value.toFixed(2)} (${low.toFixed(2)} to ${high.toFixed(2)})`;
}

function percent(share: number): string {
  const value = 100 * share;
  return `${value > 0 && value < 1 ? value.toFixed(1) : value.toFixed(0)} %`;
}

function driftLines(drift: readonly Drift[], words: ReportWords): readonly string[] {
  const heads = new Map<string, string[]>();
  for (const one of drift) {
    const sign = one.unit === '' ? '' : `, ${one.unit}`;
    const head = `  ${sayUnit(one.of, words)}: ${one.label}, ${sayRig(one.rig)}${sign}`;
    heads.set(head, [...(heads.get(head) ?? []), driftRow(driftCells(one))]);
  }
  const title = driftRow(['left on', 'as left', 'found on', 'as found', 'change', 'of width', 'days', 'hours', '']);
  return [...heads].flatMap(([head, rows]) => [head, title, ...rows]);
}

function driftCells({ left, found, decimals, change, days, hours, share }: Drift): readonly string[] {
  const number = (value: number): string => value.toFixed(decimals);
  const went = left.verdict === 'pass' && found.verdict !== 'pass' ? 'went outside' : '';
  return [
    left.on,
    number(left.number),
    found.on,
    number(found.number),
    signed(number(change)),
    share === undefined ? '' : `${signed((100 * share).toFixed(0))} %`,
    String(days),
    hours === undefined ? '' : hours.toFixed(0),
    went,
  ];
}

function driftRow(cells: readonly string[]): string {
  const widths = [10, 10, 12, 10, 10, 10, 7, 7, 0];
  const aligned = cells.map((cell, i) => (i === cells.length - 1 ? `  ${cell}` : cell.padStart(widths[i] ?? 0)));
  return `    ${aligned.join('')}`.trimEnd();
}

/** With `+` above zero; zero has no sign. */
function signed(digits: string): string {
  const value = Number(digits);
  return value > 0 ? `+${digits}` : value === 0 ? digits.replace('-', '') : digits;
}

function wrongLines(notes: readonly WrongNote[]): readonly string[] {
  const ids = [...new Set(notes.map(({ procedure }) => procedure))];
  return ids.flatMap((id) => {
    const own = notes.filter(({ procedure }) => procedure === id);
    return [
      `  ${own[0]?.title} (${id})`,
      ...own.map(
        ({ step, text, on, revision, path, file }) =>
          `    ${step === undefined ? 'the page' : `step ${step}`}: ${text.replaceAll(/\s+/g, ' ')} (${on}, revision ${revision}, ${path}; ${file})`,
      ),
    ];
  });
}

function instrumentLine(
  { on, instrument, calibrated, why, values, record }: DoubtfulInstrument,
  { claims: { calibratedWithinMonths } }: RecordsReport,
): string {
  const reason = {
    old: `calibrated on ${calibrated}, more than ${calibratedWithinMonths} months before`,
    later: `calibrated on ${calibrated}, which is after the job: it may be the day that it is due`,
    'no-date': `calibrated on \`${calibrated}\`, which is no date`,
  }[why];
  return `  ${on} ${instrument ?? 'instrument not said'}: ${reason}; it read ${values.join(', ') || 'nothing'} (job ${record.slice(0, 8)})`;
}

function footLines({ claims, values }: RecordsReport): readonly string[] {
  const keepings = values.flatMap(({ asFound, asLeft }) => [asFound.keeping.kind, asLeft.keeping.kind]);
  if (keepings.length === 0) return [];
  const level = percent(claims.level);
  return [
    `What stands in parentheses is where the true figure lies with ${level} confidence. Below ${claims.shareFrom} readings nothing is claimed,`,
    `below ${claims.indicesFrom} no index. Faults count, and are in no mean.`,
    ...(keepings.includes('indices')
      ? [
          'Cp and Cpk hold for independent readings of something that stays as it is; several readings of one machine are not independent.',
        ]
      : []),
  ];
}
