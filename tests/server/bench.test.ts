/** Two benches of a shop as their screens see it: who may write a unit, what is told, and what waits for the line. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Cluster, serverPrograms } from '../../scripts/cluster.js';
import { run as record } from '../../src/commands/record.js';
import { catchUp } from '../../src/server/catchup.js';
import { heldEdition, publish } from '../../src/server/editions.js';
import { joinShop, onServer } from '../../src/server/join.js';
import { newsNow, Teller } from '../../src/server/news.js';
import type { Settings } from '../../src/server/settings.js';
import { connectToShop, type ShopLine } from '../../src/session/shopline.js';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { type Card, readCard } from '../../src/store/card.js';
import { realDisk } from '../../src/store/disk.js';
import { Journal } from '../../src/store/journal.js';
import { verifyTree } from '../../src/store/verify.js';
import { makeCore } from '../../src/tui/loop.js';
import { headerLines } from '../../src/tui/parts/bars.js';
import { themeFrom } from '../../src/tui/theme.js';
import type { Action } from '../../src/unit/actions.js';
import { nextMove } from '../../src/unit/autopilot.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { readingsGiven } from '../../src/unit/trace.js';
import { newPicture } from '../picture.js';
import { makeTestShop, until } from './folders.js';

const ROOT = join(import.meta.dirname, '../..');
const THEME = themeFrom({}, 'linux');
/** PINs of the demonstration's invented people. */
const PINS = { ot: '2705', mv: '4168' };
const SETTINGS = ['PGHOST', 'PGPORT', 'PGDATABASE', 'PGUSER', 'PGSERVICE'] as const;

class Place {
  ports!: RealPorts;
  line: ShopLine | undefined;
  readonly opened: string[] = [];

  constructor(
    readonly root: string,
    readonly name: string,
  ) {}

  async connect(clock: () => number = Date.now): Promise<void> {
    const made = realPorts({ workshop: this.root, clock, steady: () => performance.now() });
    if (!made.ok) throw new Error(made.problems[0]!.text);
    this.ports = made.value;
    this.line = await connectToShop(this.ports);
    await this.line!.ready();
    this.ports.told((unit) => {
      if (unit === undefined) return;
      this.opened.push(unit);
      this.ports.open(unit, 'jb');
    });
  }

  /** Opens a unit, when the shop has answered where it is asked. */
  async open(unit: string): Promise<void> {
    this.opened.length = 0;
    if (this.ports.open(unit, 'jb').kind === 'asked')
      await until(`the answer about ${unit}`, () => this.opened.length > 0);
  }

  note(text: string) {
    return this.ports.act({ do: 'note', text }, { person: 'jb' });
  }

  texts(): readonly string[] {
    return this.ports
      .world()
      .open!.state.events.flatMap((event) => (event.kind === 'noted' ? event.text : []));
  }

  async leave(): Promise<void> {
    this.ports.close();
    await this.line?.stop();
  }
}

/** Checks of which the instrument measured something, each once. */
const givenWith = (events: readonly JournalEvent[], instrument: string): readonly string[] => [
  ...new Set(
    events.flatMap((event) =>
      (event.kind === 'answered' || event.kind === 'read') &&
      readingsGiven(event).some((each) => each.instrument === instrument)
        ? [event.check]
        : [],
    ),
  ),
];

interface Move {
  readonly action: Action;
  readonly hand: { readonly person: string | undefined; readonly inHand: string | undefined };
}

/** Works on the unit that is open, with passing answers. Yields each action that is given, before it is. */
function* work({ ports, root }: Place): Generator<Move> {
  let person: string | undefined;
  let inHand: string | undefined;
  for (let moves = 0; moves < 2_000; moves++) {
    const { now, bench, rules, instruments, open } = ports.world();
    const context = { now, bench, person, inHand, workshop: rules, instruments };
    const move = nextMove(open!.state, context, { pins: PINS, evidence: 'photo.jpg', cites: () => false });
    if (move.kind !== 'act') throw new Error(JSON.stringify(move));
    const { action } = move;
    if (action.do === 'person') person = action.person;
    else if (action.do === 'instrument') inHand = action.instrument;
    else {
      yield { action, hand: { person, inHand } };
      if ('evidence' in action && action.evidence) newPicture(join(root, 'photo.jpg'));
      const acted = ports.act(action, { person, inHand });
      if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
    }
  }
  throw new Error('too long');
}

/** The instrument of the first answer that takes one, before that is given; then again after each that is given with it. */
function* untilMeasured(place: Place): Generator<string> {
  let first: string | undefined;
  let from = 0;
  for (const { hand } of work(place)) {
    const { events } = place.ports.world().open!.state;
    if (first !== undefined && givenWith(events.slice(from), first).length > 0) yield first;
    from = events.length;
    if (first === undefined && hand.inHand !== undefined) {
      first = hand.inHand;
      yield first;
    }
  }
}

/** The first check that takes several readings at once, before it is answered. */
function upToSet(place: Place) {
  for (const { action, hand } of work(place))
    if (action.do === 'answer' && typeof action.value !== 'string')
      return { check: action.check, values: action.value, hand };
  throw new Error('no set is asked');
}

function cardOf(root: string): Card {
  const card = readCard(realDisk, root);
  if (!card.ok) throw new Error(card.problems[0]!.text);
  return card.value!;
}

/** Publishes the workshop's files of a folder, without the instrument if one is named. */
async function publishFrom(root: string, settings: Settings, instrument?: string): Promise<void> {
  const file = join(root, 'shared/instruments.yaml');
  const lines = readFileSync(join(ROOT, 'shared/instruments.yaml'), 'utf8').split('\n');
  const kept = lines.filter((line) => instrument === undefined || !line.includes(`{id: ${instrument},`));
  writeFileSync(file, kept.join('\n'));
  const { folder } = cardOf(root);
  const done = await onServer(settings, async (client) => {
    const teller = new Teller(client, folder, (await newsNow(client)).get(folder) ?? 0);
    return publish(client, teller, realDisk, root, { by: 'ot', reason: 'instruments' });
  });
  if (!done.ok) throw new Error(done.problems[0]!.text);
}

describe.skipIf(serverPrograms() === undefined)('benches of a shop', () => {
  let cluster: Cluster;
  let folder: string;
  let a: Place;
  let b: Place;
  const before = SETTINGS.map((name) => process.env[name]);

  beforeAll(async () => {
    cluster = await Cluster.make();
    folder = mkdtempSync(join(tmpdir(), 'pinchrod-benches-'));
    Object.assign(process.env, {
      PGHOST: '127.0.0.1',
      PGPORT: String(cluster.port),
      PGDATABASE: 'postgres',
      PGUSER: 'owner',
    });
    const settings = cluster.settings();
    await makeTestShop(settings);
    const places = ['bench-1', 'bench-2'].map((name) => new Place(join(folder, name), name));
    [a, b] = places as [Place, Place];
    for (const { root, name } of places) {
      for (const part of ['procedures', 'shared'])
        cpSync(join(ROOT, part), join(root, part), { recursive: true });
      rmSync(join(root, 'shared/setups.yaml'));
      mkdirSync(join(root, 'logs'));
      const joined = await joinShop(
        { disk: realDisk, root, settings, clock: Date.now },
        { bench: name, by: 'ot' },
      );
      if (!joined.ok) throw new Error(joined.problems[0]!.text);
    }
    for (const place of places) await place.connect();
  });
  afterAll(async () => {
    await a?.leave();
    await b?.leave();
    SETTINGS.forEach((name, i) => {
      if (before[i] === undefined) delete process.env[name];
      else process.env[name] = before[i];
    });
    rmSync(folder, { recursive: true, force: true });
    cluster?.remove();
  });

  it('a unit that one has open may be looked at, and goes to the other from a list', async () => {
    await a.open('P02-1');
    expect(a.note('one').kind).toBe('done');
    await b.open('P02-1');
    expect(b.ports.world().open).toMatchObject({ readOnly: 'bench-1 has P02-1.' });
    expect(b.note('no')).toMatchObject({ kind: 'refused', problem: { id: 'shop.leased' } });
    await until('the other sees it', () => b.texts().length === 1);
    a.ports.refresh();
    const isOurs = () => b.ports.world().open?.readOnly === undefined;
    const asks = () => {
      if (!isOurs()) b.ports.open('P02-1', 'jb');
      return isOurs();
    };
    await until('the unit', asks, 60_000);
    expect(b.texts()).toEqual(['one']);
    expect(b.note('two').kind).toBe('done');
    expect(a.note('late')).toMatchObject({ kind: 'refused', problem: { id: 'shop.leased' } });
  });

  it('a unit that one may only look at is theirs to write as soon as the other leaves it', async () => {
    const core = makeCore(b.ports);
    b.ports.told((unit) => (unit === undefined ? core.news() : core.open(unit)));
    await a.open('P08-1');
    expect(a.note('here').kind).toBe('done');
    core.open('P08-1');
    await until('the look', () => core.world().open?.readOnly !== undefined);
    const row = () => core.world().board.find(({ unit }) => unit === 'P08-1');
    await until('where it is', () => row()?.at === 'bench-1');
    // Left with Esc or F2 alike: its list is on the screen.
    a.ports.refresh();
    await until('that it may be written', () => core.world().open!.readOnly === undefined);
    expect(core.state().note?.text).toBe('P08-1 is yours to write now.');
    expect(b.note('there').kind).toBe('done');
    expect(b.texts()).toEqual(['here', 'there']);
    expect(a.ports.world().open?.readOnly).toBeDefined();
    b.ports.told((unit) => {
      if (unit === undefined) return;
      b.opened.push(unit);
      b.ports.open(unit, 'jb');
    });
    await b.open('P02-1');
    // The lease may come after the unit is shown.
    const ours = () => {
      const { open } = b.ports.world();
      if (open?.id === 'P02-1' && open.readOnly === undefined) return true;
      b.ports.open('P02-1', 'jb');
      return false;
    };
    await until('the unit', ours, 60_000);
  });

  it('a unit that is taken over while somebody writes it: theirs becomes a branch, and a snag says so', async () => {
    await b.line!.stop();
    expect(b.note('alone').kind).toBe('done');
    expect(b.ports.world().shop).toMatchObject({
      waiting: expect.any(Number),
      down: { id: 'shop.unreachable' },
    });
    const how = {
      by: 'ot',
      reason: 'out',
      body: (from: string) => ({ kind: 'noted' as const, text: `from ${from}` }),
    };
    expect(await a.line!.shared.agent.takeOver('pier-house', 'P02-1', how)).toMatchObject({ ok: true });
    await a.open('P02-1');
    expect(a.note('on').kind).toBe('done');
    b.line = await connectToShop(b.ports);
    await until('that it is told', () => b.ports.world().open?.readOnly !== undefined);
    await until('and what became of it', () => b.ports.world().trouble?.id === 'shop.branched');
    await until('the branch here', () => a.ports.world().open!.state.snags.length > 0);
    expect(a.ports.world().open!.state.snags[0]!.raised).toMatchObject({
      branch: 'P02-1~1',
      by: 'nobody',
      text: expect.stringContaining('bench-2'),
    });
    expect(a.texts()).toEqual(['one', 'two', 'from bench-2', 'on']);
    await until(
      'the journal there',
      () => b.ports.world().open!.state.events.length === a.ports.world().open!.state.events.length,
    );
    for (const { root } of [a, b]) expect(verifyTree(realDisk, root).faults).toEqual([]);
    const out: string[] = [];
    const io = {
      out: (text: string) => out.push(text),
      err: (text: string) => out.push(text),
      workshop: a.root,
    };
    expect(await record(['pier-house/P02-1~1'], io), out.join('\n')).toBe(0);
    expect(out.join('\n')).toContain('alone');
  });

  it('what the server lacks of a unit is known, line by line', async () => {
    await a.open('P01-1');
    const lacks = () =>
      a.line!.shared.unseen('pier-house', 'P01-1', a.ports.world().open!.state.events.length);
    expect(a.note('one').kind).toBe('done');
    await until('all of it there', () => lacks() === undefined);
    await a.line!.stop();
    expect(a.note('two').kind).toBe('done');
    expect(lacks()).toEqual({ lines: 1, allowed: false });
    a.line = await connectToShop(a.ports);
    await until('all of it there again', () => lacks() === undefined);
  });

  it('a unit that both began without a line: the one that is open with the lease becomes a branch too', async () => {
    await a.open('P07-1');
    expect(a.note('with the lease').kind).toBe('done');
    expect(await a.line!.shared.agent.settle(10_000)).toBe(true);
    await a.line!.stop();
    expect(a.note('alone').kind).toBe('done');
    // As another bench that was faster with a line of its own.
    const root = join(folder, 'fast');
    const how = { bench: 'fast', by: 'ot' };
    const place = { disk: realDisk, root, settings: cluster.settings(), clock: Date.now };
    mkdirSync(root);
    expect(await joinShop(place, how)).toMatchObject({ ok: true });
    const journal = Journal.open(realDisk, root, 'pier-house', 'P07-1');
    if (!journal.ok) throw new Error(journal.problems[0]!.text);
    journal.value.append([{ kind: 'noted', text: 'faster' }], {
      by: 'ot',
      at: new Date().toISOString(),
      bench: 'fast',
    });
    journal.value.close();
    expect(await joinShop(place, how)).toMatchObject({ ok: true });
    a.line = await connectToShop(a.ports);
    await until('the other line', () => a.texts().includes('faster'));
    expect(a.texts()).toEqual(['with the lease', 'faster']);
    expect(a.ports.world().trouble).toMatchObject({ id: 'shop.branched' });
    await until('that nothing waits', () => a.line!.shared.agent.waiting() === 0);
  });

  it('what a bench writes behind another whose clock is ten minutes ahead says so', async () => {
    await a.leave();
    await a.connect(() => Date.now() + 600_000);
    await a.open('P04-1');
    expect(a.note('ahead').kind).toBe('done');
    expect(await a.line!.shared.agent.settle(10_000)).toBe(true);
    a.ports.refresh();
    await b.leave();
    await b.connect();
    await b.open('P04-1');
    expect(b.note('behind it').kind).toBe('done');
    const jump = b.ports.world().open!.state.events.find(({ kind }) => kind === 'clock-jumped');
    const { from, to } = jump as never as { from: string; to: string };
    expect(Math.abs(Date.parse(to) - Date.parse(from) + 600_000)).toBeLessThan(3_000);
    expect(b.ports.world().open!.state.events.filter(({ kind }) => kind === 'clock-jumped')).toHaveLength(1);
    await a.leave();
    await a.connect();
  });

  it.each(['while the bench is open', 'by a look at the shop before it is opened'])(
    'an instrument that was retired while the line was down is a snag on each check it answered, told %s',
    async (told) => {
      const unit = told.startsWith('while') ? 'P05-1' : 'P06-1';
      const settings = cluster.settings();
      await publishFrom(b.root, settings);
      const edition = (root: string) => heldEdition(realDisk, root).n;
      await until('the edition', () => edition(a.root) === edition(b.root));
      await a.open(unit);
      await a.line!.stop();
      const measuring = untilMeasured(a);
      const retired = measuring.next().value!;
      await publishFrom(b.root, settings, retired);
      for (let left = 3; left > 0; left--) measuring.next();
      const used = givenWith(a.ports.world().open!.state.events, retired);
      const snags = () =>
        a.ports
          .world()
          .open!.state.snags.filter(({ raised }) =>
            raised.text.startsWith(`Instrument ${retired} had been ended by ot (instruments) at`),
          );
      expect(snags()).toEqual([]);
      if (unit === 'P06-1') {
        a.ports.close();
        const place = { disk: realDisk, root: a.root, card: cardOf(a.root), settings };
        expect(await catchUp(place)).toMatchObject({ ok: true });
        expect(edition(a.root)).toBe(edition(b.root));
      }
      a.line = await connectToShop(a.ports);
      await a.line!.ready();
      if (unit === 'P06-1') await a.open(unit);
      await until('the snags', () => snags().length > 0);
      expect(used.length).toBeGreaterThan(0);
      expect(snags().map(({ raised: { check, cause, by } }) => ({ check, cause, by }))).toEqual(
        used.map((check) => ({ check, cause: 'instrument', by: 'nobody' })),
      );
      a.ports.refresh();
      expect(a.ports.world().instruments.map(({ id }) => id)).not.toContain(retired);
    },
  );

  it('a set that was begun with it, and is completed after, gets its snag at once', async () => {
    await publishFrom(b.root, cluster.settings());
    await until('the edition', () => heldEdition(realDisk, a.root).n === heldEdition(realDisk, b.root).n);
    a.ports.refresh();
    await a.open('P02-2');
    const { check, values, hand } = upToSet(a);
    const [first = '', ...others] = Object.keys(values);
    const read = (key: string, more: object) =>
      a.ports.act(
        { do: 'read', check, key, value: [values[key]!].flat()[0]!, ...more },
        { ...hand, inHand: undefined },
      );
    expect(read(first, { with: hand.inHand })).toMatchObject({ kind: 'done' });
    await publishFrom(b.root, cluster.settings(), hand.inHand);
    await until('that it is gone', () => a.ports.world().instruments.every(({ id }) => id !== hand.inHand));
    const other = a.ports.world().instruments.find(({ id }) => id === 'R2')!.id;
    const acted = others
      .map((key) =>
        read(key, { with: other, value: Math.round(Number(values[key])).toString(), confirmed: true }),
      )
      .at(-1)!;
    expect(acted, JSON.stringify([acted, values])).toMatchObject({ kind: 'done' });
    expect(acted.kind === 'done' && acted.events.at(-1)).toMatchObject({
      kind: 'snag-raised',
      by: 'nobody',
      check,
      cause: 'instrument',
      text: expect.stringContaining(`Instrument ${hand.inHand} had been ended by ot (instruments)`),
    });
  });

  it('the screen asks, opens when it is answered, and says when the line is down', async () => {
    const core = makeCore(b.ports);
    b.ports.told((unit) => (unit === undefined ? core.news() : core.open(unit)));
    core.open('P03-1');
    expect(core.state().note?.text).toContain('Asking the shop for P03-1');
    await until('the unit', () => core.world().open?.id === 'P03-1');
    expect(core.world().open!.readOnly).toBeUndefined();
    const header = () =>
      headerLines(core.state(), core.world(), 80, THEME)
        .map((line) => line.map(({ text }) => text).join(''))
        .join('\n');
    expect(header()).not.toContain('LINE DOWN');
    await b.line!.stop();
    core.news();
    expect(header()).toContain('LINE DOWN');
  });
});
