/** Connects an open workshop to its shop of several benches, where its folder takes part in one. */
import type { Card } from '../store/card.js';
import { attempt } from '../store/files.js';
import { lockSeen, thisProcess } from '../store/lock.js';
import { journalPlace } from '../store/paths.js';
import { SharedShop } from './sharedshop.js';
import { sources } from './sources.js';
import type { RealPorts, ShopNews } from './workshopports.js';

/** What is still handed over when the bench is left, at most, ms; a script waits longer, so that nobody finds half of it. */
const LAST_MS = { bench: 2_000, script: 20_000 };
/** How long a script waits for the line, at most, ms. */
const FIRST_MS = 5_000;
/** Changes that come together are shown once, ms. */
const TOGETHER_MS = 60;

export interface ShopLine {
  readonly shared: SharedShop;
  /** Waits until the server answered, for a short while: without it the work goes on. */
  ready(): Promise<void>;
  /** Hands over what waits, for a short while, and ends the connection. */
  stop(): Promise<void>;
}

/**
 * Undefined if the folder takes part in no shop. Does not wait for the server.
 * @param ahead takes leases of units that nobody began, for a shift without a line
 */
export async function connectToShop(ports: RealPorts, { ahead = false } = {}): Promise<ShopLine | undefined> {
  const { card } = ports.place.workshop;
  return card && connect(ports, card, ahead);
}

async function connect(ports: RealPorts, card: Card, ahead: boolean): Promise<ShopLine> {
  const { root, disk, clock } = ports.place;
  const [{ Agent }, { readSettings }] = await Promise.all([
    import('../server/agent.js'),
    import('../server/settings.js'),
  ]);
  const pending = new Set<ShopNews>();
  const later = (what: ShopNews): void => {
    if (pending.size === 0)
      setTimeout(() => {
        const heard = [...pending];
        pending.clear();
        // What came is on the disk: that it was not shown at once must not end the bench.
        for (const each of heard) attempt(() => ports.heard(each));
      }, TOGETHER_MS).unref();
    pending.add(what);
  };
  const agent = new Agent(
    {
      disk,
      root,
      card,
      settings: () => readSettings(sources(), card.service ?? process.env.PGSERVICE),
      clock,
      isInUse: (job, unit) => {
        const place = journalPlace(root, job, unit);
        return (
          place.ok && lockSeen(disk, place.value, thisProcess()) !== undefined && !ports.gives(job, unit)
        );
      },
      ahead: () => ({ units: ports.notBegun(), most: ahead ? ports.place.workshop.shop.ahead : 0 }),
    },
    {
      journals: () => later('journals'),
      files: () => later('files'),
      edition: () => {
        shared.tookEdition();
        later('files');
        later('ended');
      },
      setups: () => later('ended'),
      branched: (made) => {
        shared.branched(made.map(({ branch }) => branch));
        later('journals');
      },
      state: () => later('state'),
    },
  );
  const shared = new SharedShop(
    agent,
    card,
    () => ports.place.workshop.shop.releaseUnseen,
    (job, unit) => {
      const place = journalPlace(root, job, unit);
      return place.ok && (disk.stat(place.value.file)?.size ?? 0) > 0;
    },
    () => performance.now(),
  );
  ports.share(shared);
  agent.start();
  return {
    shared,
    ready: () => agent.firstAnswer(FIRST_MS),
    stop: async () => {
      if (!agent.down) await agent.settle(ahead ? LAST_MS.bench : LAST_MS.script);
      await agent.stop();
    },
  };
}
