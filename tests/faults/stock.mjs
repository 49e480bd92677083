/**
 * What the faults are held against: the same conversation as `feed`, kept by the file adapter that lowdb brings. One line in,
 * one event; answered when lowdb says that it is written.
 *
 *   node stock.mjs FOLDER
 */
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { LowSync } from 'lowdb';
import { JSONFileSync } from 'lowdb/node';

const db = new LowSync(new JSONFileSync(join(process.argv[2], 'db.json')), []);
db.read();
for await (const line of createInterface({ input: process.stdin })) {
  const n = db.data.length + 1;
  try {
    db.update((events) => events.push({ n, hash: String(n), line }));
    console.log(JSON.stringify({ ok: true, events: [{ n, hash: String(n) }] }));
  } catch (error) {
    console.log(JSON.stringify({ ok: false, refused: { id: error.code }, n }));
  }
}
