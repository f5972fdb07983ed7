// `serve` as a person at the desk uses it: pages from memory, what is wrong shown on them, and a new build when it is mended.

import { spawn } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { newFolder } from './terminal.js';

const root = join(import.meta.dirname, '../..');

it('builds again when the book changes, and keeps the last pages that held', async () => {
  const book = join(newFolder(), 'book');
  cpSync(join(root, 'tests/books/base'), book, { recursive: true });
  const words = ['dist/commands/main.js', 'serve', book, '--port', '0', '--today', '2026-11-24'];
  const child = spawn(process.execPath, words, { cwd: root });
  try {
    const address = await new Promise<string>((resolve, reject) => {
      let out = '';
      child.stdout.on('data', (data) => {
        out += data;
        const found = /http:\/\/127\.0\.0\.1:\d+\//.exec(out)?.[0];
        if (found) resolve(found);
      });
      child.on('exit', () => reject(new Error(out)));
    });
    expect(await (await fetch(address)).text()).toContain('Tarn 40');
    expect((await fetch(`${address}no/such/page`)).status).toBe(404);
    const reader = (await fetch(`${address}_serve/events`)).body?.getReader();
    let events = '';
    const until = async (words: string): Promise<void> => {
      while (!events.includes(words)) events += new TextDecoder().decode((await reader?.read())?.value);
    };
    await until('here');
    const path = join(book, 'machines/tarn-40.yaml');
    const text = readFileSync(path, 'utf8');
    writeFileSync(path, text.replace('name: Tarn 40', 'nmae: Tarn 40'));
    await until('event: faults');
    expect(events).toContain('nmae');
    expect(await (await fetch(address)).text()).toContain('Tarn 40');
    writeFileSync(path, text.replace('name: Tarn 40', 'name: Tarn 41'));
    await until('event: built');
    expect(await (await fetch(address)).text()).toContain('Tarn 41');
    await reader?.cancel();
  } finally {
    child.kill();
  }
});
