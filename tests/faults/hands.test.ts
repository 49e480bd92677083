/** What people do to a workshop while it runs: two benches in one folder, clocks set, the folder moved, files edited. */
import { existsSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { freshWorkshop, MAIN } from '../tui/terminal.js';
import { Build, JOB, Talk, written } from './feed.js';

const HOUR = 3_600_000;
const HAND = { person: 'jb' };

let folder: string;
let aside: string;
let leave: (() => void)[] = [];
beforeEach(() => {
  const fresh = freshWorkshop();
  folder = fresh.folder;
  aside = mkdtempSync(join(tmpdir(), 'pinchrod-hands-'));
  leave = [fresh.remove, () => rmSync(aside, { recursive: true, force: true })];
});
afterEach(() => {
  for (const each of leave.reverse()) each();
});

interface Time {
  wall: number;
  steady: number;
}
function bench(time: Time = { wall: Date.parse('2026-11-24T08:00:00Z'), steady: 0 }): RealPorts {
  const made = realPorts({
    workshop: folder,
    clock: () => time.wall,
    steady: () => time.steady,
    bench: 'bench-1',
  });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  leave.push(() => made.value.close());
  return made.value;
}
const note = (ports: RealPorts, text: string) => ports.act({ do: 'note', text }, HAND);
const faults = () => verifyTree(realDisk, folder).faults;

describe('two processes', () => {
  it('on one folder write two units at once, and both journals hold all that was acknowledged', async () => {
    const units = ['P01-1', 'P03-1'];
    const acknowledged = await Promise.all(
      units.map(async (unit) => {
        const build = new Build(folder, unit, mkdtempSync(join(aside, 'clock-')));
        const talk = build.start();
        const told: string[] = [];
        for (let i = 0; i < 40; i++) {
          const action = build.next()!;
          talk.say(action);
          const reply = await talk.hear();
          expect(reply?.ok, JSON.stringify(reply)).toBe(true);
          for (const { hash } of reply!.events!) told.push(hash);
          build.took(action);
        }
        talk.child.stdin.end();
        await talk.ended;
        return told;
      }),
    );
    for (const [i, unit] of units.entries()) {
      const hashes = written(folder, unit).map(({ hash }) => hash);
      expect(hashes).toEqual(expect.arrayContaining(acknowledged[i]!));
      expect(acknowledged[i]!.length).toBeGreaterThan(20);
    }
    expect(faults()).toEqual([]);
  });

  it('on one unit: the second may not write, and says who has it', async () => {
    const first = new Talk(process.execPath, [MAIN, '--workshop', folder, 'feed', 'P01-1', '--person', 'jb']);
    first.say({ do: 'note', text: 'mine' });
    expect(await first.hear()).toMatchObject({ ok: true });
    const second = new Talk(process.execPath, [
      MAIN,
      '--workshop',
      folder,
      'feed',
      'P01-1',
      '--person',
      'mv',
    ]);
    second.say({ do: 'note', text: 'not mine' });
    const reply = await second.hear();
    expect(`${JSON.stringify(reply)}${second.errors}`).toMatch(/lock\.held|bench\.read-only|has P01-1/);
    await first.kill();
    await second.kill();
    expect(written(folder, 'P01-1').map((event) => (event as { text?: string }).text)).toEqual([
      undefined,
      'mine',
    ]);
  });

  it('lose acknowledged events with the adapter that lowdb brings', async () => {
    const stock = () => new Talk(process.execPath, [join(import.meta.dirname, 'stock.mjs'), aside]);
    const both = [stock(), stock()];
    let told = 0;
    for (let i = 0; i < 10; i++)
      for (const talk of both) {
        talk.say({ i });
        if ((await talk.hear())?.ok) told += 1;
      }
    for (const talk of both) await talk.kill();
    expect((JSON.parse(readFileSync(join(aside, 'db.json'), 'utf8')) as unknown[]).length).toBeLessThan(told);
  });
});

describe('a clock', () => {
  it.each([
    ['back', -5 * HOUR],
    ['forward', 7 * HOUR],
  ])('set %s by hours is written down, and the journal keeps its order', (_, by) => {
    const time = { wall: Date.parse('2026-11-24T08:00:00Z'), steady: 0 };
    const ports = bench(time);
    ports.open('P01-1');
    expect(note(ports, 'before').kind).toBe('done');
    time.wall += 60_000 + by;
    time.steady += 60_000;
    expect(note(ports, 'after').kind).toBe('done');
    const events = written(folder, 'P01-1');
    expect(events.map(({ kind }) => kind)).toContain('clock-jumped');
    expect(events.map(({ n }) => n)).toEqual(events.map((_, i) => i + 1));
    expect(faults()).toEqual([]);
    // The same again after a restart: the order is by number, so nothing is lost or moved.
    ports.close();
    const again = bench(time);
    again.open('P01-1');
    expect(again.world().open!.state.events.length).toBe(events.length);
    expect(note(again, 'later').kind).toBe('done');
    expect(faults()).toEqual([]);
  });

  it('in another time zone writes the same UTC times', async () => {
    for (const zone of ['Pacific/Auckland', 'America/Los_Angeles', 'Asia/Kathmandu', 'UTC']) {
      const talk = new Talk(
        process.execPath,
        [MAIN, '--workshop', folder, 'feed', 'P01-1', '--person', 'jb'],
        { TZ: zone },
      );
      const from = new Date().toISOString();
      talk.say({ do: 'note', text: zone });
      expect((await talk.hear())?.ok).toBe(true);
      await talk.kill();
      const last = written(folder, 'P01-1').at(-1)!;
      expect(last.at >= from && last.at <= new Date().toISOString(), `${zone}: ${last.at}`).toBe(true);
    }
    expect(written(folder, 'P01-1').map(({ kind }) => kind)).not.toContain('clock-jumped');
  });
});

describe('the folder', () => {
  it('moved while nobody is there is the same workshop', () => {
    const ports = bench();
    ports.open('P01-1');
    note(ports, 'here');
    ports.close();
    const there = join(aside, 'elsewhere');
    renameSync(folder, there);
    leave.push(() => rmSync(there, { recursive: true, force: true }));
    folder = there;
    const again = bench();
    again.open('P01-1');
    expect(note(again, 'there').kind).toBe('done');
    expect(written(folder, 'P01-1').length).toBe(3);
    expect(faults()).toEqual([]);
  });

  it('moved away from under a bench refuses answers until it is back, and loses none', () => {
    const ports = bench();
    ports.open('P01-1');
    note(ports, 'one');
    const there = join(aside, 'gone');
    renameSync(folder, there);
    const failed = note(ports, 'two');
    expect(failed.kind).toMatch(/failed|refused/);
    if ('problem' in failed) expect(failed.problem.todo).not.toBe('');
    ports.world();
    ports.refresh();
    expect(existsSync(folder)).toBe(false);
    renameSync(there, folder);
    expect(note(ports, 'two').kind).toBe('done');
    expect(written(folder, 'P01-1').map((event) => (event as { text?: string }).text)).toEqual([
      undefined,
      'one',
      'two',
    ]);
    expect(faults()).toEqual([]);
  });
});

describe('files edited while the bench runs', () => {
  const edit = (file: string, change: (text: string) => string): void => {
    const text = readFileSync(join(folder, file), 'utf8');
    expect(change(text)).not.toBe(text);
    writeFileSync(join(folder, file), change(text));
  };

  it('leave a begun unit on what it was begun with; units not started take the new ones, and the board tells them apart', () => {
    const ports = bench();
    ports.open('P01-1');
    note(ports, 'begun');
    const before = ports.world().open!;
    const [first] = before.state.steps.values();
    edit('procedures/casement.yaml', (text) =>
      text.replace(/^version: .*$/m, 'version: "9.9"').replace(/^( +title: )(.*)$/m, '$1$2, anew'),
    );
    edit('shared/limits.yaml', (text) => text.replace('within: 0.3', 'within: 0.2'));
    edit('shared/jobs/pier-house.yaml', (text) => text.replace('width: 900', 'width: 901'));
    ports.refresh();
    // Under way: the same sizes, steps and limits as before.
    const now = ports.world().open!;
    expect(now.setOut.unit).toEqual(before.setOut.unit);
    expect([...now.state.steps.values()][0]!.step).toEqual(first!.step);
    expect(note(ports, 'goes on').kind).toBe('done');
    ports.refresh();
    const row = (unit: string) => ports.world().board.find((each) => each.unit === unit)!;
    expect(row('P01-1').differs).toEqual(expect.arrayContaining(['job', 'procedure']));
    expect(row('P02-1').differs ?? []).toEqual([]);
    // Not started: the new ones.
    ports.open('P02-1');
    expect(note(ports, 'begun with the new').kind).toBe('done');
    expect(written(folder, 'P02-1')[0]).toMatchObject({ kind: 'opened', procedure: { version: '9.9' } });
    // And the first still opens as it was begun.
    ports.open('P01-1');
    expect(ports.world().open!.setOut.unit).toEqual(before.setOut.unit);
    expect(faults()).toEqual([]);
  });

  it('and broken: the bench keeps what it has, and says so', () => {
    const ports = bench();
    ports.open('P01-1');
    note(ports, 'begun');
    for (const file of [
      'procedures/casement.yaml',
      'shared/limits.yaml',
      'shared/jobs/pier-house.yaml',
      'shared/people.yaml',
    ])
      writeFileSync(join(folder, file), 'a: [');
    ports.refresh();
    expect(note(ports, 'goes on').kind).toBe('done');
    expect(ports.warnings().length).toBeGreaterThan(0);
    ports.open('P02-1');
    expect(ports.world().board.length).toBeGreaterThan(0);
    expect(faults()).toEqual([]);
    expect(written(folder, 'P01-1').length).toBe(3);
    expect(existsSync(join(folder, 'logs', JOB))).toBe(true);
  });
});
