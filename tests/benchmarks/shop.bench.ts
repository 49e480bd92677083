/**
 * A shop of several benches on a server of its own, on this machine: what an answer costs beside a bench by itself, how soon
 * it is handed over, thirty benches at once, joining a large shop, and its board.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { Cluster, serverPrograms } from '../../scripts/cluster.js';
import { ok } from '../../src/base/problem.js';
import { Agent } from '../../src/server/agent.js';
import { makeShop } from '../../src/server/gate.js';
import { joinShop, onServer } from '../../src/server/join.js';
import type { Settings } from '../../src/server/settings.js';
import { SharedShop } from '../../src/session/sharedshop.js';
import { realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { Journal } from '../../src/store/journal.js';
import { canonicalText, chainEvent, sha256 } from '../../src/unit/chain.js';
import { fillIndex, makeMany } from './manyunits.js';
import { atMost, median, quantile, type Row, type Setting } from './rows.js';

export const title = 'A shop of several benches';

const SECONDS = Number(process.env.SHOP_SECONDS ?? 60);
const UNITS = Number(process.env.SHOP_UNITS ?? 5_000);
/** Lines of a unit of the demonstration, and their bytes. */
const LINES = 300;
const BENCHES = 30;
const BOARD_UNITS = Number(process.env.SHOP_BOARD ?? 20_000);

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  if (serverPrograms() === undefined) return [{ what: 'no PostgreSQL server is installed', figure: '' }];
  const cluster = await Cluster.make();
  try {
    return [
      ...(await answers(cluster, root, scratch)),
      ...(await thirty(cluster, scratch)),
      ...(await joining(cluster, root, scratch)),
      ...(await board(cluster, root, scratch)),
    ];
  } finally {
    cluster.remove();
  }
}

async function shopIn(cluster: Cluster, name: string): Promise<Settings> {
  cluster.sql(`create database ${name}`);
  const settings = cluster.settings({ database: name });
  const made = await onServer(settings, (client) => makeShop(client, name, 'bench'));
  if (!made.ok) throw new Error(made.problems[0]!.text);
  return settings;
}

async function joined(folder: string, bench: string, settings: Settings) {
  const card = await joinShop(
    { disk: realDisk, root: folder, settings, clock: Date.now },
    { bench, by: 'ot' },
  );
  if (!card.ok) throw new Error(card.problems[0]!.text);
  return card.value;
}

const agentOf = (folder: string, card: Parameters<typeof joinedAgent>[1], settings: Settings) =>
  joinedAgent(folder, card, settings);

function joinedAgent(root: string, card: Awaited<ReturnType<typeof joined>>, settings: Settings): Agent {
  const agent = new Agent({
    disk: realDisk,
    root,
    card,
    settings: () => ok(settings),
    clock: Date.now,
    isInUse: () => true,
    ahead: () => ({ units: [], most: 0 }),
  });
  agent.start();
  return agent;
}

/** Notes on a unit, in turn at a bench by itself and at one that is connected. */
async function answers(cluster: Cluster, root: string, scratch: string): Promise<Row[]> {
  const settings = await shopIn(cluster, 'answers');
  const folders = ['alone', 'shared'].map((name) => {
    const folder = join(scratch, `shop-${name}`);
    for (const part of ['procedures', 'shared'])
      cpSync(join(root, part), join(folder, part), { recursive: true });
    rmSync(join(folder, 'shared/setups.yaml'), { force: true });
    mkdirSync(join(folder, 'logs'));
    return folder;
  });
  const card = await joined(folders[1]!, 'bench-1', settings);
  const ports = folders.map((workshop) => {
    const made = realPorts({ workshop });
    if (!made.ok) throw new Error(made.problems[0]!.text);
    return made.value;
  });
  const agent = agentOf(folders[1]!, card, settings);
  await agent.firstAnswer();
  await agent.lease('pier-house', 'P02-1');
  ports[1]!.share(
    new SharedShop(
      agent,
      card,
      () => true,
      () => true,
      () => performance.now(),
    ),
  );
  for (const each of ports) if (each.open('P02-1', 'jb').kind !== 'open') throw new Error('not open');
  const times: [number[], number[]] = [[], []];
  const handed: number[] = [];
  for (let i = 0; i < 400; i++) {
    for (const which of i % 2 === 0 ? ([0, 1] as const) : ([1, 0] as const)) {
      const from = performance.now();
      const acted = ports[which]!.act({ do: 'note', text: `note ${i}` }, { person: 'jb' });
      const took = performance.now() - from;
      if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
      if (i >= 50) times[which].push(took);
      if (which === 1) {
        while (agent.waiting() > 0) await pause(1);
        if (i >= 50) handed.push(performance.now() - from);
      } else await pause(4);
    }
  }
  for (const each of ports) each.close();
  await agent.stop();
  return [
    { what: 'answer to durable, a bench by itself, p50', figure: `${median(times[0]).toFixed(2)} ms` },
    atMost(
      'the same at a bench of a shop, beside it',
      median(times[1]) / median(times[0]),
      1.1,
      'x',
      ` (${median(times[1]).toFixed(2)} ms)`,
    ),
    atMost(
      'answer to handed over, p50',
      median(handed),
      100,
      'ms',
      ` (p99 ${quantile(handed, 0.99).toFixed(0)} ms)`,
    ),
  ];
}

/** Thirty benches in this process, each ten answers a second; all of them hold the whole shop. */
async function thirty(cluster: Cluster, scratch: string): Promise<Row[]> {
  const settings = await shopIn(cluster, 'thirty');
  const benches = [];
  for (let i = 0; i < BENCHES; i++) {
    const root = mkdtempSync(join(scratch, `bench-${i}-`));
    mkdirSync(join(root, 'logs'));
    const card = await joined(root, `bench-${i}`, settings);
    benches.push({ root, agent: agentOf(root, card, settings), i });
  }
  for (const { agent } of benches) await agent.firstAnswer(30_000);
  const journals = benches.map(({ root, i }) => {
    const made = Journal.open(realDisk, root, 'job', `U-${i}`);
    if (!made.ok) throw new Error(made.problems[0]!.text);
    return made.value;
  });
  const depth: number[] = [];
  let given = 0;
  const end = performance.now() + SECONDS * 1000;
  const writing = benches.map(async ({ agent, i }) => {
    await pause((i * 100) / BENCHES);
    for (let next = performance.now(), n = 0; performance.now() < end; n++) {
      const stamp = { by: 'jb', at: new Date().toISOString(), bench: `bench-${i}` };
      const bodies = [
        ...(n === 0 ? [opening(`U-${i}`)] : []),
        { kind: 'noted' as const, text: `answer ${n} ${'x'.repeat(300)}` },
      ];
      journals[i]!.append(bodies, stamp);
      given += 1;
      agent.wrote(`logs/job/U-${i}.jsonl`, bodies.length);
      next += 100;
      await pause(Math.max(0, next - performance.now()));
    }
  });
  const looking = (async () => {
    while (performance.now() < end) {
      await pause(1_000);
      depth.push(benches.reduce((sum, { agent }) => sum + agent.waiting(), 0));
    }
  })();
  await Promise.all([...writing, looking]);
  const rate = given / SECONDS;
  const third = Math.floor(depth.length / 3);
  const [early, late] = [median(depth.slice(third, 2 * third)), median(depth.slice(2 * third))];
  for (const { agent } of benches) await agent.stop();
  for (const each of journals) each.close();
  return [
    { what: `${BENCHES} benches in one process, answers a second`, figure: rate.toFixed(0) },
    {
      what: 'lines that wait at all of them, second and last third of the time, p50',
      figure: `${early} and ${late}`,
      bar: 'no growth',
      holds: late <= early + rate,
    },
  ];
}

const opening = (unit: string) => ({
  kind: 'opened' as const,
  job: 'job',
  unit,
  sources: {},
  procedure: { name: 'bench', version: '1' },
  profileSet: 'bench',
  program: 'bench',
});

/** A shop of many whole units, joined by an empty folder; then its board. */
async function joining(cluster: Cluster, root: string, scratch: string): Promise<Row[]> {
  const settings = await shopIn(cluster, 'many');
  const first = join(scratch, 'many-1');
  for (const part of ['procedures', 'shared'])
    cpSync(join(root, part), join(first, part), { recursive: true });
  for (let n = 0; n < UNITS; n++) writeUnit(first, `job-${n % 20}`, `U${Math.floor(n / 20)}-1`);
  await joined(first, 'bench-1', settings);
  const second = mkdtempSync(join(tmpdir(), 'pinchrod-many-'));
  const from = performance.now();
  await joined(second, 'bench-2', settings);
  const took = (performance.now() - from) / 1000;
  const env = {
    ...process.env,
    PGHOST: '127.0.0.1',
    PGPORT: String(settings.port),
    PGDATABASE: 'many',
    PGUSER: 'owner',
  };
  const status = spawnSync(
    process.execPath,
    [join(root, 'dist/main.js'), '--workshop', second, 'shop', 'status'],
    { env },
  );
  rmSync(second, { recursive: true, force: true });
  return [
    atMost(`joining a shop of ${UNITS.toLocaleString('en')} units of ${LINES} lines`, took, 60, 's'),
    { what: 'the same folder, shop status ends with', figure: String(status.status) },
  ];
}

/** The board of many units at one bench, after another has written on some of them. */
async function board(cluster: Cluster, root: string, scratch: string): Promise<Row[]> {
  const settings = await shopIn(cluster, 'board');
  const folder = join(scratch, 'board-of-shop');
  makeMany(root, folder, BOARD_UNITS);
  const card = await joined(folder, 'bench-1', settings);
  fillIndex(folder);
  const other = mkdtempSync(join(tmpdir(), 'pinchrod-other-'));
  const otherCard = await joined(other, 'bench-2', settings);
  const agent = agentOf(other, otherCard, settings);
  await agent.firstAnswer(60_000);
  const env = {
    ...process.env,
    PGHOST: '127.0.0.1',
    PGPORT: String(settings.port),
    PGDATABASE: 'board',
    PGUSER: 'owner',
    PINCHROD_BENCH: card.bench,
  };
  const timed = (): number => {
    const from = performance.now();
    const done = spawnSync(process.execPath, [join(root, 'dist/main.js'), 'board'], {
      cwd: folder,
      env,
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    if (done.status !== 0 || String(done.stderr) !== '') throw new Error(String(done.stderr));
    return performance.now() - from;
  };
  timed();
  const times: number[] = [];
  for (let round = 0; round < 7; round++) {
    for (let n = 0; n < 5; n++) {
      const [job, unit] = ['job-0', `W${round}-${n + 1}`];
      const made = Journal.open(realDisk, other, job, unit);
      if (!made.ok) throw new Error(made.problems[0]!.text);
      const stamp = { by: 'jb', at: new Date().toISOString(), bench: 'bench-2' };
      made.value.append([{ kind: 'noted', text: 'on' }], stamp);
      made.value.close();
      agent.wrote(`logs/${job}/${unit}.jsonl`, 1);
    }
    await agent.settle(30_000);
    times.push(timed());
  }
  await agent.stop();
  timed();
  rmSync(other, { recursive: true, force: true });
  const still = Array.from({ length: 7 }, timed);
  const what = `board of ${BOARD_UNITS.toLocaleString('en')} units, of which 5 were written elsewhere since`;
  const same = `board of ${BOARD_UNITS.toLocaleString('en')} units, nothing written since`;
  return [atMost(same, median(still), 1000, 'ms'), atMost(what, median(times), 1000, 'ms')];
}

/** Lines as long as the demonstration's. */
function writeUnit(folder: string, job: string, unit: string): void {
  const stamp = { at: '2026-03-02T07:00:00.000Z', by: 'jb', bench: 'bench-1' };
  let last = chainEvent({ ...opening(unit), job }, stamp);
  const lines = [canonicalText(last)];
  for (let n = 1; n < LINES; n++) {
    const next = chainEvent(
      { kind: 'noted' as const, text: `${sha256(`${unit} ${n}`)} ${'x'.repeat(120)}` },
      stamp,
      last,
    );
    lines.push(canonicalText(next));
    last = next as never;
  }
  mkdirSync(join(folder, 'logs', job), { recursive: true });
  writeFileSync(join(folder, 'logs', job, `${unit}.jsonl`), `${lines.join('\n')}\n`);
}
