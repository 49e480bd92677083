/**
 * The whole process killed (SIGKILL) at seeded moments of real builds, and where a volume of its own can be made, its power
 * cut at that same moment. After each: every answer that it acknowledged is in the journal, nothing is there that nobody
 * asked for, at most the one action under way is there unacknowledged, and the next process goes on from there.
 *
 * 12 kills; PINCHROD_KILLS=200 for more. A kill alone leaves what was written to the system's cache, and lowdb's stock
 * file adapter passes it; of the power cut it must lose something.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import type { Action } from '../../src/unit/actions.js';
import { withoutRegister } from '../registerless.js';
import { freshWorkshop } from '../tui/terminal.js';
import { chance, turn } from './chance.js';
import { Build, Talk, UNITS } from './feed.js';
import { Ledger, recover } from './ledger.js';
import { fillWorkshop, makeVolume } from './volume.js';

const KILLS = Number(process.env.PINCHROD_KILLS ?? 12);
const SEED = Number(process.env.PINCHROD_SEED ?? 20_261_125);

const volume = makeVolume();
const aside = mkdtempSync(join(tmpdir(), 'pinchrod-kill-'));
afterAll(() => {
  if (typeof volume !== 'string') volume.remove();
  rmSync(aside, { recursive: true, force: true });
});

it(`${KILLS} kills of scripted builds lose nothing that was acknowledged`, async () => {
  if (typeof volume === 'string') console.warn(`kills without power cuts: ${volume}`);
  const { folder, remove } =
    typeof volume === 'string' ? freshWorkshop() : { folder: volume.folder, remove: () => {} };
  if (typeof volume !== 'string') fillWorkshop(folder);
  const random = chance(SEED);
  const ledger = new Ledger();
  let finished = 0;
  let build = new Build(folder, UNITS[0]!, aside);
  try {
    for (let kill = 0; kill < KILLS; ) {
      const about = `seed ${SEED}, kill ${kill}, ${build.unit}`;
      const talk = build.start();
      ledger.begins(folder, build.unit);
      const answers = 1 + Math.floor(random() * 10);
      // Between the answer before and the one that is under way: some turns of the loop, not a time.
      const turns = Math.floor(random() ** 2 * 4000);
      let underWay: Action | undefined;
      for (let heard = 0; ; heard++) {
        underWay = build.next();
        if (underWay === undefined) break;
        talk.say(underWay);
        if (heard >= answers) break;
        ledger.takes(build.unit, await talk.hear(), `${about}: ${JSON.stringify(underWay)} ${talk.errors}`);
        build.took(underWay);
      }
      if (underWay === undefined) {
        await talk.kill();
        finished += 1;
        if (finished % UNITS.length === 0) {
          rmSync(join(folder, 'logs'), { recursive: true });
          withoutRegister(folder);
          ledger.anew();
        }
        build = new Build(folder, UNITS[finished % UNITS.length]!, aside);
        continue;
      }
      await turn(turns);
      await talk.kill();
      kill += 1;
      ledger.look(folder, about, build.unit, underWay);
      if (typeof volume === 'string') continue;
      const cut = volume.cut();
      try {
        ledger.look(cut.folder, `${about}, power cut`, build.unit, underWay);
        recover(cut.folder, build.unit);
      } finally {
        cut.release();
      }
    }
    console.log(
      `kill -9${typeof volume === 'string' ? '' : ' and power cut'}: ${KILLS} of ${KILLS} (seed ${SEED}), ${finished} units finished, ${ledger.acknowledged} acknowledged events all there, ${ledger.torn} torn ends, ${ledger.more} times the action under way was written unacknowledged`,
    );
    expect(ledger.acknowledged).toBeGreaterThan(KILLS);
  } finally {
    remove();
  }
}, 900_000);

it('lowdb’s own adapter loses acknowledged events of the same kills and power cuts', async (context) => {
  if (typeof volume === 'string') {
    console.warn(`passed over: ${volume}`);
    return context.skip(volume);
  }
  const random = chance(SEED);
  let lost = 0;
  let acknowledged = 0;
  for (let kill = 0; kill < 8; kill++) {
    const talk = new Talk(process.execPath, [join(import.meta.dirname, 'stock.mjs'), volume.folder]);
    for (let n = 0; n < 1 + Math.floor(random() * 10); n++) {
      talk.say({ do: 'note', text: `${kill}` });
      for (const event of (await talk.hear())?.events ?? []) acknowledged = event.n;
    }
    await talk.kill();
    const cut = volume.cut();
    const file = join(cut.folder, 'db.json');
    const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
    lost += acknowledged - (text === '' ? 0 : (JSON.parse(text) as unknown[]).length);
    cut.release();
  }
  console.log(`lowdb's adapter: ${lost} acknowledged events lost, summed over 8 kills with power cuts`);
  expect(lost).toBeGreaterThan(0);
});
