// The time that a step asks to wait or to hold: started by the person, running on by the clock while the page is closed.

import type { Duration } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import { button } from './screen.js';
import { say } from './words.js';

export interface TimerView {
  readonly kind: 'wait' | 'hold';
  readonly duration: Duration;
  /** When it was started, by the phone's clock in milliseconds; undefined before. */
  readonly started: number | undefined;
  readonly start: () => void;
  /** The time is over, or the person says so. */
  readonly over: () => void;
}

/** The panel; it stops by itself when it leaves the page. */
export function timerPanel({ kind, duration, started, start, over }: TimerView): HTMLElement {
  const face = element('p', { class: 'walk-clock', role: 'timer' }, [duration.text]);
  const skip = button(say('timer-skip'), () => {
    sayOver();
    over();
  });
  // what is over is neither started nor timed again
  const sayOver = (): void => {
    face.textContent = say('timer-over');
    for (const one of panel.querySelectorAll('button')) one.hidden = true;
  };
  const panel = element('div', { class: 'walk-timer' }, [face]);
  if (started === undefined) {
    const begin = button(say('timer-start', { time: duration.text }), start, 'wide');
    panel.append(begin, ...(kind === 'wait' ? [skip] : []));
    return panel;
  }
  const least = (duration.low ?? duration.high ?? 0) * 1000;
  const most = (duration.high ?? duration.low ?? 0) * 1000;
  let isOver = false;
  const tick = (): void => {
    const gone = Date.now() - started;
    if (kind === 'wait' && gone >= least) sayOver();
    else if (kind === 'wait') face.textContent = say('timer-runs', { left: clock(least - gone) });
    else
      face.textContent =
        gone < least
          ? `${say('timer-hold')}: ${seconds(gone)}`
          : `${say('hold-release')}: ${seconds(Math.min(gone, most))}`;
    if (gone >= least && !isOver) {
      isOver = true;
      navigator.vibrate?.(200);
      over();
    }
    // a clock that was set back must not hold anyone for hours
    const isRunning = gone < Math.max(least, most) && gone >= 0;
    if (isRunning && panel.isConnected) setTimeout(tick, 100);
    else if (gone < 0) over();
  };
  requestAnimationFrame(tick);
  if (kind === 'hold') panel.append(button(say('timer-start', { time: duration.text }), start, 'wide'));
  else panel.append(skip);
  return panel;
}

/** `1:05`. */
function clock(milliseconds: number): string {
  const whole = Math.ceil(milliseconds / 1000);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

function seconds(milliseconds: number): string {
  const text = (milliseconds / 1000).toFixed(1);
  return `${document.documentElement.lang === 'es' ? text.replace('.', ',') : text}\u00a0s`;
}
