// What was checked of the order of steps, in words: it claims what was done and no more.

import { html } from '../html.js';
import { type BookProof, gatherProof, type VariantProof } from '../open-data/proof.js';
import { linkTo, linkToShared, type Page } from '../pages/context.js';
import { say, staffPage } from './staff-page.js';

/** The page. `given` is what `data/proof.json` says, where that is written; else it is gathered here and not linked to. */
export function proofsPage(page: Page, given?: BookProof): string {
  const { site } = page;
  const variants = site.book.variants.filter(({ id }) => site.map.places.has(id));
  const proof = given ?? gatherProof({ resolved: { ...site.book, variants }, proofs: site.proofs, bound: 0 });
  const proved = proof.variants.filter(({ result }) => result === 'proved');
  const open = proof.variants.filter(({ result }) => result !== 'proved');
  const rules = proof.rules.map(
    ({ id, variants: count, steps }) =>
      html`<li><span class="wide">${id}</span><span>${steps === 0 ? say(page, 'proofs-rule-idle') : say(page, 'proofs-rule', { steps, variants: count })}</span></li>
`,
  );
  return staffPage(page, {
    title: say(page, 'proofs'),
    why: say(page, 'proofs-why'),
    body: html`<p>${say(page, 'proofs-proved', { count: proved.length, all: proof.variants.length })}</p>
${open.length > 0 && html`<section><h2>${say(page, 'proofs-open')}</h2><ul class="rows">${open.map((one) => drawVariant(page, one))}</ul></section>`}
<section><h2>${say(page, 'proofs-rules')}</h2>
<ul class="rows">${rules}</ul></section>
<section><ul class="rows">${proved.map((one) => drawVariant(page, one))}</ul></section>
<p>${say(page, 'proofs-not')}${given && html` <a href="${linkToShared(page, 'data/proof.json')}">${say(page, 'proofs-data')}</a>`}</p>`,
  });
}

function drawVariant(page: Page, { id, states, steps, rigs }: VariantProof): ReturnType<typeof html> {
  const place = page.site.map.places.get(id)?.[0];
  const title = page.voice.say(place?.version.variant.procedure.title);
  return html`<li><span class="wide"><a href="${linkTo(page, place?.version.folder ?? '')}">${title}</a><span class="aside">${rigs.join(', ')}</span></span><span>${say(page, 'proofs-states', { states, steps })}</span></li>
`;
}
