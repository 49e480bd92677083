/**
 * How the server is reached: the standard PG environment and a service file. As in PostgreSQL's own library a service
 * comes before the environment. The driver reads neither service files nor `sslmode`, so both are read here.
 */
import { isIP } from 'node:net';
import { err, ok, type Result } from '../base/problem.js';
import { shopProblem } from './messages.js';

export interface Settings {
  readonly host: string;
  readonly port: number;
  readonly database: string;
  readonly user: string;
  /** Absent: the driver looks it up in the password file. */
  readonly password?: string;
  /** Absent: no encryption. */
  readonly tls?: Tls;
}

export interface Tls {
  /** Whether the certificate must be signed by an authority, and be for this host. */
  readonly checks: 'nothing' | 'authority' | 'authority-and-host';
  /** PEM. */
  readonly authorities?: string;
  readonly certificate?: string;
  readonly key?: string;
}

/** What the settings are read from. `read` throws if the file is not there. */
export interface Sources {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly home: string;
  readonly user: string;
  readonly read: (path: string) => string;
}

/** Environment variables by the name that service files use. */
const FROM_ENV = {
  host: 'PGHOST',
  port: 'PGPORT',
  dbname: 'PGDATABASE',
  user: 'PGUSER',
  password: 'PGPASSWORD',
  sslmode: 'PGSSLMODE',
  sslrootcert: 'PGSSLROOTCERT',
  sslcert: 'PGSSLCERT',
  sslkey: 'PGSSLKEY',
} as const;
type Key = keyof typeof FROM_ENV;

/** @param service what PGSERVICE would name, where the folder's own card names one */
export function readSettings(sources: Sources, service = sources.env.PGSERVICE): Result<Settings> {
  const named: Result<Service> =
    service === undefined || service === '' ? ok({}) : readService(service, sources);
  if (!named.ok) return named;
  const get = (key: Key): string | undefined => {
    const value = named.value[key] ?? sources.env[FROM_ENV[key]];
    return value === '' ? undefined : value;
  };
  const host = get('host') ?? 'localhost';
  const port = Number(get('port') ?? 5432);
  if (!Number.isInteger(port) || port < 1 || port > 65_535)
    return err(shopProblem('shop.setting/port', { port: get('port')! }));
  const user = get('user') ?? sources.user;
  const tls = readTls(host, get, sources);
  if (!tls.ok) return tls;
  const password = get('password');
  return ok({
    host,
    port,
    user,
    database: get('dbname') ?? user,
    ...(password === undefined ? {} : { password }),
    ...(tls.value ? { tls: tls.value } : {}),
  });
}

type Service = Readonly<Partial<Record<Key, string>>>;

function readService(service: string, { env, home, read }: Sources): Result<Service> {
  const files = [
    env.PGSERVICEFILE ?? `${home}/.pg_service.conf`,
    ...(env.PGSYSCONFDIR === undefined ? [] : [`${env.PGSYSCONFDIR}/pg_service.conf`]),
  ];
  for (const file of files) {
    let text: string;
    try {
      text = read(file);
    } catch {
      continue;
    }
    const found = sectionOf(text, service);
    if (found) return ok(found);
  }
  return err(shopProblem('shop.service', { service, files: files.join(', ') }));
}

function sectionOf(text: string, service: string): Service | undefined {
  let found: Record<string, string> | undefined;
  let inIt = false;
  for (const raw of text.split(/\r?\n/)) {
    const line = raw.trim();
    if (line === '' || line.startsWith('#')) continue;
    const section = /^\[(.*)\]$/.exec(line)?.[1];
    if (section !== undefined) {
      inIt = section === service;
      if (inIt) found ??= {};
      continue;
    }
    const at = line.indexOf('=');
    if (inIt && at > 0) found![line.slice(0, at).trim()] ??= line.slice(at + 1).trim();
  }
  return found;
}

/** On this machine itself nothing is encrypted unless asked for; elsewhere everything is checked unless told otherwise. */
function readTls(
  host: string,
  get: (key: Key) => string | undefined,
  { read }: Sources,
): Result<Tls | undefined> {
  const mode = get('sslmode') ?? (isLocal(host) ? 'disable' : 'verify-full');
  if (!Object.hasOwn(CHECKS, mode)) return err(shopProblem('shop.setting', { mode }));
  const checks = CHECKS[mode as keyof typeof CHECKS];
  if (checks === undefined) return ok(undefined);
  const files: Record<string, string> = {};
  for (const [key, as] of [
    ['sslrootcert', 'authorities'],
    ['sslcert', 'certificate'],
    ['sslkey', 'key'],
  ] as const) {
    const path = get(key);
    // "system": the authorities that come with the runtime, which are used anyway.
    if (path === undefined || path === 'system') continue;
    try {
      files[as] = read(path);
    } catch {
      return err(shopProblem('shop.setting/cannot', { path, key }));
    }
  }
  return ok({ checks, ...files });
}

/** `allow` and `prefer` would go on in the clear where a server offers no encryption; here they do not. */
const CHECKS = {
  disable: undefined,
  allow: 'nothing',
  prefer: 'nothing',
  require: 'nothing',
  'verify-ca': 'authority',
  'verify-full': 'authority-and-host',
} as const;

const isLocal = (host: string): boolean =>
  host.startsWith('/') ||
  host === 'localhost' ||
  (isIP(host) === 4 ? host.startsWith('127.') : host === '::1');
