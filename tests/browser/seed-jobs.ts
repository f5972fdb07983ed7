// Runs within a page whose store exists: puts jobs there as a phone would have kept them.

/** Adds an open job with all kinds of acts, and a closed one that was amended. */
export async function seed(name: string): Promise<void> {
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
  const canvas = document.createElement('canvas');
  canvas.width = 640;
  canvas.height = 400;
  const pen = canvas.getContext('2d');
  if (pen) {
    pen.fillStyle = '#b9b2a4';
    pen.fillRect(0, 0, 640, 400);
    pen.fillStyle = '#333';
    pen.fillRect(200, 120, 240, 160);
  }

  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg'));
  const bytes = await blob?.arrayBuffer();
  const signature = canvas.toDataURL('image/png');
  const page = {
    code: 'QF72KD',
    procedure: 'check-height-sensor',
    title: 'Check and set the height sensors',
    revision: 3,
    content: 'aaaa',
    path: 'tarn-40/row-12x20/check-height-sensor/',
    rig: 'Tarn 40 · 12-row header, 20 in rows · with lateral tilt',
    language: 'en',
  };
  const other = {
    ...page,
    procedure: 'mass-flow',
    title: 'Calibrate the mass flow with weighed loads',
    path: 'tarn-40/row-12x20/mass-flow/',
  };
  const read = (value: string, label: string, text: string, more: object = {}) => ({
    kind: 'read',
    step: '9',
    value,
    label,
    text,
    unit: 'V',
    verdict: 'pass',
    limits: '3.624 to 4.173 V',
    low: '3.624',
    high: '4.173',
    instrument: 'Display reading',
    ...more,
  });
  const ground = 'Height sensor, header on the ground';
  const acts = [
    { kind: 'tick', condition: 0, words: 'Engine: low idle', met: true },
    { kind: 'tick', condition: 1, words: 'Automatic height: off', met: true },
    { kind: 'leave', step: 'before', words: '', by: 'next', to: '1' },
    { kind: 'leave', step: '1', words: 'Lower the header until the feeder house stops.', by: 'next', to: '9' },
    read('on_ground', ground, '34.1', { verdict: 'fault', side: 'high' }),
    read('on_ground', ground, '3.41', { verdict: 'fail', side: 'low' }),
    { kind: 'leave', step: '9', words: 'Read the height sensor.', by: 'reading', to: '10' },
    {
      kind: 'turn',
      step: '10',
      adjuster: 'sensor_turn',
      label: 'Turn the sensor body in its slots',
      text: '4.5',
      total: '4.5',
      unit: 'deg',
      moves: ['on_ground', 'travel'],
    },
    { kind: 'photo', step: '10', photo: 'f'.repeat(32), type: 'image/jpeg' },
    { kind: 'note', step: '10', text: 'The left slot is worn; the bolt holds for now.' },
    { kind: 'mark', step: '11', mark: 'replace' },
    { kind: 'leave', step: '10', words: 'Turn the sensor body.', by: 'next', to: '9' },
    read('on_ground', ground, '3.90'),
    read('raised', 'Height sensor, header fully raised', '0.91', { verdict: 'unsure', limits: '0.73 to 1.07 V' }),
    { kind: 'wrong', step: '9', text: 'The display page is called otherwise.' },
  ];
  const cells = [1, 2, 3].flatMap((row) => [
    { kind: 'cell', step: '8', worksheet: 'loads', row, column: 'flow', text: 'high', word: 'much grain' },
    { kind: 'cell', step: '8', worksheet: 'loads', row, column: 'shown', text: String(10000 + row * 10) },
    { kind: 'cell', step: '8', worksheet: 'loads', row, column: 'scale', text: String(10020 + row * 12) },
    { kind: 'cell', step: '8', worksheet: 'loads', row, column: 'error', text: '0.4' },
  ]);
  const facts = [
    ['who', 'R. Quill'],
    ['work-order', 'W-1182'],
    ['engine-hours', '1240'],
    ['machine-serial', '70-00317'],
    ['instrument', 'Multimeter M-7'],
    ['instrument-calibrated', '2026-03-02'],
    ['signature', signature],
  ].map(([name, text]) => ({ kind: 'fact', name, text }));
  const tx = db.transaction(['jobs', 'entries', 'photos'], 'readwrite');
  const put = (id: string, head: object, list: readonly object[]) => {
    tx.objectStore('jobs').put({ id, page, begun: '2026-11-25T08:00:00.000Z', state: 'open', ...head });
    list.forEach((entry, i) => {
      tx.objectStore('entries').add({
        job: id,
        entry: { at: `2026-11-25T08:${String(i + 1).padStart(2, '0')}:00.000Z`, ...entry },
      });
    });
  };
  tx.objectStore('photos').put({ id: 'f'.repeat(32), job: 'a'.repeat(32), type: 'image/jpeg', bytes });
  put('a'.repeat(32), {}, acts);
  put('b'.repeat(32), { page: other, begun: '2026-11-24T08:00:00.000Z' }, cells);
  put('c'.repeat(32), { state: 'closed', begun: '2026-11-23T08:00:00.000Z' }, [
    ...acts,
    ...cells,
    ...facts,
    { kind: 'leave', step: '12', words: 'Park.', by: 'next', to: 'done' },
    { kind: 'close' },
    {
      kind: 'fact',
      name: 'engine-hours',
      text: '1420',
      amendment: { who: 'R. Quill', why: 'The hours were misread.' },
    },
  ]);
  await new Promise((resolve) => {
    tx.oncomplete = resolve;
  });
  db.close();
}
