// One calculator as a form: fields to results, picture and link.

import {
  type Calculated,
  type Compiled,
  calculate,
  type FieldFault,
  type Typed,
} from '../../../src/calc/calculators/calculate.js';
import { sayResult } from '../../../src/calc/calculators/say.js';
import { drawCalculator } from '../../../src/emit/pictures/calculator-picture.js';
import { element } from '../element.js';
import { showPicture } from './picture.js';

/** A form that takes the numbers of an address. */
export interface Form {
  take(numbers: URLSearchParams): void;
}

/** Shows the form in place of the worked example. */
export function startForm(section: HTMLElement, calculator: Compiled): Form {
  const form = section.querySelector('form');
  if (!form) throw new Error(`${section.id} has no form`);
  form.hidden = false;
  const example = section.querySelector<HTMLElement>('.example');
  if (example) example.hidden = true;
  const work = (): void => workOut(section, form, calculator);
  form.addEventListener('input', work);
  form.addEventListener('submit', (event) => event.preventDefault());
  work();
  return {
    take: (numbers) => {
      for (const control of controlsOf(form)) control.value = numbers.get(control.name) ?? control.value;
      work();
    },
  };
}

type Control = HTMLInputElement | HTMLSelectElement;

function controlsOf(form: HTMLFormElement): readonly Control[] {
  return [...form.querySelectorAll<Control>('input, select')];
}

function workOut(section: HTMLElement, form: HTMLFormElement, calculator: Compiled): void {
  const controls = new Map(controlsOf(form).map((control) => [control.name, control]));
  const typed = new Map(
    calculator.fields.map(({ name, units }): [string, Typed] => {
      const unit = controls.get(`${name}.unit`)?.value ?? units[0]?.symbol ?? '';
      return [name, { text: controls.get(name)?.value ?? '', unit }];
    }),
  );
  const calculated = calculate(calculator, typed);
  showFaults(section, controls, { calculator, calculated });
  showResults(section, calculator, calculated);
  const picture = drawCalculator({
    id: calculator.id,
    title: section.querySelector('h2')?.textContent ?? '',
    calculated,
    typed: new Map([...typed].map(([name, { text, unit }]) => [name, writeTyped(text, unit)])),
    labels: labelsOf(section, calculator),
  });
  showPicture(section, picture);
  showLink(
    section,
    [...controls].map(([name, { value }]) => [name, value]),
  );
}

// what was typed may carry its own unit
function writeTyped(text: string, unit: string): string {
  return unit === '' || /[\p{L}%°]/u.test(text) ? text : `${text}\u00a0${unit}`;
}

function labelsOf(section: HTMLElement, { fields, outcomes }: Compiled): ReadonlyMap<string, string> {
  const labels = new Map<string, string>();
  for (const { name } of fields) {
    const label = section.querySelector(`label[for="${section.id}-${name}"]`)?.textContent;
    if (label) labels.set(name, label);
  }
  for (const { name } of outcomes) {
    const term = section.querySelector(`[data-outcome="${name}"]`)?.previousElementSibling?.textContent;
    if (term) labels.set(name, term);
  }
  return labels;
}

function showFaults(
  section: HTMLElement,
  controls: ReadonlyMap<string, Control>,
  { calculator, calculated: { faults } }: { readonly calculator: Compiled; readonly calculated: Calculated },
): void {
  for (const { name } of calculator.fields) {
    const control = controls.get(name);
    const said = control && document.getElementById(`${control.id}-fault`);
    if (!control || !said) continue;
    const fault = faults.get(name);
    const isWrong = fault !== undefined;
    said.hidden = !isWrong;
    said.textContent = fault ? faultWords(fault, labelsOf(section, calculator)) : '';
    control.setAttribute('aria-invalid', String(isWrong));
    if (isWrong) control.setAttribute('aria-describedby', said.id);
    else control.removeAttribute('aria-describedby');
  }
}

function faultWords(fault: FieldFault, labels: ReadonlyMap<string, string>): string {
  const { unread, larger, ...words } = document.body.dataset;
  if (fault.kind === 'unread') return unread ?? '';
  if (fault.kind === 'larger') return (larger ?? '').replace('{field}', labels.get(fault.than) ?? fault.than);
  return (words[fault.bound.kind] ?? '').replace('{number}', fault.bound.text);
}

function showResults(section: HTMLElement, { outcomes }: Compiled, { results }: Calculated): void {
  for (const { name } of outcomes) {
    const result = results.find((one) => one.name === name);
    const none = result ? [document.body.dataset.none ?? ''] : ['—'];
    const lines = result && 'values' in result ? sayResult(result, document.body.dataset.surely ?? '') : none;
    const place = section.querySelector(`[data-outcome="${name}"]`);
    place?.replaceChildren(...lines.map((line) => element('span', {}, [line])));
  }
}

/** Puts numbers into the link of a section; a person shares its address. */
export function showLink(section: HTMLElement, numbers: readonly (readonly [string, string])[]): void {
  const place = section.querySelector<HTMLElement>('.numbers-link');
  const link = place?.querySelector('a');
  if (!place || !link) return;
  place.hidden = false;
  link.href = `#${section.id}?${new URLSearchParams(numbers.map(([name, value]) => [name, value]))}`;
}
