// What stands behind the last step: how the machine is left, whom to call, what was checked and what was not.

import type { End, Variant } from '../../model/resolved.js';
import { wordsOf } from '../book-text.js';
import { type Html, html } from '../html.js';
import { spokenCode } from '../short-code.js';
import { type Page, phoneLink, plainOf, readerOf } from './context.js';
import { drawProof } from './proof-words.js';
import type { Version } from './site-map.js';
import { sayCondition } from './states.js';

const leavesWords: readonly (readonly [End, 'leaves' | 'leaves-stop' | 'leaves-call'])[] = [
  ['done', 'leaves'],
  ['stop', 'leaves-stop'],
  ['call-service', 'leaves-call'],
];

/** How machine and people are left, by end, and what this gives and when it becomes void. */
export function drawLeaves(page: Page, { procedure }: Variant): Html {
  const { voice, site } = page;
  const lists = leavesWords.flatMap(([end, key]) => {
    const conditions = procedure.leaves.get(end) ?? [];
    if (conditions.length === 0) return [];
    const items = conditions.map((condition) => html`<li>${sayCondition(condition, site.book.world, voice)}</li>`);
    return [
      html`<div data-end="${end}"><h3>${voice.ui(key)}</h3><ul class="states">${items}</ul></div>
`,
    ];
  });
  const events = procedure.voidedBy.flatMap((id) => {
    const event = site.book.book.events.get(id);
    return event ? [voice.plain(wordsOf(event.label, readerOf(page)))] : [];
  });
  const again = [
    events.length > 0 && html`<p>${voice.ui('gives-text', { events: events.join('; ') })}</p>`,
    procedure.due && html`<p>${voice.ui('due-text', { due: sayDue(page, procedure.due) })}</p>`,
  ].filter((part): part is Html => typeof part === 'object');
  if (lists.length === 0 && again.length === 0) return html``;
  return html`<section class="leaves"><h2>${voice.ui('end')}</h2>
${lists}${again.length > 0 && html`<div data-end="done">${again}</div>`}</section>
`;
}

/** `every season`, `every 50 h of work`. */
export function sayDue({ voice }: Pick<Page, 'voice'>, due: NonNullable<Variant['procedure']['due']>): string {
  return due.kind === 'season' ? voice.text('due-season') : voice.text(`due-${due.unit}`, { count: due.count });
}

/** The dealership's telephone, with the code that brings the desk to the same page. */
export function drawCall(page: Page, version: Pick<Version, 'code'>): Html {
  const { voice, site } = page;
  return html`<section class="call" id="call"><h2>${voice.ui('call')}</h2>
<p class="call-number">${plainOf(page, site.book.book.settings.owner)}: ${phoneLink(page)}</p>
<p>${voice.ui('call-why', { code: html`<b class="code">${spokenCode(version.code)}</b>` })}</p></section>
`;
}

/** What the program checked, what nobody checked, and who tried it on which machine. */
export function drawChecked(page: Page, variant: Variant): Html {
  const { id, procedure } = variant;
  const { voice, home, site } = page;
  // the page claims what was proved and no more
  const proved = site.proofs.get(id)?.complete === true;
  const machine = home ? plainOf(page, home.machine.name) : '';
  const tried = procedure.source.verified
    .filter((one) => one.machine.value === home?.machine.id)
    .map((one) => {
      const how =
        one.how.value === 'desk' ? 'verified-desk' : one.how.value === 'both' ? 'verified-both' : 'verified-machine';
      return html`<p>${voice.ui(how, { machine, by: one.by.value, on: voice.date(one.on.value) })}</p>`;
    });
  return html`<section class="checked"><h2>${voice.ui('checked-title')}</h2>
<p>${voice.ui('checked-did')}${proved && html` ${voice.ui('checked-order')}`}</p>
${proved ? drawProof(page, variant) : html`<p>${voice.ui('unchecked-order')}</p>`}
<p>${voice.ui('checked-not')}</p>
${tried.length > 0 ? tried : html`<p>${voice.ui('verified-none', { machine })}</p>`}</section>
`;
}
