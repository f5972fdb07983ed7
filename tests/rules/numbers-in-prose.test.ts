// What is taken for a contradiction and what is not, sentence by sentence, each as a paragraph of its own at the end of a
// procedure of the demo; those of one procedure are checked together. The sentences: common practice, no source.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeChecker } from '../../src/compile.js';
import { readBookFolder } from '../../src/io.js';

const demo = readBookFolder(join(import.meta.dirname, '../../procedures'));
const figures = new Set(demo.figures.keys());
const check = makeChecker();

const files: Readonly<Record<string, string>> = {
  learn: 'first-pass/learn-height-range.md',
  aprender: 'first-pass/learn-height-range.es.md',
  sensor: 'first-pass/check-height-sensor.md',
  heights: 'first-pass/set-working-height.md',
  response: 'first-pass/set-response.md',
  width: 'first-pass/width-and-area.md',
  losses: 'in-the-crop/count-losses.md',
  mass: 'in-the-crop/mass-flow.md',
  masa: 'in-the-crop/mass-flow.es.md',
  draper: 'in-the-crop/track-draper.md',
  lean: 'wrong/one-side-digs-in.md',
};

/** What contradicts a number where the sentences stand under a heading, `Notes` or the id of a step. */
function contradictedBy(of: string, sentences: readonly string[], heading = 'Notes'): readonly string[] {
  const path = files[of] ?? of;
  const file = demo.files.get(path);
  if (!file) throw new Error(`no ${path}`);
  const text = `${file.text}\n## ${heading}\n\n${sentences.join('\n\n')}\n`;
  const { diagnostics } = check({ sources: new Map(demo.files).set(path, { path, text }), figures });
  return diagnostics
    .filter(({ code }) => code === 'prose-contradicts-number')
    .map(({ message }) => /^The text says `(.*?)`/.exec(message)?.[1] ?? message);
}

/** By procedure: sentences, each with what contradicts a typed number. */
const contradictions: Readonly<Record<string, readonly (readonly [string, string])[]>> = {
  learn: [
    ['On the ground the height sensors read 5200 mV.', '5200 mV'],
    ['The display shows the mean of both: 4.9 V on the ground for each sensor.', '4.9 V'],
    ['The display shows the sensors: 4.9 V on the ground and {raised} at the top.', '4.9 V'],
    ['The travel of the sensors is 4.6-4.9 V.', '4.6-4.9 V'],
    ['The header fully raised gives 2.4 V on the sensors.', '2.4 V'],
    ['At the top each height sensor reads 3.9 V.', '3.9 V'],
    ['With the header lowered each height sensor shows 0.9 V.', '0.9 V'],
    ['The height sensors read 3.9 V on the ground and 2.4 V fully raised.', '2.4 V'],
    ['The display shows {on_ground} on the ground, and 2.5 V with the header fully raised.', '2.5 V'],
    ['{travel} (4.9 V) is what the sensors travel.', '4.9 V'],
    ['At the top they read 2.4 V ({raised}).', '2.4 V'],
    ['On a Tarn 60 the height sensors read 1.05 V with the header fully raised.', '1.05 V'],
    ['On the draper the height sensors read 4.2 V on the ground.', '4.2 V'],
  ],
  aprender: [
    ['La pantalla muestra 4,9 V en el suelo con los dos sensores.', '4,9 V'],
    ['Los sensores de altura leen 3,9 V en el suelo y 2,4 V arriba del todo.', '2,4 V'],
    ['En la Tarn 60 los sensores de altura con el cabezal arriba del todo leen 1,05 V.', '1,05 V'],
  ],
  sensor: [
    ['A sensor divides its supply of 12 V.', '12 V'],
    ['A height sensor that reads outside 0.5 to 4.5 V is a fault.', '0.5 to 4.5 V'],
    ['| What | How much |\n|---|---|\n| Supply between the outer pins | 8500 mV |', '8500 mV'],
  ],
  heights: [['The height of the header at work is 9 in.', '9 in']],
  response: [
    ['Bring the time to 12 s first.', '12 s'],
    ['The oil temperature must be at least 20 degC.', '20 degC'],
  ],
  width: [
    ['The area count stops at a height of 30 in.', '30 in'],
    ['The working width of the 6-row header is 20 ft.', '20 ft'],
    ['The largest error of the area must be at most 5 %.', '5 %'],
  ],
  mass: [
    ['A check load must weigh 2000 lb.', '2000 lb'],
    ['The error of the check load is at most 8 %.', '8 %'],
    ['A bushel of corn weighs 60 lb.', '60 lb'],
    ['The display counts wheat at 56 lb/bu.', '56 lb/bu'],
    ['Soybeans weigh 56 lb to the bushel.', '56 lb'],
    ['Corn weighs 56 lb a bushel, and wheat 65 lb a bushel.', '65 lb'],
    ['The base moisture of corn is 14 %.', '14 %'],
    ['Soybeans are bought at 15 % moisture.', '15 %'],
  ],
  masa: [
    ['Un bushel de maíz pesa 60 lb.', '60 lb'],
    ['La humedad base de la soja es 15 %.', '15 %'],
  ],
  draper: [['The belt edge to the rear lip of the deck is 60 mm.', '60 mm']],
  lean: [['The pressure of a drive tire is 300 kPa.', '300 kPa']],
  losses: [['On this header the row spacing is 15 in.', '15 in']],
};

/** By procedure: sentences with numbers of something else. */
const others: Readonly<Record<string, readonly string[]>> = {
  learn: [
    'With {raised} on the height sensors fully raised, the battery gives 12.6 V.',
    'The battery stands at 12.6 V before the key is turned.',
    'With the plug off, the sensor pin to ground reads 0 V.',
    'The height sensors share a 5 V supply.',
    'On the ground the sensors differ by 0.3 V at most.',
    'Each inch of header height is 0.06 V on the sensor.',
    'The sensors read from 0 V to 5 V over their whole turn.',
    'A sensor on the ground that reads 4.9 V is out of its slot.',
    'Raised by hand, an arm moves the sensor through 4 V.',
    'The display counts the travel of the sensors in 0.01 V.',
    'The header stands 3 ft above the ground at the top.',
    'At the top the sensors read less than 2 V, and at the bottom more than 3 V.',
    'At the top the battery shows 12.4 V.',
    'Ten minutes after the start the oil has 80 degF, which is still too cold.',
    'On a Tarn 40 the height sensors read 1.05 V with the header fully raised.',
    'On the Corrie 9 the height sensors read 2.4 V with the header fully raised.',
    'The Tarn 60 differs from the Tarn 40: the height sensors read 1.05 V with the header fully raised.',
    'The height sensors read 3.9 V on the ground and 0.2 V more on a slope.',
    'The height sensors read 3.9 V on the ground, and the battery 12.6 V.',
    'If the height sensors read 3.9 V on the ground and 2.4 V fully raised, an arm is bent.',
    'The height sensors read less than 4.2 V on the ground and 2 V fully raised, when all is well.',
    'The height sensors read {on_ground} on the ground, {raised} (within 0.1 V) at the top.',
    'The height sensors read 3.9 V on the ground and lose 0.5 V a foot on the way up.',
    'The height sensors read 3.9 V on the ground, 4.9 V is their supply.',
    'The height sensors read 3.9 V on the ground, 2.4 V at half the height of a raised header.',
  ],
  sensor: [
    'Set the multimeter to 20 V.',
    'A height sensor that reads outside 0.25 to 4.75 V is a fault.',
    'A height sensor outside 3.6 to 4.2 V on the ground is no fault of its wire.',
    'A supply outside 4.5 to 5.5 V is a fault of the sensor plug.',
    'A height sensor is turned outside 3.0 to 4.0 V by a stalk.',
    'A battery outside 11 to 14 V is a fault.',
    'A supply at half would be 2.5 V.',
    'Between the middle pin and ground the multimeter shows 3.9 V on a Tarn 40.',
    'Hold the probe for 5 s before you read the supply.',
  ],
  response: [
    'At the top the header stands 48 in above the ground.',
    'The time between two tries is 2 min. Bring the time to {lower_time} first.',
  ],
  width: [
    'The working width changes by about 3 ft (0.9 m).',
    'The strip should be 300 ft long.',
    'A header of 20 ft loses 1 ft to overlap.',
    'The headland is 60 ft wide.',
  ],
  lean: ['The front tires carry 40 psi on the road.', 'A gauge with a range of 0 to 60 psi is fine.'],
  draper: ['A belt of 42 in wears at its edge first.', 'The bolt takes a 24 mm wrench.'],
  mass: [
    'Corn weighs 56 lb to the bushel, soybeans 60 lb, at a base moisture of 15.5 % for corn.',
    'Wet corn weighs 62 lb to the bushel.',
    'Corn with a test weight of 54 lb/bu is light.',
    'Corn at 24 % moisture threshes badly.',
    'A load of corn weighs 9000 lb.',
    'A bushel of corn on the ear weighs 70 lb.',
    'If a bushel of corn weighs 50 lb, the grain is poor.',
    'A hundred bushels weigh 5600 lb.',
    'An error of 10 % in one load spoils the mean error by 1.5 %.',
  ],
  losses: ['One bushel an acre is 56 lb of corn.'],
};

describe('a number in a text contradicts what is typed', () => {
  it.each(Object.entries(contradictions))('in %s', (of, list) => {
    const found = contradictedBy(
      of,
      list.map(([sentence]) => sentence),
    );
    expect(found).toEqual(list.map(([, wrong]) => wrong));
  });

  it('in the section of the step that measures it', () => {
    expect(contradictedBy('response', ['The time is 12 s.'], 'rate')).toEqual(['12 s']);
    expect(contradictedBy('learn', ['At the bottom, 1.6 V is right.'], 'read-on-ground')).toEqual(['1.6 V']);
  });

  it('in halves and quarters of a unit', () => {
    const waits = [
      'Wait half an hour.',
      'Wait for half a minute.',
      'Wait a quarter of an hour.',
      'Wait one and a half minutes.',
      'Wait a minute and a half.',
      'Wait two minutes and a half.',
    ];
    expect(contradictedBy('mass', waits, 'run-empty')).toEqual([
      'half an hour',
      'half a minute',
      'a quarter of an hour',
      'one and a half minutes',
      'a minute and a half',
      'two minutes and a half',
    ]);
    const esperas = ['Espere media hora.', 'Espere minuto y medio.', 'Espere dos minutos y medio.'];
    expect(contradictedBy('masa', esperas, 'run-empty')).toEqual([
      'media hora',
      'minuto y medio',
      'dos minutos y medio',
    ]);
  });

  it('in the section of a step that waits, where the text orders another wait', () => {
    const sentences = ['Wait 50 s in the cab.', 'Wait up to 20 s in the cab.', 'The wait is 50 s.'];
    expect(contradictedBy('put-away/shut-down.md', sentences, 'wait-again')).toEqual(['50 s', '20 s', '50 s']);
  });
});

describe('a number in a text is of something else', () => {
  it.each(Object.entries(others))('in %s', (of, sentences) => {
    expect(contradictedBy(of, sentences)).toEqual([]);
  });

  it('in the section of a step that waits, where the text tells how long something runs on', () => {
    const sentences = [
      'A dry chopper runs on for up to 50 seconds, so the wait is longer than that.',
      'A dry chopper runs on for about 50 seconds, so the wait is longer than that.',
      'The chopper coasts for up to 50 s; the wait covers it.',
    ];
    expect(contradictedBy('put-away/shut-down.md', sentences, 'wait-again')).toEqual([]);
  });

  it('in halves and quarters, too', () => {
    const fitting = [
      'Wait one minute.',
      'Half an hour later the oil is cold.',
      'Wait half as long as the drives coast.',
    ];
    expect(contradictedBy('mass', fitting, 'run-empty')).toEqual([]);
    expect(contradictedBy('draper', ['The gap is half an inch.', 'A belt of half an inch is thin.'])).toEqual([]);
  });
});
