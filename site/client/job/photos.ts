// Pictures of a job: made small enough to keep and send, and kept as bytes beside the entries.

import { newId, type Writing, withStore, write } from './store.js';

/** The longest side that a kept picture has, in pixels: shows a worn tooth, and is a tenth of what a camera gives. */
const longestSide = 1600;

/** How the job of a picture is found or begun within the transaction that keeps it. */
export interface PictureJob {
  readonly begin: (tx: Writing) => Promise<string>;
  readonly after: () => void;
}

/** Keeps a picture and gives back its name. The place where it was taken, which cameras write into it, is not kept. */
export async function keepPicture(photo: Blob, job: PictureJob): Promise<string> {
  const small = await shrink(photo);
  const bytes = await small.arrayBuffer();
  const id = newId();
  await write(async (tx) => {
    await tx.objectStore('photos').add({ id, job: await job.begin(tx), type: small.type, bytes });
  });
  job.after();
  return id;
}

/** A kept picture by its name. */
export async function readPhoto(id: string): Promise<Blob | undefined> {
  const kept = await withStore((db) => db.get('photos', id));
  return kept && new Blob([kept.bytes], { type: kept.type });
}

async function shrink(photo: Blob): Promise<Blob> {
  if (typeof createImageBitmap === 'undefined') return photo;
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(photo);
  } catch {
    // no picture that this browser can draw: it is kept as it came
    return photo;
  }
  const scale = Math.min(1, longestSide / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(bitmap.width * scale);
  canvas.height = Math.round(bitmap.height * scale);
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  return new Promise((resolve) => canvas.toBlob((blob) => resolve(blob ?? photo), 'image/jpeg', 0.82));
}
