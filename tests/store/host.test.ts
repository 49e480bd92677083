/** What is known of processes and of the machine, on this system and on one that says less. */
import { type ChildProcess, spawn } from 'node:child_process';
import { hostname } from 'node:os';
import type { Writable } from 'node:stream';
import { afterAll, afterEach, expect, it, vi } from 'vitest';
import { thisHost, thisProcess } from '../../src/store/lock.js';

const system = vi.hoisted(() => ({ saysLess: false }));
// A system without /etc/machine-id and /proc, as macOS is: the files are not there, all else is as here.
vi.mock('node:fs', async (original) => {
  const fs = await original<typeof import('node:fs')>();
  const readFileSync: typeof fs.readFileSync = ((...args: Parameters<typeof fs.readFileSync>) => {
    if (system.saysLess) throw Object.assign(new Error('ENOENT'), { code: 'ENOENT' });
    return fs.readFileSync(...args);
  }) as never;
  return { ...fs, readFileSync };
});

const children: ChildProcess[] = [];
afterAll(() => {
  for (const child of children) child.kill('SIGKILL');
});
afterEach(() => {
  system.saysLess = false;
  vi.restoreAllMocks();
});

it('a process that lives has a start, one that is no more has none', () => {
  const { started, pid } = thisHost();
  expect(started(pid)).toMatch(/^(\d+)?$/);
  expect(started(4_194_303)).toBeUndefined();
});

it('a process that ended and was not waited for is no more', async ({ skip }) => {
  if (process.platform !== 'linux') skip('only Linux tells');
  // The shell begins a process that waits for a line, says its number, and becomes a program that never waits for it.
  const child = spawn('sh', ['-c', 'sh -c "read line" <&3 & echo $!; exec cat 3<&-'], {
    stdio: ['pipe', 'pipe', 'ignore', 'pipe'],
  });
  children.push(child);
  let said = '';
  child.stdout!.on('data', (data) => {
    said += data;
  });
  child.stdin!.write('become\n');
  await vi.waitFor(() => expect(said).toContain('become'), { timeout: 20_000 });
  const ended = Number.parseInt(said, 10);
  expect(thisHost().started(ended)).toMatch(/^\d+$/);
  (child.stdio[3] as Writable).end('\n');
  await vi.waitFor(() => expect(thisHost().started(ended)).toBeUndefined(), { timeout: 20_000 });
  // Its number is still taken: only its state tells.
  expect(process.kill(ended, 0)).toBe(true);
});

it('a process of somebody else, which may not be asked, lives', () => {
  const ask = vi.spyOn(process, 'kill').mockImplementation(() => {
    throw Object.assign(new Error('EPERM'), { code: 'EPERM' });
  });
  expect(thisHost().started(process.pid)).toMatch(/^(\d+)?$/);
  expect(ask).toHaveBeenCalledWith(process.pid, 0);
});

it('on a system that says less the machine is its name, and a process is its number', () => {
  system.saysLess = true;
  const here = thisHost();
  expect(here).toMatchObject({ host: hostname(), machine: hostname(), boot: '' });
  expect(here.started(process.pid)).toBe('');
  expect(here.started(4_194_303)).toBeUndefined();
});

it('this process is asked for once, and two are told apart', () => {
  expect(thisProcess()).toBe(thisProcess());
  expect(thisHost().token).not.toBe(thisHost().token);
});
