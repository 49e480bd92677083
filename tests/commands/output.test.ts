import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { MAIN } from '../tui/terminal.js';

// The command's real process under a real shell: what is tested is how it writes to what the shell gives it.
const ROOT = join(import.meta.dirname, '..', '..');
const COMMAND = `'${process.execPath}' '${MAIN}' setout pier-house --json`;
const SLOW = '(sleep 0.3; cat)';
const shell = (script: string) => spawnSync('sh', ['-c', script], { cwd: ROOT, encoding: 'utf8' });

test.skipIf(process.platform === 'win32')('a reader slower than a pipe gets every byte', () => {
  const expected = shell(COMMAND).stdout;
  // More than a pipe holds, so that the writer must wait.
  expect(expected.length).toBeGreaterThan(70_000);
  expect(shell(`${COMMAND} | ${SLOW}`).stdout).toBe(expected);
  if (shell('command -v perl').status !== 0) {
    console.warn('passed over: a pipe that does not block, for want of perl to make one');
    return;
  }
  const unblock = `perl -MFcntl -e 'fcntl(STDOUT, F_SETFL, fcntl(STDOUT, F_GETFL, 0) | O_NONBLOCK); exec @ARGV'`;
  expect(shell(`${unblock} ${COMMAND} | ${SLOW}`).stdout).toBe(expected);
});

const linux = test.skipIf(process.platform !== 'linux');
linux('a reader that closed early is no failure, a full disk is one', () => {
  expect(shell(`{ ${COMMAND}; echo $? >&2; } | head -c 10`)).toMatchObject({ stderr: '0\n' });
  expect(shell(`${COMMAND} > /dev/full`).status).toBe(3);
});
