// The world and the procedure that the book format explains itself with: learning the header height range.

import type { ProcedureNotation, WorldNotation } from './build.js';

/** States, physics and safety rules of the example. */
export const exampleWorld: WorldNotation = {
  states: {
    engine: 'off low-idle working-speed',
    motion: 'running coasting stopped',
    header: 'on-ground working-height raised on-stop moves-when engine=low-idle|working-speed',
    'lift-stop': 'stowed placed start=stowed restore safe=placed',
    key: 'in removed',
    electrics: 'live dead',
    person: 'cab beside under-header start=cab',
    'automatic-height': 'off on',
    'threshing-drive': 'engaged disengaged',
    'height-range': 'valid invalid',
    'oil-temperature': 'quantity',
  },
  physics: [
    'lift-stop=stowed -> header=on-ground|working-height|raised',
    'engine=low-idle|working-speed -> key=in, electrics=live',
    'engine=off -> motion=coasting|stopped, oil-temperature=?',
  ],
  rules: [
    'under-the-header: person=under-header must automatic-height=off, engine=off, key=removed, motion=stopped, header=on-stop hazard moving-header',
    'nothing-moves-over-people: person=beside|under-header unchanged header engine hazard moving-header',
  ],
  ends: {},
};

/** The procedure as the format gives it. */
export const exampleProcedure: ProcedureNotation = {
  requires:
    'engine=low-idle; automatic-height=off throughout; threshing-drive=disengaged throughout; oil-temperature>=311',
  values: {
    on_ground: 'limits band at cab needs electrics=live',
    raised: 'limits band at cab needs electrics=live',
    travel: 'limits from on_ground raised',
  },
  steps: [
    'lower | hazard moving-header | sets header=on-ground',
    'read-on-ground | measure on_ground | outside call-service',
    'raise | hazard moving-header | sets header=raised',
    'read-raised | measure raised travel | outside call-service',
    'lower-again | hazard moving-header | sets header=on-ground',
    'store-low | otherwise void means height-range=invalid | sets height-range=invalid',
    'raise-again | hazard moving-header | sets header=raised',
    'store-high | otherwise void means height-range=invalid | sets height-range=valid',
    'park | hazard moving-header | sets header=on-ground | then done',
    'void | then call-service',
  ],
  leaves: 'header=on-ground, engine=low-idle, height-range=valid',
};

/** With the step that the format warns of, and the adjuster that it turns. */
export const wrongProcedure: ProcedureNotation = {
  ...exampleProcedure,
  adjusters: { sensor_turn: 'on_ground raised watch on_ground' },
  steps: [
    ...exampleProcedure.steps.slice(0, 2),
    'turn-now | at under-header | adjust sensor_turn | then lower x3 else call-service',
    ...exampleProcedure.steps.slice(2),
  ],
};
