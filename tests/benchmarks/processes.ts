/** Whole processes, timed from their start: to their end, or to a text on their terminal. */
import { spawnSync } from 'node:child_process';
import { spawn } from '@lydell/node-pty';

export interface Program {
  readonly node: string;
  readonly args: readonly string[];
  readonly cwd: string;
  /** The home directory, under which the compile cache is kept. */
  readonly home: string;
}

/** Where nothing of this machine's settings bears on the program. */
function plainEnvironment(home: string): Record<string, string> {
  const env: Record<string, string | undefined> = {
    ...process.env,
    HOME: home,
    TERM: 'xterm-256color',
    LANG: 'C.UTF-8',
  };
  for (const name of ['CI', 'NODE_EXTRA_CA_CERTS', 'NODE_OPTIONS', 'NODE_ENV', 'XDG_CACHE_HOME'])
    delete env[name];
  return env as Record<string, string>;
}

/** ms. Throws where it ends otherwise than with 0, or with 1 where `mayFind` says that nothing may be found. */
export function wholeRun({ node, args, cwd, home }: Program, mayFind = false): number {
  const from = process.hrtime.bigint();
  const done = spawnSync(node, args, { cwd, env: plainEnvironment(home), stdio: 'ignore' });
  const took = Number(process.hrtime.bigint() - from) / 1e6;
  if (done.status !== 0 && !(mayFind && done.status === 1))
    throw new Error(`${args.join(' ')} ended with ${done.status}`);
  return took;
}

/** ms until a text is on a terminal of 100 x 30. */
export function firstFrame({ node, args, cwd, home }: Program, text: string): Promise<number> {
  return new Promise((resolve, reject) => {
    const from = process.hrtime.bigint();
    const child = spawn(node, [...args], { cwd, cols: 100, rows: 30, env: plainEnvironment(home) });
    let seen = '';
    let took: number | undefined;
    const late = setTimeout(() => {
      child.kill('SIGKILL');
      reject(new Error(`${args.join(' ')} showed no "${text}" in 10 s:\n${seen.slice(0, 2000)}`));
    }, 10_000);
    child.onData((data) => {
      seen += data;
      if (took === undefined && seen.includes(text)) {
        took = Number(process.hrtime.bigint() - from) / 1e6;
        child.kill('SIGKILL');
      }
    });
    child.onExit(() => {
      clearTimeout(late);
      if (took !== undefined) resolve(took);
      else reject(new Error(`${args.join(' ')} ended without "${text}":\n${seen.slice(0, 2000)}`));
    });
  });
}

/** Leaves the bench as a person does, so that the code it compiled is kept for the next start. */
export function leftAgain({ node, args, cwd, home }: Program, text: string): Promise<void> {
  return new Promise((resolve) => {
    const child = spawn(node, [...args], { cwd, cols: 100, rows: 30, env: plainEnvironment(home) });
    let seen = '';
    child.onData((data) => {
      seen += data;
      if (!seen.includes(text)) return;
      seen = '';
      child.write('\x18\x18');
    });
    child.onExit(() => resolve());
  });
}
