/**
 * Power cuts in the middle of a build: the process is held for the moment in which the image of its file system is copied,
 * and goes on afterwards, as nothing had happened to it. The copy is what a machine would find: everything acknowledged
 * before the cut is in it, and it verifies. lowdb's stock adapter must fail it.
 *
 * 6 cuts; PINCHROD_CUTS=30 for more.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, it } from 'vitest';
import { withoutRegister } from '../registerless.js';
import { chance, turn } from './chance.js';
import { Build, Talk, UNITS } from './feed.js';
import { Ledger, recover } from './ledger.js';
import { fillWorkshop, makeVolume } from './volume.js';

const CUTS = Number(process.env.PINCHROD_CUTS ?? 6);
const SEED = Number(process.env.PINCHROD_SEED ?? 4711);

const made = makeVolume();
const volume = typeof made === 'string' ? undefined : made;
const aside = mkdtempSync(join(tmpdir(), 'pinchrod-cut-'));
afterAll(() => {
  volume?.remove();
  rmSync(aside, { recursive: true, force: true });
});
beforeEach((context) => {
  if (typeof made === 'string') context.skip(made);
});

it(`${CUTS} power cuts during builds lose nothing that was acknowledged`, async () => {
  const { folder } = volume!;
  fillWorkshop(folder);
  const random = chance(SEED);
  const ledger = new Ledger();
  let at = 0;
  let cuts = 0;
  while (cuts < CUTS) {
    const build = new Build(folder, UNITS[at++ % UNITS.length]!, aside);
    if (at > UNITS.length && (at - 1) % UNITS.length === 0) {
      rmSync(join(folder, 'logs'), { recursive: true });
      withoutRegister(folder);
      ledger.anew();
    }
    const talk = build.start();
    ledger.begins(folder, build.unit);
    try {
      for (let action = build.next(); action !== undefined && cuts < CUTS; action = build.next()) {
        talk.say(action);
        if (random() < 0.12) {
          const about = `seed ${SEED}, cut ${cuts}, ${build.unit}: ${JSON.stringify(action)}`;
          await turn(Math.floor(random() ** 2 * 2000));
          talk.child.kill('SIGSTOP');
          const cut = volume!.cut();
          talk.child.kill('SIGCONT');
          cuts += 1;
          try {
            ledger.look(cut.folder, about, build.unit, action);
            recover(cut.folder, build.unit);
          } finally {
            cut.release();
          }
        }
        ledger.takes(build.unit, await talk.hear(), `${JSON.stringify(action)} ${talk.errors}`);
        build.took(action);
      }
    } finally {
      talk.child.stdin.end();
      await talk.kill();
    }
  }
  console.log(
    `power cuts: ${cuts} of ${CUTS} (seed ${SEED}), ${ledger.acknowledged} acknowledged events, none lost; ${ledger.more} times the action under way was found written, ${ledger.torn} torn ends`,
  );
  expect(ledger.acknowledged).toBeGreaterThan(CUTS);
}, 900_000);

it('lowdb’s own adapter loses acknowledged events of the same cuts', async () => {
  const talk = new Talk(process.execPath, [join(import.meta.dirname, 'stock.mjs'), volume!.folder]);
  const random = chance(SEED);
  let lost = 0;
  let rounds = 0;
  for (let round = 0; round < 10; round++) {
    let acknowledged = 0;
    for (let n = 0; n < 1 + Math.floor(random() * 10); n++) {
      talk.say({ do: 'note', text: `${round} ${n}` });
      acknowledged = (await talk.hear())!.events![0]!.n;
    }
    talk.child.kill('SIGSTOP');
    const cut = volume!.cut();
    talk.child.kill('SIGCONT');
    const file = join(cut.folder, 'db.json');
    const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
    const missing = acknowledged - (text === '' ? 0 : (JSON.parse(text) as unknown[]).length);
    lost += missing;
    rounds += missing > 0 ? 1 : 0;
    cut.release();
  }
  await talk.kill();
  console.log(
    `lowdb's adapter: ${rounds} of 10 power cuts lost acknowledged events (${lost} missing in all)`,
  );
  expect(rounds).toBeGreaterThan(0);
});
