/** `npm run demo:shop`: a server of its own and two benches that share it, in a temporary folder, until Ctrl-C. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { Cluster, serverPrograms } from './cluster.js';

/** Of the demonstration's own people, and the PIN that its files tell everybody. */
const BY = 'ot';
const PIN = '2705\n';

/** @param program path of the built program. Returns the exit code. */
export async function demoShop(program: string): Promise<number> {
  if (serverPrograms() === undefined) {
    console.error(
      'No PostgreSQL server is installed here.\n  Debian: apt-get install postgresql; elsewhere set PINCHROD_PG_BIN to the folder with initdb.',
    );
    return 3;
  }
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-shop-'));
  chmodSync(folder, 0o755);
  const cluster = await Cluster.make();
  try {
    cluster.sql('create database shop');
    const services = join(folder, 'service.conf');
    writeFileSync(
      services,
      ['[shop]', 'host=127.0.0.1', `port=${cluster.port}`, 'dbname=shop', 'user=owner', ''].join('\n'),
    );
    const env = { ...process.env, PGSERVICEFILE: services };
    const run = (args: readonly string[]): boolean =>
      spawnSync(process.execPath, [program, ...args], {
        env,
        input: PIN,
        stdio: ['pipe', 'inherit', 'inherit'],
      }).status === 0;
    const [one, two] = [join(folder, 'bench-1'), join(folder, 'bench-2')];
    const made =
      run(['init', one, '--demonstration']) &&
      run(['--workshop', one, 'shop', 'init', '--by', BY, '--service', 'shop']) &&
      run(['--workshop', two, 'shop', 'join', '--bench', 'bench-2', '--by', BY, '--service', 'shop']);
    if (!made) return 3;
    console.log(
      [
        '',
        'In two other terminals, a bench each:',
        `  export PGSERVICEFILE=${services}`,
        `  node ${program} --workshop ${one}`,
        `  node ${program} --workshop ${two}`,
        '',
        'Try: open P02-1 at one bench and answer; the board of the other follows. Open P02-1 at the other: it says who has it.',
        'Leave it at the first (F2), and it is yours to write at the second.',
        'Sign as jb (Joan Bexley, no PIN), ot (PIN 2705) or mv (PIN 4168), who may release.',
        `  node ${program} --workshop ${one} shop status`,
        '',
        'Enter cuts the line: the server stops, and both benches work on. Enter again brings it back. Ctrl-C ends all.',
      ].join('\n'),
    );
    await untilInterrupted(cluster);
    return 0;
  } finally {
    cluster.remove();
  }
}

function untilInterrupted(cluster: Cluster): Promise<void> {
  let up = true;
  createInterface({ input: process.stdin }).on('line', () => {
    up = !up;
    void (up ? cluster.start() : cluster.kill()).then(() =>
      console.log(up ? 'The server runs again.' : 'The server is down.'),
    );
  });
  return new Promise((resolve) => {
    process.once('SIGINT', resolve);
    process.once('SIGTERM', resolve);
    setInterval(() => undefined, 60_000);
  });
}
