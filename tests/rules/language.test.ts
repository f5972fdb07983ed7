// What counts as one act and what as two, sentence by sentence. The sentences: common practice, no source.

import { describe, expect, it } from 'vitest';
import { actsOf } from '../../src/rules/text/acts.js';
import { blocksOf } from '../../src/rules/text/blocks.js';
import { languageOf } from '../../src/rules/text/languages/languages.js';
import { hideNames } from '../../src/rules/text/names.js';
import { countedParts, sentencesOf } from '../../src/rules/text/sentences.js';

const terms: Readonly<Record<string, RegExp>> = {
  en: /lift stop|feeder house|parking brake|header drive/g,
  es: /tope de levante|alimentador|freno de estacionamiento|mando del cabezal/g,
};

function sentences(text: string, language: string) {
  const hidden = hideNames(text, terms[language]);
  return { hidden, found: sentencesOf(hidden, { start: 0, end: text.length }, language) };
}

function acts(text: string, language: string): number {
  const words = languageOf(language);
  if (!words) throw new Error(`no words for ${language}`);
  const { hidden, found } = sentences(text, language);
  return found.flatMap((sentence) => actsOf(hidden, sentence, words)).length;
}

describe('one act', () => {
  it.each([
    ['en', 'Lower the header until the feeder house stops.'],
    ['en', 'Hold **{machine.learn_key}** for {hold}.'],
    ['en', 'Press and hold **LEARN** for 3 s.'],
    ['en', 'Press and release **LEARN**.'],
    ['en', 'Check the upper and lower bolts.'],
    ['en', 'Check the lock and the seal.'],
    ['en', 'Check the lock and seal.'],
    ['en', 'Let air in or out at the left drive tire with the air hose.'],
    ['en', 'If the engine runs, stop it.'],
    ['en', 'Write length and area into one row.'],
    ['en', 'Look at the knife sections and their guards.'],
    ['en', 'Scrape mud and crop off the header.'],
    ['en', 'Drive up and down the strip.'],
    ['en', 'Open and close the valve three times.'],
    ['en', 'Hold the lever and turn the key.'],
    ['en', 'Wait {wait} in the cab until every part stands still.'],
    ['en', 'Set the parking brake.'],
    ['en', 'Turn the key to live.'],
    ['en', 'Use the hose to clean and dry the plug.'],
    ['en', 'Compare the left and right readings.'],
    ['en', 'Put the start and stop flags at the ends of the strip.'],
    ['en', 'Leave automatic height off and keep out of the feeder house.'],
    ['en', 'Lower the header. Do not touch the lever again.'],
    ['en', 'Turn the screw until the mark meets the line and the lamp goes out.'],
    ['en', 'Wait until the wheels stop and the engine idles.'],
    ['en', 'Grease the fittings on the drive and driven shafts.'],
    ['en', 'Note the number on the plate and the date.'],
    ['en', 'Drive at {machine.test_speed} to the flag.'],
    ['en', 'Two people lift the shield.'],
    ['en', 'With the header down, read the gauge.'],
    ['en', 'Look at every skid plate for cracks, loose bolts and stones.'],
    ['en', 'Set the display to the zero and span page.'],
    ['en', 'Go and look at the plug.'],
    ['en', 'Switch the header drive on.'],
    ['en', 'Tick the left side on the sheet.'],
    ['en', 'Centre the side shift.'],
    ['en', 'Add the decks up.'],
    ['en', 'Check that the cap is on the spare hose.'],
    ['en', 'Push the plug in until it clicks.'],
    ['en', 'Raise the header to the top of the stroke.'],
    ['en', 'Measure how far a guard rises.'],
    ['en', 'Stop the engine if the belt is slipping.'],
    ['en', 'Start cutting the strip.'],
    ['en', 'Pull the pin without touching the spring.'],
    ['en', 'Look at the bearing of the shaft.'],
    ['en', 'Remove the housing of the bearing.'],
    ['en', 'Take the reading of the sensor.'],
    ['en', 'Wait for the machine to read the plug.'],
    ['en', 'Read the figure, then the date.'],
    ['en', 'Drive across one furrow.'],
    ['en', 'Screw the gauge on to the test port.'],
    ['en', 'Lay the straight edge on the belt, with the mark towards you.'],
    ['en', 'Mark the tire, the rim and the floor.'],
    ['en', 'Write down the time, date and load.'],
    ['en', 'Give the start and stop signal.'],
    ['en', 'Bring the engine to working speed.'],
    ['en', 'Select **Header**, **Sensor**, then **Left**.'],
    ['en', 'Swing the ladder up and in.'],
    ['en', 'Walk the measuring wheel from flag to flag.'],
    ['es', 'Baje el cabezal hasta que los brazos toquen el suelo.'],
    ['es', 'Mantenga pulsado **{machine.store_key}** durante {hold}.'],
    ['es', 'Espere {wait} en la cabina hasta que todo esté quieto.'],
    ['es', 'Si el motor está en marcha, apáguelo.'],
    ['es', 'Llévese la llave.'],
    ['es', 'Limpie con el trapo las dos mitades de cada acople de aceite.'],
    ['es', 'Revise el cierre y el ajuste.'],
    ['es', 'Mire los contactos de las dos mitades.'],
    ['es', 'Conecte las dos mangueras, la larga en el acople de arriba.'],
    ['es', 'Gire la llave hasta dar corriente.'],
    ['es', 'Levante y baje el cabezal tres veces.'],
    ['es', 'Espere hasta que el motor pare y la luz se apague.'],
    ['es', 'Espere hasta que la luz se apague y vuelva.'],
    ['es', 'Vuelva a la cabina.'],
    ['es', 'Avance hasta que el frente del alimentador toque el cabezal.'],
    ['es', 'Bajar el cabezal al suelo.'],
    ['es', 'Pulse **F3**.'],
    ['es', 'Mire si el motor está girando.'],
    ['es', 'Ponga el mando del cabezal en marcha.'],
  ])('%s: %s', (language, text) => expect(acts(text, language)).toBeLessThanOrEqual(1));
});

describe('more acts', () => {
  it.each([
    ['en', 'Stop the engine and take the key out.'],
    ['en', 'Lower the header and read the display.'],
    ['en', 'Lower the header, then read the display.'],
    ['en', 'Lower the header. Read the display.'],
    ['en', 'Stop the engine, take the key and climb down.'],
    ['en', 'Lower the header until the points rest on the ground and read the display.'],
    ['en', 'Clean and dry the plug.'],
    ['en', 'Stop the engine and wait 60 s.'],
    ['en', 'Raise the header and check that the lamp is lit.'],
    ['en', 'Remove the cap and drain the oil.'],
    ['en', 'Set the brake and lower the header to the ground.'],
    ['en', 'Stop the engine & remove the key.'],
    ['en', 'Press **LEARN**; read the display.'],
    ['en', 'Loosen the nut and turn the sensor.'],
    ['es', 'Apague el motor y saque la llave.'],
    ['es', 'Baje el cabezal y lea la pantalla.'],
    ['es', 'Baje el cabezal, luego lea la pantalla.'],
    ['es', 'Baje el cabezal. Lea la pantalla.'],
    ['es', 'Apague el motor y llévese la llave.'],
    ['es', 'Apague el motor, saque la llave y baje de la cabina.'],
  ])('%s: %s', (language, text) => expect(acts(text, language)).toBeGreaterThan(1));
});

describe('sentences', () => {
  it.each([
    ['Read it, e.g. twice. Then stop.', 2],
    ['R. Quill reads 3.6 V. It holds.', 2],
    ['One sentence without an end', 1],
    ['Is it lit? Yes!', 2],
  ])('are counted in: %s', (text, count) => expect(sentences(text, 'en').found).toHaveLength(count));

  it.each([
    ['Hold **LEARN NOW** for 3 s.', 4],
    ['Lower the feeder house.', 3],
    ['A 12-row header (the red one) works.', 4],
    ['Read this: one two three four five.', 5],
  ])('have as many words: %s', (text, count) => {
    const { hidden, found } = sentences(text, 'en');
    const parts = found.flatMap((sentence) => countedParts(hidden, sentence).map((part) => part.length));
    expect(Math.max(...parts)).toBe(count);
  });
});

describe('blocks of markdown', () => {
  it('are paragraphs, items and rows; code, comments and lines between are none', () => {
    const text = [
      'One',
      'paragraph.',
      '',
      '- an item',
      '  that goes on',
      '- another',
      '',
      '| Head | Value |',
      '|---|---|',
      '| a | 1 |',
      '',
      '```',
      'code',
      '```',
      '<!-- a',
      'comment -->',
      '---',
      '> quoted',
    ].join('\n');
    expect(blocksOf(text).map(({ start, end }) => text.slice(start, end))).toEqual([
      'One\nparagraph.',
      'an item\n  that goes on',
      'another',
      '| Head | Value |',
      '| a | 1 |',
      'quoted',
    ]);
  });
});
