// A judgement in words: the verdict, and one sentence that says why.

import { holdsWithin } from '../../../src/calc/limits.js';
import type { Rational } from '../../../src/calc/rational.js';
import type { WalkValue } from '../../../src/emit/walk/walk-shape.js';
import type { Judgement } from './judge.js';
import { distanceWords, uncertaintyAt } from './number-words.js';
import { say } from './words.js';

export interface VerdictWords {
  readonly word: string;
  readonly why: string;
}

/** `Outside: 0.32 V too low. The display can be 0.02 V wrong; that does not change it.` */
export function verdictWords(value: WalkValue, base: Rational, judged: Judgement): VerdictWords {
  return { word: say(judged.verdict), why: why(value, base, judged) };
}

function why(value: WalkValue, base: Rational, judged: Judgement): string {
  const { verdict, side, distance, insideTolerance } = judged;
  // a slip of the finger before a fault of the machine
  if (value.range && value.shown.range !== undefined && !holdsWithin(value.range, base)) {
    return capital(
      say('why-beyond', { instrument: value.instrument ?? say('the-instrument'), range: value.shown.range }),
    );
  }
  if (verdict === 'recorded') return say('why-recorded');
  if (verdict === 'fault') return say('why-fault', { band: value.shown.inside ?? '' });
  if (verdict === 'pass') {
    if (!distance || distance.num === 0n) return say('why-pass-at');
    return say('why-pass', { distance: distanceWords(value, distance) });
  }
  const uncertainty = uncertaintyAt(value, base);
  const doubt = uncertainty && {
    instrument: value.instrument ?? say('the-instrument'),
    uncertainty: distanceWords(value, uncertainty),
  };
  if (verdict === 'unsure') return doubt ? say('why-unsure', doubt) : '';
  if (insideTolerance && doubt) return capital(say('why-guard', doubt));
  const far = distance && side ? say(`why-${side}`, { distance: distanceWords(value, distance) }) : '';
  return doubt && value.instrument ? `${far} ${capital(say('why-anyway', doubt))}` : far;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
