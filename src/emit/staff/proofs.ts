// What was checked of the order of steps, in words: it claims what was done and no more.

import { type Html, html } from '../html.js';
import { type BookProof, gatherProof, type VariantProof } from '../open-data/proof.js';
import { linkTo, linkToShared, type Page } from '../pages/context.js';
import { ruleName } from '../pages/proof-words.js';
import type { Version } from '../pages/site-map.js';
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
      html`<li><span class="wide">${ruleName(page, id)}<span class="aside">${id}</span></span><span>${steps === 0 ? say(page, 'proofs-rule-idle') : say(page, 'proofs-rule', { steps, variants: count })}</span></li>
`,
  );
  return staffPage(page, {
    title: say(page, 'proofs'),
    why: say(page, 'proofs-why'),
    body: html`<p>${say(page, 'proofs-proved', { count: proved.length, all: proof.variants.length })}</p>
${open.length > 0 && html`<section><h2>${say(page, 'proofs-open')}</h2><ul class="rows">${alike(open).map((group) => drawAlike(page, group))}</ul></section>`}
<section><h2>${say(page, 'proofs-rules')}</h2>
<ul class="rows">${rules}</ul></section>
<section><ul class="rows">${alike(proved).map((group) => drawAlike(page, group))}</ul></section>
<p>${say(page, 'proofs-not')}${given && html` <a href="${linkToShared(page, 'data/proof.json')}">${say(page, 'proofs-data')}</a>`}</p>`,
  });
}

/** Versions of one procedure whose proofs are alike in every count: they differ in nothing but their rig. */
function alike(variants: readonly VariantProof[]): readonly (readonly [VariantProof, ...VariantProof[]])[] {
  const groups = new Map<string, [VariantProof, ...VariantProof[]]>();
  for (const one of variants) {
    const { id: _id, hash: _hash, rigs: _rigs, ...rest } = one;
    const key = JSON.stringify(rest);
    const known = groups.get(key);
    if (known) known.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()];
}

function drawAlike(page: Page, [first, ...others]: readonly [VariantProof, ...VariantProof[]]): Html {
  const { states, steps } = first;
  const title = page.voice.say(versionOf(page, first)?.variant.procedure.title);
  const counts = html`<span>${say(page, 'proofs-states', { states, steps })}</span>`;
  if (others.length === 0)
    return html`<li><span class="wide">${linkToVersion(page, first, title)}<span class="aside">${first.rigs.join(', ')}</span></span>${counts}</li>
`;
  const all = [first, ...others];
  const rows = all.map((one) => html`<li>${linkToVersion(page, one, html`${one.rigs.join(', ')}`)}</li>`);
  return html`<li><span class="wide">${title}</span>${counts}<details class="alike"><summary>${say(page, 'proofs-alike', { count: all.length })}</summary><ul>${rows}</ul></details></li>
`;
}

function linkToVersion(page: Page, one: VariantProof, words: Html): Html {
  return html`<a href="${linkTo(page, versionOf(page, one)?.folder ?? '')}">${words}</a>`;
}

function versionOf(page: Page, { id }: VariantProof): Version | undefined {
  return page.site.map.places.get(id)?.[0]?.version;
}
