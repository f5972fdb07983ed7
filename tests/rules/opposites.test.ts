// Words that say the opposite of each other: which side a text says, and which texts say neither. Common practice, no source.

import { describe, expect, it } from 'vitest';
import { concepts, isNegated, oppositesOf, sideSaid } from '../../src/rules/text/opposites.js';

/** What a text says, by concept. */
function said(language: string, text: string): Readonly<Record<string, string>> {
  const opposites = oppositesOf(language);
  if (!opposites) throw new Error(`no words for ${language}`);
  const found = concepts.map((concept) => [concept, sideSaid(text, opposites[concept])?.side]);
  return Object.fromEntries(found.filter(([, side]) => side !== undefined));
}

describe('Words that are opposites', () => {
  it.each([
    ['en', 'Raise the header.', 'es', 'Levante el cabezal.'],
    ['en', 'Lower the reel all the way.', 'es', 'Baje del todo el molinete.'],
    ['en', 'Start the engine.', 'es', 'Arranque el motor.'],
    ['en', 'Switch the separator off.', 'es', 'Apague el separador.'],
    ['en', 'The lamp is out.', 'es', 'La luz está apagada.'],
    ['en', 'The lamp is lit.', 'es', 'La luz está encendida.'],
    ['en', 'Close the cover.', 'es', 'Cierre la tapa.'],
    ['en', 'Measure on the left side.', 'es', 'Mida en el lado izquierdo.'],
    ['en', 'Turn it counter-clockwise.', 'es', 'Gírelo en sentido antihorario.'],
    ['en', 'Turn it clockwise.', 'es', 'Gírelo en sentido horario.'],
    ['en', 'Loosen the nut.', 'es', 'Afloje la tuerca.'],
    ['en', 'Fill the tank.', 'es', 'Llene el tanque.'],
  ])('%s “%s” says what %s “%s” says', (one, original, other, translated) => {
    expect(Object.keys(said(one, original))).toHaveLength(1);
    expect(said(other, translated)).toEqual(said(one, original));
  });

  it.each([
    ['en', 'Raise or lower the header.'],
    ['en', 'Set it on the ground.'],
    ['en', 'Pull the straw off the intake.'],
    ['en', 'Place the lift stop.'],
    ['en', 'Read what is left in the tank.'],
    ['en', 'Press **START** on {machine.start_page}.'],
    ['es', 'Espere para leer.'],
    ['es', 'Suba y baje el cabezal.'],
  ])('%s “%s” says neither', (language, text) => {
    expect(said(language, text)).toEqual({});
  });

  it('are found at their place, whatever accents stand before them', () => {
    const text = 'Después de ésta, levántelo o suba el cabezal.';
    const opposites = oppositesOf('es-MX');
    const found = opposites && sideSaid(text, opposites.height);
    expect(found && text.slice(found.start, found.end)).toBe('suba');
  });

  it('are turned round by a negation', () => {
    const [english, spanish] = [oppositesOf('en'), oppositesOf('es')];
    expect(english && isNegated('Do not open it.', english)).toBe(true);
    expect(spanish && isNegated('Sin abrirla.', spanish)).toBe(true);
    expect(english && isNegated('Open the knob.', english)).toBe(false);
  });
});
