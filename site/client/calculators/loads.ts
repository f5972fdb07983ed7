// The load calibration as a form: rows of masses to the factor, the errors, the plot and the load that spoils them.

import { calibrateLoads, type LoadResults } from '../../../src/calc/calculators/loads.js';
import { readNumber } from '../../../src/calc/calculators/read-number.js';
import { noUnit } from '../../../src/calc/conversion.js';
import { equals, toNumber } from '../../../src/calc/rational.js';
import { drawLoadPlot } from '../../../src/emit/pictures/load-plot.js';
import { element } from '../element.js';
import { type Form, showLink } from './form.js';
import { showPicture } from './picture.js';

interface Row {
  readonly line: HTMLTableRowElement;
  readonly shown: number;
  readonly scale: number;
}

/** The rows that are filled in whole, and the first that is not whole and not empty. */
interface Filled {
  readonly rows: readonly Row[];
  readonly amiss?: HTMLTableRowElement;
}

/** Shows the form in place of the worked example. */
export function startLoads(section: HTMLElement): Form {
  const form = section.querySelector('form');
  if (!form) throw new Error('The loads have no form');
  form.hidden = false;
  const example = section.querySelector<HTMLElement>('.example');
  if (example) example.hidden = true;
  const work = (): void => workOut(section, form);
  form.addEventListener('input', work);
  form.addEventListener('submit', (event) => event.preventDefault());
  work();
  return {
    take: (numbers) => {
      for (const name of ['shown', 'scale']) {
        const typed = numbers.get(name)?.split('_') ?? [];
        inputsOf(form, name).forEach((input, i) => {
          input.value = typed[i] ?? '';
        });
      }
      const unit = unitOf(form);
      if (unit) unit.value = numbers.get('unit') ?? unit.value;
      work();
    },
  };
}

function inputsOf(within: ParentNode, name: string): readonly HTMLInputElement[] {
  return [...within.querySelectorAll<HTMLInputElement>(`input[name="${name}"]`)];
}

function unitOf(form: HTMLFormElement): HTMLSelectElement | null {
  return form.querySelector<HTMLSelectElement>('select[name="unit"]');
}

function read(input: HTMLInputElement | undefined): number | undefined {
  const found = input && readNumber(input.value, noUnit);
  const value = found && equals(found.low, found.high) ? toNumber(found.low) : undefined;
  const isWrong = input !== undefined && input.value.trim() !== '' && !(value !== undefined && value > 0);
  input?.setAttribute('aria-invalid', String(isWrong));
  return isWrong ? undefined : value;
}

function rowsOf(form: HTMLFormElement): Filled {
  const rows: Row[] = [];
  let amiss: HTMLTableRowElement | undefined;
  for (const line of form.querySelectorAll<HTMLTableRowElement>('tbody tr')) {
    const [shown, scale] = [read(inputsOf(line, 'shown')[0]), read(inputsOf(line, 'scale')[0])];
    const error = line.querySelector('.error');
    if (error) error.textContent = '';
    if (shown !== undefined && scale !== undefined) rows.push({ line, shown, scale });
    else if ([...line.querySelectorAll('input')].some(({ value }) => value.trim() !== '')) amiss ??= line;
  }
  return { rows, ...(amiss && { amiss }) };
}

function workOut(section: HTMLElement, form: HTMLFormElement): void {
  const { rows, amiss } = rowsOf(form);
  // a load left out in silence would be another factor
  const results = amiss ? undefined : calibrateLoads(rows);
  const unit = unitOf(form)?.value ?? 'lb';
  rows.forEach(({ line }, i) => {
    const error = line.querySelector('.error');
    if (error) error.textContent = results?.errors[i] ?? '';
  });
  const spoiled = results?.spoiler === undefined ? undefined : rows[results.spoiler]?.line;
  const note = section.querySelector('[data-note]');
  const { few = '', spoiler = '', amiss: wrong = '' } = section.dataset;
  const about = amiss ?? spoiled;
  const words = amiss ? wrong : !results ? few : spoiled ? spoiler : '';
  if (note) note.textContent = words.replace('{load}', String(about?.rowIndex ?? ''));
  showNumbers(section, results, unit);
  showPicture(section, results && draw(section, { rows, results, unit }));
  showLink(section, [
    ['unit', unit],
    ...['shown', 'scale'].map(
      (name) =>
        [
          name,
          inputsOf(form, name)
            .map(({ value }) => value)
            .join('_'),
        ] as const,
    ),
  ]);
}

function showNumbers(section: HTMLElement, results: LoadResults | undefined, unit: string): void {
  const { factor, worst, line, scatter } = results ?? {};
  const numbers = { factor, worst, line, scatter: scatter && `${scatter} ${unit}` };
  for (const [name, text = '—'] of Object.entries(numbers))
    section.querySelector(`[data-outcome="${name}"]`)?.replaceChildren(element('span', {}, [text]));
}

function draw(section: HTMLElement, of: { rows: readonly Row[]; results: LoadResults; unit: string }) {
  const { along = '', upward = '', residual = '', picture = '' } = section.dataset;
  const { spoiler, slope } = of.results;
  return drawLoadPlot(
    {
      points: of.rows,
      unit: of.unit,
      slope,
      height: 0,
      ...(spoiler !== undefined && { spoiler }),
      along,
      upward,
      residual,
    },
    {
      title: section.querySelector('h2')?.textContent ?? '',
      describe: ({ ticks, rest }) =>
        picture.replace('{count}', String(of.rows.length)).replace('{ticks}', ticks).replace('{rest}', rest),
    },
  );
}
