// A small sheet to sign on by finger; what is drawn is kept as a picture.

import { element } from '../element.js';
import { button } from './parts.js';
import { say } from './words.js';

const size = { width: 600, height: 200 };

/** The sheet with its buttons; `keep` gets the picture as a data URL. */
export function signaturePad(keep: (picture: string) => void): HTMLElement {
  const sheet = element(
    'canvas',
    { class: 'sign-here', role: 'img', 'aria-label': say('sign-hint') },
    [],
  ) as HTMLCanvasElement;
  Object.assign(sheet, size);
  const pen = sheet.getContext('2d');
  let isEmpty = true;
  const done = button(say('sign-keep'), () => {
    if (!isEmpty) keep(sheet.toDataURL('image/png'));
  });
  const clear = button(say('sign-clear'), () => wipe(), 'quiet');
  const wipe = (): void => {
    isEmpty = true;
    done.disabled = true;
    if (!pen) return;
    // black on white also at night: it is printed
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, size.width, size.height);
    pen.lineWidth = 4;
    pen.lineCap = pen.lineJoin = 'round';
    pen.strokeStyle = '#000';
  };
  const at = (event: PointerEvent): readonly [number, number] => {
    const box = sheet.getBoundingClientRect();
    const scale = size.width / box.width;
    return [(event.clientX - box.left) * scale, (event.clientY - box.top) * scale];
  };
  sheet.addEventListener('pointerdown', (event) => {
    sheet.setPointerCapture(event.pointerId);
    pen?.beginPath();
    pen?.moveTo(...at(event));
  });
  sheet.addEventListener('pointermove', (event) => {
    if (!sheet.hasPointerCapture(event.pointerId)) return;
    pen?.lineTo(...at(event));
    pen?.stroke();
    isEmpty = false;
    done.disabled = false;
  });
  wipe();
  return element('div', { class: 'signing' }, [
    element('p', { class: 'aside' }, [say('sign-hint')]),
    sheet,
    element('div', { class: 'answers' }, [clear, done]),
  ]);
}
