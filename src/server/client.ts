/** One connection to the server. Every failure is a problem with its way out; a connection that failed is given up. */
import { setTimeout as pause } from 'node:timers/promises';
import type { Client, ClientConfig, CustomTypesConfig, QueryConfig } from 'pg';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { shopProblem } from './messages.js';
import type { Settings, Tls } from './settings.js';

/** Nothing that is asked takes longer on a server that is well, ms. */
const PATIENCE_MS = 15_000;
const CONNECT_MS = 5_000;
/** PostgreSQL 13, as the server numbers its versions. */
const OLDEST = 130_000;
/** How often a statement is tried that the server asks to have repeated. */
const TRIES = 5;
/** Channel on which a server that can says that there is something new. */
const CHANNEL = 'pinchrod';

/** Thrown when the server refuses or is gone. `state` is its SQLSTATE, "" if it said nothing. */
export class ServerError extends Error {
  constructor(
    readonly problem: Problem,
    readonly state: string,
    readonly constraint = '',
  ) {
    super(problem.text);
    this.name = 'ServerError';
  }

  /** A row of this key is there already. */
  get isTaken(): boolean {
    return this.state === '23505';
  }

  /** The row that this one follows is not there. */
  get hasNoRoot(): boolean {
    return this.state === '23503';
  }
}

export class ServerClient {
  #over: Problem | undefined;
  #hints = true;
  #last: Promise<unknown> = Promise.resolve();

  private constructor(private readonly pg: Client) {
    pg.on('error', (error) => this.#giveUp(problemOf(error)));
    pg.on('end', () => this.#giveUp(shopProblem('shop.unreachable/server')));
  }

  /** Connects, and sees to it that whatever is acknowledged is on the server's disk. */
  static async open(settings: Settings): Promise<Result<ServerClient>> {
    const driver = await loadDriver();
    let client: ServerClient | undefined;
    try {
      const pg = new driver.Client({ ...configOf(settings), types: typesOf(driver) });
      client = new ServerClient(pg);
      await pg.connect();
      const [version] = await client.query<{ number: string; text: string }>(
        `select current_setting('server_version_num') as number, current_setting('server_version') as text`,
      );
      const tooOld = ageProblem(Number(version?.number), String(version?.text));
      if (tooOld) {
        client.close();
        return err(tooOld);
      }
      await client.query('set synchronous_commit = on');
      await client.query("set client_min_messages = 'warning'");
      return ok(client);
    } catch (error) {
      client?.close();
      return err(error instanceof ServerError ? error.problem : problemOf(error, settings));
    }
  }

  /** Why the connection is of no more use. */
  get over(): Problem | undefined {
    return this.#over;
  }

  /**
   * One statement, which stands or falls as a whole. Throws ServerError.
   * @param utf8 bytes that are text come as such, not as digits of twice the length; others would be spoilt
   */
  async query<Row extends object>(
    text: string,
    values: readonly unknown[] = [],
    { utf8 = false } = {},
  ): Promise<Row[]> {
    return this.#inTurn(() => this.#ask<Row>(text, values, utf8));
  }

  /** The driver takes one statement at a time, and what stands or falls together is not mixed with others. */
  #inTurn<T>(run: () => Promise<T>): Promise<T> {
    const turn = this.#last.then(run);
    this.#last = turn.catch(() => undefined);
    return turn;
  }

  async #ask<Row extends object>(text: string, values: readonly unknown[], binary: boolean): Promise<Row[]> {
    for (let tries = 1; ; tries++) {
      if (this.#over) throw new ServerError(this.#over, '');
      try {
        const { rows } = await this.pg.query<Row>({
          text,
          values: values as unknown[],
          binary,
        } as QueryConfig);
        return rows;
      } catch (error) {
        const failed = asServerError(error);
        if (failed.state === '') this.#giveUp(failed.problem);
        if (!REPEATED.has(failed.state) || tries >= TRIES) throw failed;
        await pause(20 * tries);
      }
    }
  }

  /** Several statements that stand or fall together. Throws ServerError. */
  async together(statements: readonly { readonly text: string; readonly values?: readonly unknown[] }[]) {
    await this.#inTurn(async () => {
      await this.#ask('begin', [], false);
      try {
        for (const { text, values } of statements) await this.#ask(text, values ?? [], false);
        await this.#ask('commit', [], false);
      } catch (error) {
        if (!this.#over) await this.#ask('rollback', [], false).catch(() => undefined);
        throw error;
      }
    });
  }

  /** Calls back when another bench says that there is something new. A server that cannot is polled alone. */
  async listen(heard: () => void): Promise<void> {
    this.pg.on('notification', heard);
    await this.#hint(`listen ${CHANNEL}`);
  }

  async announce(): Promise<void> {
    await this.#hint(`notify ${CHANNEL}`);
  }

  close(): void {
    this.#giveUp(shopProblem('shop.unreachable/connection'));
  }

  async #hint(text: string): Promise<void> {
    if (!this.#hints) return;
    try {
      await this.query(text);
    } catch {
      this.#hints = false;
    }
  }

  /** `end` waits for a server that may never answer, so the socket is closed too. */
  #giveUp(problem: Problem): void {
    if (this.#over) return;
    this.#over = problem;
    this.pg.end().catch(() => undefined);
    const { stream } =
      (this.pg as unknown as { connection?: { stream?: { destroy?: () => void } } }).connection ?? {};
    setTimeout(() => stream?.destroy?.(), 200).unref();
  }
}

/** @param number as the server numbers its versions: 150018 */
export const ageProblem = (number: number, text: string): Problem | undefined =>
  number >= OLDEST ? undefined : shopProblem('shop.too-old', { text });

/** Conflicts that the server itself asks to have tried again. */
const REPEATED = new Set(['40001', '40P01']);

async function loadDriver(): Promise<typeof import('pg')> {
  const loaded = (await import('pg')) as typeof import('pg') & { readonly default?: typeof import('pg') };
  return loaded.default ?? loaded;
}

const BYTES = 17;

/** The driver reads what comes in binary form as UTF-8. Journals are that: one that is not does not fit its hash then. */
const typesOf = ({ types }: typeof import('pg')): CustomTypesConfig => ({
  getTypeParser: (type: number, format?: 'text' | 'binary') =>
    format === 'binary' && type === BYTES
      ? (bytes: unknown) => Buffer.from(bytes as Buffer)
      : types.getTypeParser(type, format as 'text'),
});

function configOf({ host, port, database, user, password, tls }: Settings): ClientConfig {
  return {
    host,
    port,
    database,
    user,
    ...(password === undefined ? {} : { password }),
    ssl: tls ? tlsOf(tls) : false,
    application_name: 'pinchrod',
    connectionTimeoutMillis: CONNECT_MS,
    query_timeout: PATIENCE_MS,
    keepAlive: true,
    keepAliveInitialDelayMillis: 5_000,
  };
}

function tlsOf({ checks, authorities, certificate, key }: Tls): NonNullable<ClientConfig['ssl']> {
  return {
    rejectUnauthorized: checks !== 'nothing',
    ...(checks === 'authority' ? { checkServerIdentity: () => undefined } : {}),
    ...(authorities === undefined ? {} : { ca: authorities }),
    ...(certificate === undefined ? {} : { cert: certificate }),
    ...(key === undefined ? {} : { key }),
  };
}

interface Raised {
  readonly code?: unknown;
  readonly message?: unknown;
  readonly constraint?: unknown;
}

function asServerError(error: unknown): ServerError {
  const { code, constraint } = error as Raised;
  const state = typeof code === 'string' && /^[0-9A-Z]{5}$/.test(code) && !/^E[A-Z]+$/.test(code) ? code : '';
  // A server that shuts down, or that is no more the one that writes, is as good as gone.
  const gone = /^(57P|08|25006)/.test(state);
  return new ServerError(problemOf(error), gone ? '' : state, String(constraint ?? ''));
}

/** By SQLSTATE, by the code of the runtime, or by what the driver says. */
const BY_CODE = [
  [/^28/, 'shop.login/fault'],
  [/^3D000$/, 'shop.no-database'],
  [/^(42P01|3F000)$/, 'shop.no-shop/fault'],
  [/^42501$/, 'shop.no-right'],
  [/^(57P|08|53300|25006)/, 'shop.unreachable/fault'],
  [/^53100$/, 'shop.server-full'],
  [/CERT|SELF_SIGNED|ISSUER|LEAF_SIGNATURE|ALTNAME/, 'shop.certificate'],
  [/^ERR_SSL|^EPROTO$/, 'shop.certificate'],
  [/^E[A-Z]+$/, 'shop.unreachable/fault'],
] as const;

/** @param settings where nothing answered yet */
function problemOf(error: unknown, settings?: Settings): Problem {
  const { code, message } = error as Raised;
  if (settings && /^E[A-Z]+$/.test(String(code)) && code !== 'EPROTO')
    return shopProblem('shop.unreachable/nothing', {
      host: settings.host,
      port: settings.port,
      code: String(code),
    });
  const said = String(message ?? error);
  // The driver's own words, which are English.
  const fault = `${said.replace(/\.$/, '').replace(/^./, (letter) => letter.toUpperCase())}.`;
  if (/does not support SSL/.test(said)) return shopProblem('shop.certificate', { fault });
  if (/password must be a string|SASL|no password supplied/i.test(said)) return shopProblem('shop.login');
  const known = BY_CODE.find(([pattern]) => pattern.test(String(code ?? '')));
  if (known) return shopProblem(known[1], { fault });
  // The driver's own: a timeout, or a connection that ended.
  return shopProblem(code === undefined ? 'shop.unreachable/fault' : 'shop.refused/fault', { fault });
}
