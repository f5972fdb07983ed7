// What is said where something is kept from any page: that it was kept, or why not; and the form for a page that is wrong.

import type { FaultKind } from './store.js';

const english = {
  'wrong-title': 'What is wrong on this page?',
  'wrong-where': 'Where',
  'wrong-page': 'The page as a whole',
  'wrong-text': 'What is wrong, and what it should say',
  'wrong-keep': 'Keep it',
  'wrong-job': 'Kept with the open job.',
  'wrong-report': 'Kept on this phone. It goes to nobody until you send it.',
  'wrong-jobs': 'To the jobs on this phone',
  'wrong-needs': 'Write what is wrong first.',
  'wrong-close': 'Back to the page',
  'fault-refused': 'Not kept: this phone allows no storage for this site. Write it on paper.',
  'fault-full': 'Not kept: the store of this phone is full. Write it on paper.',
  'fault-lost': 'Not kept: the job is no longer on this phone. Write it on paper.',
  'fault-closed': 'Not kept: the job was closed meanwhile. You can add to it.',
  'fault-broken': 'Not kept: the store of this phone failed. Write it on paper.',
} as const;

export type JobKey = keyof typeof english;

const spanish: Readonly<Record<JobKey, string>> = {
  'wrong-title': '¿Qué está mal en esta página?',
  'wrong-where': 'Dónde',
  'wrong-page': 'La página en general',
  'wrong-text': 'Qué está mal, y qué debería decir',
  'wrong-keep': 'Guardarlo',
  'wrong-job': 'Guardado con el trabajo abierto.',
  'wrong-report': 'Guardado en este teléfono. No va a nadie hasta que usted lo envíe.',
  'wrong-jobs': 'A los trabajos en este teléfono',
  'wrong-needs': 'Escriba primero qué está mal.',
  'wrong-close': 'Volver a la página',
  'fault-refused': 'No se guardó: este teléfono no permite guardar nada de este sitio. Apúntelo en papel.',
  'fault-full': 'No se guardó: el almacén de este teléfono está lleno. Apúntelo en papel.',
  'fault-lost': 'No se guardó: el trabajo ya no está en este teléfono. Apúntelo en papel.',
  'fault-closed': 'No se guardó: el trabajo se cerró entretanto. Puede añadirlo.',
  'fault-broken': 'No se guardó: falló el almacén de este teléfono. Apúntelo en papel.',
};

/** The tables by language, for tests. */
export const jobWords: Readonly<Record<string, Readonly<Record<JobKey, string>>>> = { en: english, es: spanish };

/** A text in the page's language. */
export function sayJob(key: JobKey): string {
  return (jobWords[document.documentElement.lang] ?? english)[key];
}

/** Why something was not kept, and what to do instead. */
export function sayFault(kind: FaultKind): string {
  return sayJob(`fault-${kind}`);
}
