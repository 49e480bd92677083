/** The language of the steps in a real terminal: by person, by key, back again, and clean after a resize. */
import { afterEach, beforeAll, expect, it } from 'vitest';
import { findPty, freshWorkshop, Terminal } from './terminal.js';

let found: Awaited<ReturnType<typeof findPty>>;
beforeAll(async () => {
  found = await findPty();
});
const leave: (() => void)[] = [];
afterEach(() => {
  for (const each of leave.splice(0).reverse()) each();
});

it('is that of whoever signs, and ^A switches it', async (context) => {
  if ('skip' in found) {
    console.warn(`passed over: ${found.skip}`);
    context.skip(found.skip);
    throw new Error('skipped');
  }
  const { folder, remove } = freshWorkshop();
  const terminal = new Terminal(found.pty, { folder, columns: 100, rows: 30 });
  leave.push(remove, () => terminal.close());
  await terminal.until('P03-1');
  await terminal.say('p03-1\r', 'nobody signs');
  await terminal.say('jb\r', 'Read the papers of the order');
  await terminal.say('lb\r', 'Unterlagen des Auftrags lesen');
  await terminal.until('Stimmen Position und Stand');
  expect(terminal.text()).toContain('AUFTRAGSPRÜFUNG');
  expect(terminal.text()).not.toContain('Read the papers');
  terminal.resize(80, 24);
  await terminal.until(
    (text) => text.split('\n')[2]!.startsWith('─ [○]') && text.includes('Unterlagen des Auftrags'),
  );
  await terminal.say('\x01', 'The steps are in English.');
  expect(terminal.text()).toContain('Read the papers of the order');
  await terminal.say('\x01', 'Die Schritte sind auf Deutsch.');
  await terminal.say('\x1b[15~', 'Ein alter Stand liegt noch in der Mappe.');
  terminal.send('\x1b');
  await terminal.until((text) => !text.includes('Ein alter Stand'));
  await terminal.say('mv\r', 'Read the papers of the order');
});
