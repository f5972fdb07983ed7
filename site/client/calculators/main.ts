// The forms of the calculators' page: works out what is typed as it is typed, draws it, and puts the numbers into a link.

import type { Compiled } from '../../../src/calc/calculators/calculate.js';
import { readPortable } from '../../../src/calc/portable.js';
import { type Form, startForm } from './form.js';
import { startLoads } from './loads.js';

const forms = new Map<string, Form>();
for (const section of document.querySelectorAll<HTMLElement>('[data-calculator]')) {
  forms.set(section.id, startForm(section, readPortable<Compiled>(section.dataset.calculator ?? '')));
}
const loads = document.querySelector<HTMLElement>('[data-loads]');
if (loads) forms.set(loads.id, startLoads(loads));

/** Takes the numbers that an address carries, as in `#speed?distance=88&time=12`. */
function takeNumbers(): void {
  const [id = '', numbers] = decodeURIComponent(location.hash.slice(1)).split('?', 2);
  const form = forms.get(id);
  if (!form || numbers === undefined) return;
  form.take(new URLSearchParams(numbers));
  document.getElementById(id)?.scrollIntoView();
}

addEventListener('hashchange', takeNumbers);
takeNumbers();
