/** Messages that no small case gives, each caused once: by a disk that misbehaves, a line hashed anew, a clock far ahead. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Problem, Result } from '../../src/base/problem.js';
import { actOnUnit } from '../../src/session/actions.js';
import { realPorts } from '../../src/session/workshopports.js';
import { jobFiles, unpackFiles } from '../../src/store/archive.js';
import { type Disk, realDisk, StoreError, writeAll } from '../../src/store/disk.js';
import { testLogsFolder } from '../../src/store/files.js';
import { Journal, readEvents } from '../../src/store/journal.js';
import { lockUnit } from '../../src/store/unitlock.js';
import { memoryDisk } from '../../src/store/verifyarchive.js';
import { openBench } from '../../src/tui/open.js';
import { chainEvent, chainHash, chainLine } from '../../src/unit/chain.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { journal, noted, opened, stamp } from '../store/samples.js';
import { findPty, freshWorkshop, MAIN, Terminal } from '../tui/terminal.js';
import { command } from './museum.js';

const JOB = 'pier-house';
const leave: (() => void)[] = [];
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
  for (const each of leave.splice(0).reverse()) each();
});
const workshop = (): string => {
  const { folder, remove } = freshWorkshop();
  leave.push(remove);
  return folder;
};

function given(
  result: Result<unknown> | { readonly problem: Problem } | Problem | undefined,
  id: string,
): void {
  const problem =
    result === undefined
      ? undefined
      : 'ok' in result
        ? result.ok
          ? undefined
          : result.problems[0]
        : 'problem' in result
          ? result.problem
          : result;
  expect(problem).toMatchObject({ id, text: expect.stringMatching(/\S/), todo: expect.stringMatching(/\S/) });
}
const thrown = (run: () => unknown): Problem | undefined => {
  try {
    run();
  } catch (error) {
    if (error instanceof StoreError) return error.problem;
    throw error;
  }
  return undefined;
};
const changed = (calls: Partial<Disk>): Disk => ({ ...realDisk, ...calls });

describe('archives', () => {
  it('archive.damaged: bytes that are no archive', () => {
    given(unpackFiles(new Uint8Array(100)), 'archive.damaged');
  });

  it('archive.too-large: a job of more than fits', () => {
    const lines = `${journal(3).map(chainLine).join('\n')}\n`;
    const files = new Map([[`logs/${JOB}/P01-1.jsonl`, Buffer.from(lines)]]);
    const disk = memoryDisk('/w', new Map([...files, [`logs/${JOB}/job.seal.json`, Buffer.from('{}')]]));
    const huge: Disk = {
      ...disk,
      stat: (path) => {
        const stat = disk.stat(path);
        return stat && path.endsWith('seal.json') ? { ...stat, size: 2e9 } : stat;
      },
    };
    given(jobFiles(huge, '/w', JOB), 'archive.too-large');
  });
});

describe('disks', () => {
  it('disk.short: a write that takes nothing', () => {
    const folder = workshop();
    const path = join(folder, 'x');
    const disk = changed({ write: () => 0 });
    const handle = disk.open(path, 'new');
    given(
      thrown(() => writeAll(disk, handle, Buffer.from('abc'), 'x')),
      'disk.short',
    );
    disk.close(handle);
  });

  it('disk.does-not-append: a folder that gives back something else', () => {
    given(
      testLogsFolder(changed({ read: () => Buffer.from('second\n') }), workshop()),
      'disk.does-not-append',
    );
  });
});

describe('journals', () => {
  const written = (folder: string, body: EventBody, change: object = {}): void => {
    const made = Journal.open(realDisk, folder, JOB, 'P01-1');
    if (!made.ok) throw new Error('cannot open');
    made.value.append([opened()], stamp());
    const sealed = chainEvent({ ...body, ...change } as EventBody, stamp(), made.value.events[0]);
    made.value.close();
    const handle = realDisk.open(join(folder, 'logs', JOB, 'P01-1.jsonl'), 'append');
    realDisk.write(handle, Buffer.from(`${chainLine(sealed)}\n`), 0);
    realDisk.close(handle);
  };

  it('journal.unknown-event: a whole line of a kind that this version has not', () => {
    const folder = workshop();
    written(folder, noted('x'), { kind: 'painted' });
    given(readEvents(realDisk, folder, JOB, 'P01-1'), 'journal.unknown-event');
  });

  it('journal.newer: a whole line of a later format', () => {
    const folder = workshop();
    const later = sealLater(noted('x'));
    const made = Journal.open(realDisk, folder, JOB, 'P01-1');
    if (!made.ok) throw new Error('cannot open');
    made.value.append([opened()], stamp());
    made.value.close();
    const handle = realDisk.open(join(folder, 'logs', JOB, 'P01-1.jsonl'), 'append');
    realDisk.write(handle, Buffer.from(`${later(made.value.events[0]!.hash)}\n`), 0);
    realDisk.close(handle);
    given(readEvents(realDisk, folder, JOB, 'P01-1'), 'journal.newer');
  });

  it('journal.changed-beneath: another program wrote into it', () => {
    const folder = workshop();
    const made = Journal.open(realDisk, folder, JOB, 'P01-1');
    if (!made.ok) throw new Error('cannot open');
    made.value.append([opened()], stamp());
    const handle = realDisk.open(join(folder, 'logs', JOB, 'P01-1.jsonl'), 'append');
    realDisk.write(handle, Buffer.from('mine\n'), 0);
    realDisk.close(handle);
    given(
      thrown(() => made.value.append([noted('a')], stamp(1))),
      'journal.changed-beneath',
    );
  });

  it('journal.let-go: the lock was taken away', () => {
    const folder = workshop();
    const claim = lockUnit(realDisk, folder, JOB, 'P01-1', { bench: 'bench-1', who: 'jb' });
    if (!claim.ok) throw new Error('cannot claim');
    rmSync(join(folder, 'logs', JOB, 'P01-1.lock'));
    given(
      thrown(() => claim.value.journal.append([opened()], stamp())),
      'journal.let-go',
    );
    claim.value.release();
  });
});

describe('the bench', () => {
  it('bench.not-frozen: a unit that does not say from what it is built', async () => {
    const folder = workshop();
    const made = Journal.open(realDisk, folder, JOB, 'P01-1');
    if (!made.ok) throw new Error('cannot open');
    made.value.append([opened('P01-1', JOB, {})], stamp());
    made.value.close();
    const { code, text } = await command(
      folder,
      ['feed', 'P01-1', '--person', 'jb'],
      [{ do: 'note', text: 'x' }],
    );
    expect(code).not.toBe(0);
    expect(text).toContain('bench.not-frozen');
  });

  it('bench.read-only: an answer to a unit that is only looked at', () => {
    const ports = realPorts({ workshop: workshop() });
    if (!ports.ok) throw new Error('cannot open');
    given(
      actOnUnit({} as never, { id: 'P01-1' } as never, { do: 'note', text: 'x' }, { person: 'jb' }) as never,
      'bench.read-only',
    );
  });

  it('bench.no-terminal: opened where there is none', async () => {
    const said: string[] = [];
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      said.push(String(text));
      return true;
    });
    expect(await openBench({ workshop: workshop() })).toBe(2);
    expect(said.join('')).toContain('[bench.no-terminal]');
  });

  it('bench.unexpected: a fault of the program gives the terminal back, and says that nothing is lost', async (context) => {
    const found = await findPty();
    if ('skip' in found) return context.skip(found.skip);
    const folder = workshop();
    const fault = join(folder, 'fault.mjs');
    writeFileSync(fault, "process.on('SIGUSR2', () => { throw new Error('made to fail'); });");
    const terminal = new Terminal(found.pty, { folder, env: { NODE_OPTIONS: `--import=${fault}` } });
    leave.push(() => terminal.close());
    await terminal.until('P02-1');
    terminal.kill('SIGUSR2');
    expect(await terminal.ended()).toMatchObject({ code: 3 });
    expect(terminal.raw).toContain('[bench.unexpected]');
    expect(terminal.raw).not.toMatch(/^\s+at .+:\d+:\d+/m);
    expect(terminal.isAlternate()).toBe(false);
  });
});

describe('the demonstration and the process', () => {
  it('demo.stuck: long after every instrument’s calibration ran out', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2055-01-01T08:00:00Z') });
    const { code, text } = await command('.', ['demo', '--unattended', 'P01-1']);
    expect(code).toBe(1);
    expect(text).toContain('[demo.stuck]');
  }, 60_000);

  const run = (args: string[], env: Record<string, string>) =>
    spawnSync(process.execPath, [MAIN, ...args], { encoding: 'utf8', env: { ...process.env, ...env } });

  it('main.resource: no folder for temporary files', () => {
    const { status, stderr } = run(['demo', '--unattended'], {
      TMPDIR: join(mkdtempSync(join(tmpdir(), 'none-')), 'not', 'there'),
    });
    expect(status, stderr).toBe(3);
    expect(stderr).toContain('[main.resource]');
  });

  it('main.unexpected: a fault of the program, said in one line', () => {
    const fault =
      'data:text/javascript,import fs from "node:fs";import {syncBuiltinESMExports as s} from "node:module";fs.readdirSync=()=>{throw new TypeError("made to fail")};s();';
    const { status, stderr } = run(['--workshop', workshop(), 'lint'], {
      NODE_OPTIONS: `--import=${encodeURI(fault)}`,
    });
    expect(status, stderr).toBe(3);
    expect(stderr).toContain('[main.unexpected]');
    expect(stderr).not.toMatch(/^\s+at .+:\d+:\d+/m);
  });
});

/** A line of the next version of the format, whole by its own hash. */
function sealLater(body: EventBody): (prev: string) => string {
  return (prev) => {
    const event = { ...chainEvent(body, stamp(), { n: 1, hash: prev }), v: 3 };
    return chainLine({ ...event, hash: chainHash(event) } as JournalEvent);
  };
}
