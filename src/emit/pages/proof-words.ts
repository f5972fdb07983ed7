// What the order proof of one page looked at, in words: how much, and which safety rules were met and kept.

import type { Variant } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import { proofOf } from '../open-data/proof.js';
import type { Page } from './context.js';

/** Counts and rules behind the sentence that the order was proved. Nothing where it was not. */
export function drawProof({ voice, site }: Page, variant: Variant): Html {
  const { result, states, steps, rules } = proofOf(variant, site.proofs.get(variant.id));
  if (result !== 'proved') return html``;
  const said = rules.map(
    ({ id, steps: count }) => html`<li>${voice.ui('proof-rule', { rule: ruleName({ voice, site }, id), count })}</li>`,
  );
  return html`<details class="proof"><summary>${voice.ui('proof-title')}</summary>
<p>${voice.ui('proof-size', { states, steps })}</p>
${rules.length > 0 ? html`<p>${voice.ui('proof-rules')}</p><ul>${said}</ul>` : html`<p>${voice.ui('proof-no-rules')}</p>`}</details>
`;
}

/** What a safety rule is called; the words of its id where the book gives it no label. */
export function ruleName({ voice, site }: Pick<Page, 'voice' | 'site'>, id: string): Html {
  const label = site.book.world.rules.find((rule) => rule.id === id)?.label;
  return label ? voice.say(label) : html`${id.replaceAll('-', ' ')}`;
}
