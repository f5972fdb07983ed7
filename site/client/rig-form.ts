// The form for options, software and serial of a machine, and the line of a home that shows what is kept.

import { isElsewhere } from '../../src/emit/page-serials.js';
import type { KnownMachine } from '../../src/emit/rig-match.js';
import { element } from './element.js';
import { readSerials } from './job/this-page.js';
import { currentRig, type KeptRig, keepRigs, nothingKnown } from './rigs.js';

/** Fills the form with what is kept and keeps what is answered; does nothing on any other page. */
export function startRigForm(): void {
  const form = document.getElementById('rig-form');
  const { home, name } = document.body.dataset;
  if (!(form instanceof HTMLFormElement) || home === undefined || name === undefined) return;
  for (const part of form.querySelectorAll<HTMLElement>('[hidden]')) part.hidden = false;
  const rig: KeptRig = currentRig() ?? { folder: home, name, known: nothingKnown };
  fill(form, rig.known);
  warnOfSerial(form);
  const status = form.querySelector<HTMLElement>(':scope > .status');
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const isKept = keepRigs([{ ...rig, known: readForm(form) }]);
    if (status) status.textContent = (isKept ? form.dataset.kept : form.dataset.refused) ?? '';
    if (isKept) location.assign('./');
  });
}

/** Says under the serial that it is none of this machine. It is kept all the same: the book may be behind the plate. */
function warnOfSerial(form: HTMLFormElement): void {
  const input = form.querySelector<HTMLInputElement>('#serial');
  const said = form.querySelector('#serial-said');
  const serials = readSerials(input?.dataset.serials);
  if (!input || !said || !serials) return;
  const say = (): void => {
    const words = (input.dataset.elsewhere ?? '').replace('##', serials.words).replace('#', input.value.trim());
    said.textContent = isElsewhere(serials, input.value) ? words : '';
  };
  input.addEventListener('change', say);
  say();
}

function fill(form: HTMLFormElement, { options, software, serial = '' }: KnownMachine): void {
  for (const input of form.querySelectorAll('input')) {
    const option = /^option-(.*)$/.exec(input.name)?.[1];
    const module = /^software-(.*)$/.exec(input.name)?.[1];
    if (option !== undefined && option in options) input.checked = input.value === (options[option] ? 'yes' : 'no');
    if (module !== undefined && module in software) input.checked = input.value === software[module];
    if (input.name === 'serial') input.value = serial;
  }
}

function readForm(form: HTMLFormElement): KnownMachine {
  const options: Record<string, boolean> = {};
  const software: Record<string, string> = {};
  let serial = '';
  for (const [name, value] of new FormData(form)) {
    if (typeof value !== 'string' || value.trim() === '') continue;
    if (name.startsWith('option-')) options[name.slice('option-'.length)] = value === 'yes';
    if (name.startsWith('software-')) software[name.slice('software-'.length)] = value;
    if (name === 'serial') serial = value.trim();
  }
  return { options, software, ...(serial !== '' && { serial }) };
}

interface KnownWords {
  readonly options: Readonly<Record<string, readonly [fitted: string, missing: string]>>;
  readonly software: Readonly<Record<string, string>>;
  readonly serial: string;
}

/** On a home: what is kept of the machine in use, in words. */
export function showKnown(): void {
  const place = document.getElementById('rig-known');
  const rig = currentRig();
  if (!place || !rig) return;
  const words = JSON.parse(place.dataset.words ?? '{}') as KnownWords;
  const { options, software, serial } = rig.known;
  const parts = [
    rig.unit ?? '',
    serial === undefined ? '' : words.serial.replace('#', serial.replaceAll('-', '\u2011')),
    ...Object.entries(options).map(([id, fitted]) => words.options[id]?.[fitted ? 0 : 1] ?? ''),
    ...Object.entries(software).map(([module, version]) => words.software[module]?.replace('#', version) ?? ''),
  ];
  const said = parts.filter((part) => part !== '').join(', ');
  if (said !== '') place.replaceChildren(element('b', {}, [place.dataset.label ?? '']), ` ${said}.`);
}
