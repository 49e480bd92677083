/** A workshop as a version without registers left it: for tests that take journals away and begin anew in the same folder. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { realDisk } from '../src/store/disk.js';
import { forgetHere } from '../src/store/register/account.js';

export function withoutRegister(root: string): void {
  rmSync(join(root, 'register'), { recursive: true, force: true });
  forgetHere(realDisk, root);
}
