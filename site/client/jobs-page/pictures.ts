// Pictures of a record. They are drawn onto canvases: the page's policy allows no image from anywhere but the site.

import type { RecordPhoto } from '../../../src/model/job-record.js';
import { element } from '../element.js';
import { readPhoto } from '../job/photos.js';
import { sayMoment } from '../offline/say.js';
import { say } from './words.js';

/** The widest that a picture is drawn, in pixels. */
const widest = 800;

/** The pictures that were taken, each with its step. */
export function drawPhotos(photos: readonly RecordPhoto[]): Promise<readonly HTMLElement[]> {
  return Promise.all(
    photos.map(async ({ photo, step, at }) => {
      const blob = await readPhoto(photo);
      const label = say('photo', { label: step });
      const drawn = blob && (await drawPicture(blob, label));
      if (!drawn) return element('p', {}, [say('photo-gone', { label: step })]);
      const caption = element('figcaption', { class: 'aside' }, [`${label} · ${sayMoment(at)}`]);
      return element('figure', { class: 'photo' }, [drawn, caption]);
    }),
  );
}

/** A picture as a canvas; `undefined` where this browser cannot draw it. */
export async function drawPicture(blob: Blob, label: string): Promise<HTMLCanvasElement | undefined> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(blob);
  } catch {
    return undefined;
  }
  const scale = Math.min(1, widest / bitmap.width);
  const canvas = element('canvas', { role: 'img', 'aria-label': label }, []) as HTMLCanvasElement;
  canvas.width = Math.round(bitmap.width * scale);
  canvas.height = Math.round(bitmap.height * scale);
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  return canvas;
}

/** The bytes behind a data URL; `undefined` where it is none of a picture. */
export function fromDataUrl(url: string): Blob | undefined {
  const [, type, coded] = /^data:(image\/[a-z]+);base64,([A-Za-z\d+/=]+)$/.exec(url) ?? [];
  if (type === undefined || coded === undefined) return undefined;
  return new Blob([Uint8Array.from(atob(coded), (sign) => sign.charCodeAt(0))], { type });
}
