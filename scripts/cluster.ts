/** A PostgreSQL server of the test's own, in a temporary folder: nothing of it stays, and nothing else on the machine is used. */
import { execFile, execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir, userInfo } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import type { Settings } from '../src/server/settings.js';

/** Folder of the server's programs; undefined where there is none. */
export function serverPrograms(): string | undefined {
  const debian = '/usr/lib/postgresql';
  const found = [
    ...(process.env.PINCHROD_PG_BIN ? [process.env.PINCHROD_PG_BIN] : []),
    ...(existsSync(debian)
      ? readdirSync(debian)
          .sort((a, b) => Number(b) - Number(a))
          .map((version) => join(debian, version, 'bin'))
      : []),
  ];
  return found.find((folder) => existsSync(join(folder, 'initdb')));
}

const NO_SERVER = 'no PostgreSQL server is installed (Debian: apt-get install postgresql)';

/** initdb refuses root, so the server runs as nobody there. */
const AS: readonly string[] =
  userInfo().uid === 0 ? ['setpriv', '--reuid=nobody', '--regid=nogroup', '--clear-groups'] : [];
const NOBODY = 65_534;

export class Cluster {
  readonly folder: string;
  readonly #bin: string;

  private constructor(
    folder: string,
    bin: string,
    readonly port: number,
  ) {
    this.folder = folder;
    this.#bin = bin;
  }

  static async make(lines: readonly string[] = []): Promise<Cluster> {
    const bin = serverPrograms();
    if (bin === undefined) throw new Error(NO_SERVER);
    const cluster = new Cluster(ownFolder(), bin, await freePort());
    cluster.#run('initdb', [
      '-D',
      cluster.data,
      '-U',
      'owner',
      '--auth=trust',
      '-N',
      '--locale=C',
      '-E',
      'UTF8',
    ]);
    cluster.configure(['max_connections = 120', 'shared_buffers = 64MB', ...lines]);
    await cluster.start();
    return cluster;
  }

  /** A standby of this server, which follows it. */
  async standby(): Promise<Cluster> {
    const cluster = new Cluster(ownFolder(), this.#bin, await freePort());
    cluster.#run('pg_basebackup', [
      '-h',
      '127.0.0.1',
      '-p',
      String(this.port),
      '-U',
      'owner',
      '-D',
      cluster.data,
      '-R',
      '-X',
      'stream',
      '-c',
      'fast',
    ]);
    cluster.configure([]);
    await cluster.start();
    return cluster;
  }

  get data(): string {
    return join(this.folder, 'data');
  }

  /** As the owner; another database or user where named. */
  settings(over: Partial<Settings> = {}): Settings {
    return { host: '127.0.0.1', port: this.port, database: 'postgres', user: 'owner', ...over };
  }

  /** Settings behind those that are there. */
  configure(lines: readonly string[]): void {
    writeFileSync(
      join(this.data, 'postgresql.auto.conf'),
      ["listen_addresses = '127.0.0.1'", `unix_socket_directories = '${this.folder}'`, ...lines, ''].join(
        '\n',
      ),
      { flag: 'a' },
    );
  }

  /** A folder that the server may write. */
  give(folder: string): void {
    chmodSync(dirname(folder), 0o755);
    if (AS.length > 0) chownSync(folder, NOBODY, NOBODY);
  }

  /** Who may log in, before what is there: lines of pg_hba.conf. */
  admit(lines: readonly string[]): void {
    const file = join(this.data, 'pg_hba.conf');
    writeFileSync(file, `${lines.join('\n')}\n${readFileSync(file, 'utf8')}`);
  }

  async start(): Promise<void> {
    await this.#control(['-w', '-t', '60', '-l', join(this.folder, 'log'), '-o', `-p ${this.port}`, 'start']);
  }

  /** As a power cut leaves it: nothing is written any more. */
  async kill(): Promise<void> {
    await this.#control(['-w', '-m', 'immediate', 'stop']);
  }

  async promote(): Promise<void> {
    await this.#control(['-w', 'promote']);
  }

  sql(text: string, database = 'postgres'): string {
    return this.#run('psql', [
      '-h',
      '127.0.0.1',
      '-p',
      String(this.port),
      '-U',
      'owner',
      '-d',
      database,
      '-AtX',
      '-v',
      'ON_ERROR_STOP=1',
      '-c',
      text,
    ]).trim();
  }

  run(program: string, args: readonly string[]): string {
    return this.#run(program, args);
  }

  remove(): void {
    spawnSync(AS[0] ?? join(this.#bin, 'pg_ctl'), [
      ...AS.slice(1),
      ...(AS.length > 0 ? [join(this.#bin, 'pg_ctl')] : []),
      '-D',
      this.data,
      '-m',
      'immediate',
      'stop',
    ]);
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Not waited for by the rest of the program: benches go on meanwhile. */
  async #control(args: readonly string[]): Promise<void> {
    const [command, ...rest] = [...AS, join(this.#bin, 'pg_ctl'), '-D', this.data, ...args];
    await promisify(execFile)(command!, rest, { cwd: this.folder });
  }

  #run(program: string, args: readonly string[]): string {
    const [command, ...rest] = [...AS, join(this.#bin, program), ...args];
    return execFileSync(command!, rest, {
      encoding: 'utf8',
      cwd: this.folder,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  }
}

/** Which the account that the server runs as may write. */
function ownFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-pg-'));
  chmodSync(folder, 0o755);
  if (AS.length > 0) chownSync(folder, NOBODY, NOBODY);
  return folder;
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as { port: number };
  await new Promise<void>((done) => server.close(() => done()));
  return port;
}
