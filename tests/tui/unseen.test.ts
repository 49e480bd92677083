/** The last release of a unit waits for the shop's server, unless the shop allows it without; the record then says so. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { ok } from '../../src/base/problem.js';
import { Agent } from '../../src/server/agent.js';
import { SharedShop } from '../../src/session/sharedshop.js';
import type { Card } from '../../src/store/card.js';
import { realDisk } from '../../src/store/disk.js';
import { command } from '../errors/museum.js';
import { type Bench, benchOf, RIGHT, remove, smallWorkshop, startClock, work } from './realbench.js';

let root: string;
let bench: Bench;
let allowed = false;
let agent: Agent;

beforeEach(() => {
  root = smallWorkshop();
  const clock = startClock();
  bench = benchOf(root, clock);
  bench.ports.open('S01-1');
  work(bench.ports, clock, (action) => action.do === 'answer' && action.check === 'show/seen');
  // Nothing answers there: the line is down, as a bench finds it.
  const settings = { host: '127.0.0.1', port: 1, database: 'shop', user: 'bench' };
  const card: Card = {
    format: 'pinchrod-shop 1',
    shop: 's',
    name: 'S',
    bench: 'bench-t',
    folder: 'f',
    lies: 'l',
  };
  agent = new Agent({
    disk: realDisk,
    root,
    card,
    settings: () => ok(settings),
    clock: () => Date.now(),
    isInUse: () => true,
    ahead: () => ({ units: [], most: 0 }),
  });
  bench.ports.share(
    new SharedShop(
      agent,
      card,
      () => allowed,
      () => true,
      () => 0,
    ),
  );
  bench.press('JB\r', 'S01-1\r');
});
afterEach(async () => {
  bench.ports.close();
  await agent.stop();
  remove(root);
});

it('is refused with its way out, and is given where the shop allows it, with how much was missing', async () => {
  bench.press(RIGHT);
  expect(bench.core.state().note).toMatchObject({
    text: expect.stringMatching(/does not have \d+ lines of S01-1 yet/),
    todo: expect.stringContaining('line is up'),
  });
  const before = bench.core.world().open!.state.events.length;
  allowed = true;
  bench.press(RIGHT);
  expect(bench.core.world().open!.state.events).toContainEqual(
    expect.objectContaining({ kind: 'finished', unseen: before }),
  );
  bench.ports.close();
  const { out } = await command(root, ['record', 'S01-1']);
  expect(out.replace(/\s+/g, ' ')).toContain(
    `Released early the shop's server did not have ${before} lines of it yet`,
  );
  const json = await command(root, ['record', 'S01-1', '--format', 'json']);
  expect(JSON.parse(json.out).seal).toMatchObject({ closed: true, unseen: before });
});
