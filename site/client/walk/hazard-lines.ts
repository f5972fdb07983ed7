// Cautions at a step: whole where the walk comes into a stretch that meets the hazard, one line that opens after that.

import type { WalkStep } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import { partsOf } from './screen.js';
import type { Session } from './session.js';
import { stepOf } from './state.js';

/** Puts the cautions of a step before its words. */
export function hazardLines({ file, state }: Session, step: WalkStep): void {
  const before = stepOf(file, state.earlier.at(-1)?.place ?? '')?.hazards ?? [];
  const list = element('div', { class: 'walk-added walk-hazards' }, []);
  for (const id of step.hazards ?? []) {
    const panel = document.querySelector(`section.cautions [data-hazard="${CSS.escape(id)}"]`)?.cloneNode(true);
    const words = file.hazards[id];
    if (!panel || !words) continue;
    if (!before.includes(id)) list.append(panel);
    else {
      list.append(
        element('details', { class: `hazard-line ${words.kind}` }, [
          element('summary', {}, [element('b', { class: 'signal' }, [words.signal]), ` ${words.words}`]),
          panel,
        ]),
      );
    }
  }
  partsOf(step.label)[0]?.prepend(list);
}
