/** A fault of the program at the bench: said, survived, and nothing that was acknowledged is lost. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { Ports } from '../../src/session/ports.js';
import type { RealPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { drawnText } from './drawn.js';
import { type KeyedWorkshop, keyedWorkshop, workUntil } from './keyedworkshop.js';
import { findPty, Terminal } from './terminal.js';

const SIZE = { columns: 80, rows: 24 };
const F8 = '\x1b[19~';
const RIGHT = '\x1b[C';
const LEAVE = '\x18';

let leave: (() => void)[] = [];
afterEach(() => {
  for (const each of leave.splice(0).reverse()) each();
  leave = [];
});
function shopWith(wrap?: (ports: RealPorts) => Ports): KeyedWorkshop {
  const shop = keyedWorkshop(wrap);
  leave.push(() => shop.close());
  return shop;
}
/** The real ports, with some of their calls replaced. */
const over = (ports: RealPorts, replaced: Partial<Ports>): Ports => ({
  world: () => ports.world(),
  open: (unit, who) => ports.open(unit, who),
  act: (action, hand) => ports.act(action, hand),
  refresh: () => ports.refresh(),
  reread: (lookOnly) => ports.reread(lookOnly),
  close: () => ports.close(),
  ...replaced,
});
const journal = (shop: KeyedWorkshop, unit: string): string[] =>
  readFileSync(join(shop.folder, 'logs/pier-house', `${unit}.jsonl`), 'utf8')
    .split('\n')
    .filter((line) => line !== '');

describe('a hold, with cures running, for a person whose language is German', () => {
  it.each(['lb', 'ot'])('is shown and released, read by %s', (person) => {
    const shop = shopWith();
    const { core } = shop;
    core.open('P02-1');
    const held = () =>
      [...core.world().open!.state.steps.values()].find(
        ({ step, status }) => status === 'held' && step.base === 'sash.seal',
      );
    workUntil(shop, () => held() !== undefined);
    expect(core.world().open!.state.timers.length).toBeGreaterThan(0);
    // Time goes on, so that the state is worked out anew for the moment.
    shop.clock += 30_000;
    core.feed(`${person}\r`);
    if (person !== 'lb') core.feed('\x01');
    core.tick();
    core.feed(F8);
    expect(core.state().screen.name).toBe('release');
    expect(drawnText(core, SIZE)).not.toBe('');
    expect(core.faults()).toBe(0);
  });
});

describe('a decision that throws', () => {
  /** Acts fail from then on: before anything is written, or after. */
  function failing(when: 'before' | 'after') {
    const box = { fails: false };
    const shop = shopWith((ports) =>
      over(ports, {
        act(action, hand) {
          const acted = box.fails && when === 'before' ? undefined : ports.act(action, hand);
          if (box.fails) throw new TypeError('made to fail');
          return acted!;
        },
      }),
    );
    shop.core.open('P01-1');
    shop.core.feed('JB\r');
    const answer = () => {
      shop.clock += 5000;
      for (const chunk of shop.next()) shop.core.feed(chunk);
    };
    answer();
    expect(journal(shop, 'P01-1').length).toBe(3);
    box.fails = true;
    return { core: shop.core, shop, box, answer };
  }

  it.each([
    ['before', 3],
    ['after', 4],
  ] as const)('%s it wrote: is said, the unit is read anew, and work goes on', (when, lines) => {
    const { core, shop, box, answer } = failing(when);
    answer();
    expect(core.faults()).toBe(1);
    expect(core.state().note?.text).toContain('made to fail [bench.reread]');
    expect(core.state().person).toBe('jb');
    expect(core.state().screen.name).toBe('step');
    expect(core.world().open?.state.events.length).toBe(lines);
    expect(journal(shop, 'P01-1').length).toBe(lines);
    box.fails = false;
    answer();
    // The answer that failed before, or the one that comes next.
    expect(journal(shop, 'P01-1').length).toBe(lines + 1);
    expect(verifyTree(realDisk, shop.folder).faults).toEqual([]);
  });

  it('twice: the unit may be looked at only; three times: it is closed; the first key that leaves does', () => {
    const { core, shop, box, answer } = failing('before');
    answer();
    answer();
    expect(core.state().note?.text).toContain('[bench.look-only]');
    expect(core.world().open?.readOnly).toContain('made to fail');
    expect(core.world().open?.keptBy).toBeUndefined();
    // Refused before anything could fail again, for as long as it is open.
    box.fails = false;
    shop.clock += 5000;
    core.tick();
    answer();
    expect(core.state().note?.text).toMatch(/look/i);
    expect(journal(shop, 'P01-1').length).toBe(3);
    box.fails = true;
    core.feed('P01-1\r');
    answer();
    answer();
    core.undrawable(new Error('made to fail'));
    expect(core.state().note?.text).toContain('[bench.let-go]');
    expect(core.world().open).toBeUndefined();
    expect(core.state().left).toBe(false);
    core.feed(LEAVE);
    expect(core.state().left).toBe(true);
    expect(verifyTree(realDisk, shop.folder).faults).toEqual([]);
  });

  it('opened again from the board, it is taken for writing again', () => {
    const { core, shop, box, answer } = failing('before');
    answer();
    answer();
    box.fails = false;
    core.feed('P02-1\r');
    core.feed('P01-1\r');
    expect(core.world().open?.readOnly).toBeUndefined();
    answer();
    expect(journal(shop, 'P01-1').length).toBe(4);
  });

  it('what was typed behind the key that failed is dropped', () => {
    const { core, shop } = failing('before');
    const keys = shop.next();
    if (typeof keys === 'string') throw new Error(keys);
    core.feed(`${keys.join('')}MV\r`);
    expect(core.state()).toMatchObject({ person: 'jb', entry: '' });
  });
});

it('where nothing works any more, nothing is tried any more, and one key leaves', () => {
  const box = { fails: false };
  const throws = () => {
    throw new Error('made to fail');
  };
  const shop = shopWith((ports) =>
    over(ports, { world: () => (box.fails ? throws() : ports.world()), close: throws }),
  );
  const { core } = shop;
  core.open('P01-1');
  box.fails = true;
  for (const key of ['x', RIGHT, 'x']) core.feed(key);
  core.tick();
  core.feed(LEAVE);
  expect(core.state().left).toBe(true);
});

it('a drawing that throws is drawn again from the journal, in a real terminal', async (context) => {
  const found = await findPty();
  if ('skip' in found) return context.skip(found.skip);
  const shop = shopWith();
  // As often as the file says, a text made of repeated characters fails, as only drawings make them. (The library that draws
  // tries once more by itself.)
  const trigger = join(shop.folder, 'trigger');
  const fault = join(shop.folder, 'fault.mjs');
  writeFileSync(
    fault,
    `import { readFileSync, writeFileSync } from 'node:fs';
    const real = String.prototype.repeat;
    String.prototype.repeat = function (count) {
      const left = Number(readFileSync(${JSON.stringify(trigger)}, 'utf8'));
      if (left === 0) return real.call(this, count);
      writeFileSync(${JSON.stringify(trigger)}, String(left - 1));
      throw new Error('made to fail');
    };`,
  );
  writeFileSync(trigger, '0');
  const terminal = new Terminal(found.pty, {
    folder: shop.folder,
    env: { NODE_OPTIONS: `--import=${fault}` },
  });
  leave.push(() => terminal.close());
  await terminal.until('P02-1');
  await terminal.say('P01-1\r', 'nobody signs');
  await terminal.say('JB\r', 'signs: JB');
  writeFileSync(trigger, '2');
  await terminal.say('\x1bOR', '[bench.reread]');
  await terminal.say('MV\r', 'signs: MV');
  writeFileSync(trigger, '2');
  await terminal.say('\x1bOR', '[bench.look-only]');
  terminal.send(LEAVE);
  expect(await terminal.ended()).toMatchObject({ code: 0 });
  expect(terminal.raw).not.toMatch(/^\s+at .+:\d+:\d+/m);
}, 60_000);
