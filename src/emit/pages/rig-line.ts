// What a page applies to, on one line at its top: serials, software, options. Machine and header stand above it.

import type { Machine } from '../../model/book.js';
import type { Rig } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import { spokenCode } from '../short-code.js';
import type { Voice } from '../voice.js';
import type { Page } from './context.js';
import { unbroken } from './rig-words.js';

/** `all serial numbers · any software`: what the rigs of a page are not narrowed by. What they are stands in a box. */
export function sayApplies(machine: Machine, rigs: readonly Rig[], voice: Voice): string {
  return [
    rigs.every(({ serials }) => serials === undefined) && sayAllSerials(machine, voice),
    rigs.every(({ software }) => software.size === 0) && sayAllSoftware(machine, voice),
  ]
    .filter((part) => part !== false)
    .join(' · ');
}

function sayAllSerials({ serials }: Machine, voice: Voice): string {
  if (!serials) return voice.text('every-serial');
  const from = unbroken(serials.from);
  return serials.to === undefined
    ? voice.text('serials-from', { from })
    : voice.text('serials-between', { from, to: unbroken(serials.to) });
}

function sayAllSoftware({ software }: Machine, voice: Voice): string {
  const lists = software.map(({ module, versions }) =>
    voice.text('software-is', {
      module: module.value,
      versions: versions.map(({ value }) => value).join(` ${voice.text('or')} `),
    }),
  );
  return lists.length === 0 ? voice.text('every-software') : lists.join(', ');
}

/** The line for the lists of a home, with their code. */
export function drawHomeLine(page: Page): Html | undefined {
  const { home, voice } = page;
  if (!home) return undefined;
  const code = html`<b class="code">${spokenCode(home.code)}</b>`;
  return html`<p class="meta"><span>${sayApplies(home.machine, [], voice)}</span> <span>${voice.ui('read-out', { code })}</span></p>
`;
}
