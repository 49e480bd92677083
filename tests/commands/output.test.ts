import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { MAIN } from '../bench/terminal.js';

// The command's real process under a real shell: what is tested is how it writes to what the shell gives it.
const ROOT = join(import.meta.dirname, '..', '..');
const COMMAND = `'${process.execPath}' '${MAIN}' setout pier-house --json`;
const shell = (script: string) => spawnSync('sh', ['-c', script], { cwd: ROOT, encoding: 'utf8' });
const whole = () => shell(COMMAND).stdout;

test.skipIf(process.platform === 'win32')(
  'a reader slower than a pipe, blocking or not, gets every byte',
  () => {
    const expected = whole();
    // More than a pipe holds, so that the writer must wait.
    expect(expected.length).toBeGreaterThan(70_000);
    const slow = '(sleep 0.3; cat)';
    expect(shell(`${COMMAND} | ${slow}`).stdout).toBe(expected);
    // A parent that uses its standard output as node does makes the pipe non-blocking for its children too.
    const parent =
      "process.stdout.write('');" +
      "require('node:child_process').spawnSync('sh', ['-c', process.argv[1]], { stdio: 'inherit' });";
    expect(shell(`'${process.execPath}' -e "${parent}" "${COMMAND}" | ${slow}`).stdout).toBe(expected);
  },
);

test.skipIf(process.platform !== 'linux')(
  'a reader that closed early is no failure, a full disk is one',
  () => {
    expect(shell(`{ ${COMMAND}; echo $? >&2; } | head -c 10`)).toMatchObject({ stderr: '0\n' });
    expect(shell(`${COMMAND} > /dev/full`).status).toBe(3);
  },
);
