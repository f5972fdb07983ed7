// A procedure that says something else for a machine than when it was tried there.

import type { Procedure, Verification } from '../../model/procedure.js';
import { type Context, rule } from '../rule.js';
import { contentDigest } from './verified-content.js';

/** The verifications of a procedure, each with what the procedure says for that machine now. Nothing where that is not known. */
export function* verifiedContents(
  procedure: Procedure,
  { resolved, proofs, isPart, book }: Context,
): Iterable<{ readonly verification: Verification; readonly now: string }> {
  if (isPart || procedure.status.value !== 'released') return;
  const own = resolved.variants.filter((variant) => variant.procedure.id === procedure.id);
  // what is not proved may not have been worked out whole
  if (own.length === 0 || own.some(({ id }) => !proofs?.has(id))) return;
  for (const verification of procedure.verified) {
    const machine = verification.machine.value;
    const variants = own.filter(({ rigs }) => rigs.some((rig) => rig.machine === machine));
    if (variants.length > 0) yield { verification, now: contentDigest(variants, book.settings.languages[0] ?? 'en') };
  }
}

export default rule({
  id: 'edited-after-verification',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, context) {
    for (const { verification, now } of verifiedContents(procedure, context)) {
      const { machine, content, on, how } = verification;
      if (!content || content.value === now) continue;
      const data = { machine: machine.value, on: on.value, was: content.value, now, atDesk: how.value === 'desk' };
      yield { at: content.at, data };
    }
  },
  say: ({ machine, on, was, now, atDesk }) => ({
    message: `This procedure has changed for \`${machine}\` since ${on}: unexpected content \`${was}\`, it is \`${now}\` now`,
    help: `${atDesk ? 'Go through it' : 'Try it'} there once more, then write \`content: ${now}\` with who did it and when; or undo the change.`,
    note: 'A step, a number or a branch is not what was tried. S1000D: a change takes the verification away.',
  }),
});
