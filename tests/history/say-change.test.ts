// A change in the words of one language, told in another.

import { describe, expect, it } from 'vitest';
import { sayChange } from '../../src/emit/changes/say-change.js';
import { voiceFor } from '../../src/emit/voice.js';
import type { Change } from '../../src/model/comparison.js';

const words = (en: string, es: string): Change['before'] => ({ kind: 'words', words: { en, es } });
const change = (before: Change['before'], after: Change['after']): Change => ({
  about: 'avoid',
  how: 'changed',
  weight: 'safety',
  rigs: [],
  ...(before && { before }),
  ...(after && { after }),
});

describe('a change of words', () => {
  it('that shows in the first language alone is shown in that, and says so', () => {
    const said = sayChange(
      change(words('Keep away.', 'No se acerque.'), words('Stay away.', 'No se acerque.')),
      voiceFor('es', 'en'),
    );
    expect(said.before).toContain('Keep');
    expect(said.after).toContain('Stay');
    expect(said.head).toMatch(/inglés/);
  });

  it('that shows in the language of the page is shown in that', () => {
    const said = sayChange(
      change(words('Keep away.', 'No se acerque.'), words('Stay away.', 'Aléjese.')),
      voiceFor('es', 'en'),
    );
    expect([said.before, said.after]).toEqual(['No se acerque.', 'Aléjese.']);
    expect(said.head).not.toMatch(/inglés/);
  });
});
