/**
 * The built program in a real pseudo-terminal, its screen read back through a terminal emulator. Waiting is for what the
 * screen shows, never for a time to pass.
 */
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { IPty } from '@lydell/node-pty';
import xterm from '@xterm/headless';
import { asIfWritten } from '../../src/unit/aswritten.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { apply } from '../../src/unit/fold.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { givePins } from '../pins.js';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
export const MAIN = join(ROOT, 'dist', 'main.js');
/** How long a screen may take to come about before the test gives up; nothing is measured by it. */
const PATIENCE = 25_000;

type Pty = typeof import('@lydell/node-pty');

/** Why the terminal tests cannot run here, or the pseudo-terminal. */
export async function findPty(): Promise<{ readonly pty: Pty } | { readonly skip: string }> {
  try {
    const pty = await import('@lydell/node-pty');
    const probe = pty.spawn(process.execPath, ['-e', '0'], { cols: 80, rows: 24 });
    probe.kill();
    return { pty };
  } catch (error) {
    return { skip: `no pseudo-terminal can be made here: ${(error as Error).message}` };
  }
}

/** A fresh copy of the demonstration workshop. */
export function freshWorkshop(): { readonly folder: string; readonly remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-test-'));
  for (const part of ['procedures', 'shared', 'logs'])
    cpSync(join(ROOT, part), join(folder, part), {
      recursive: true,
      // Set-ups have tests of their own; here no first-off is asked for.
      filter: (path) => !/\.(jsonl|lock)$|setups\.yaml$/.test(path),
    });
  givePins(folder);
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

export interface TerminalOptions {
  readonly folder: string;
  readonly columns?: number;
  readonly rows?: number;
  readonly args?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
}

export class Terminal {
  readonly #child: IPty;
  readonly #screen: xterm.Terminal;
  readonly #waiting = new Set<() => void>();
  #raw = '';
  #exit: { readonly code: number; readonly signal: number | undefined } | undefined;
  #rows: number;

  constructor(pty: Pty, options: TerminalOptions) {
    const { columns = 80, rows = 24 } = options;
    const env: Record<string, string> = {};
    for (const [name, value] of Object.entries(process.env)) if (value !== undefined) env[name] = value;
    // Extra certificates are read at every start of node and have nothing to do with a bench.
    for (const name of ['CI', 'NO_COLOR', 'FORCE_COLOR', 'NODE_EXTRA_CA_CERTS', 'VITEST', 'NODE_ENV'])
      delete env[name];
    this.#rows = rows;
    this.#screen = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true });
    this.#child = pty.spawn(process.execPath, [MAIN, ...(options.args ?? [])], {
      cols: columns,
      rows,
      cwd: options.folder,
      env: { ...env, TERM: 'xterm-256color', LANG: 'C.UTF-8', ...options.env },
    });
    this.#child.onData((data) => {
      this.#raw += data;
      this.#screen.write(data, () => this.#wake());
    });
    this.#child.onExit(({ exitCode, signal }) => {
      this.#exit = { code: exitCode, signal };
      this.#wake();
    });
  }

  get pid(): number {
    return this.#child.pid;
  }

  /** Everything that the program sent. */
  get raw(): string {
    return this.#raw;
  }

  send(text: string | Uint8Array): void {
    // Bytes are taken as they are, though the types say nothing of it.
    this.#child.write(typeof text === 'string' ? text : (Buffer.from(text) as unknown as string));
  }

  resize(columns: number, rows: number): void {
    this.#rows = rows;
    this.#screen.resize(columns, rows);
    this.#child.resize(columns, rows);
  }

  kill(signal: NodeJS.Signals): void {
    process.kill(this.#child.pid, signal);
  }

  lines(): string[] {
    const { active } = this.#screen.buffer;
    return Array.from(
      { length: this.#rows },
      (_, row) => active.getLine(active.baseY + row)?.translateToString(true) ?? '',
    );
  }

  text(): string {
    return this.lines().join('\n');
  }

  cursor(): { readonly x: number; readonly y: number } {
    return { x: this.#screen.buffer.active.cursorX, y: this.#screen.buffer.active.cursorY };
  }

  /** Whether the alternate screen is shown. */
  isAlternate(): boolean {
    return this.#screen.buffer.active.type === 'alternate';
  }

  /** Waits until the screen shows it. */
  async until(what: string | RegExp | ((text: string) => boolean)): Promise<void> {
    const shown = (): boolean => {
      const text = this.text();
      if (typeof what === 'string') return text.includes(what);
      return what instanceof RegExp ? what.test(text) : what(text);
    };
    await this.#for(shown, () => `the screen never showed ${String(what)}:\n${this.text()}`);
  }

  /** Sends, then waits until the screen shows it. */
  async say(text: string, what: string | RegExp | ((text: string) => boolean)): Promise<void> {
    this.send(text);
    await this.until(what);
  }

  async ended(): Promise<{ readonly code: number; readonly signal: number | undefined }> {
    await this.#for(
      () => this.#exit !== undefined,
      () => `the program did not end:\n${this.text()}`,
    );
    return this.#exit!;
  }

  /** Ends the program if it still runs. */
  close(): void {
    if (this.#exit === undefined) this.#child.kill('SIGKILL');
  }

  #wake(): void {
    for (const look of [...this.#waiting]) look();
  }

  #for(holds: () => boolean, complaint: () => string): Promise<void> {
    if (holds()) return Promise.resolve();
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => {
        this.#waiting.delete(look);
        reject(new Error(complaint()));
      }, PATIENCE);
      const look = (): void => {
        if (!holds()) return;
        clearTimeout(timer);
        this.#waiting.delete(look);
        resolve();
      };
      this.#waiting.add(look);
    });
  }
}

export const journal = (folder: string, unit: string): JournalEvent[] => {
  try {
    return readFileSync(join(folder, 'logs', 'pier-house', `${unit}.jsonl`), 'utf8')
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => JSON.parse(line) as JournalEvent);
  } catch {
    return [];
  }
};
export const logged = (folder: string, unit: string): number => journal(folder, unit).length;

/** A unit that is not begun has no first event; the driver is shown the state as it will be once it has. */
export function withOpened(state: UnitState): UnitState {
  const body: EventBody = {
    kind: 'opened',
    unit: state.unit,
    job: state.job,
    sources: {},
    procedure: { name: '', version: '' },
    profileSet: '',
    program: '',
  };
  return apply(state, ...asIfWritten({ events: [] }, [body], 'nobody', { now: state.now, bench: '' }));
}
