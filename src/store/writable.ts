/** On start: does the logs folder really keep what is appended to it? Some shares and synchronised folders do not. */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { Problem } from '../ground/problem.js';
import type { Disk, Handle } from './disk.js';
import { diskProblem, raise } from './diskproblem.js';
import { attempt, makeFolders, writeAll } from './files.js';

/** Appends twice to a file of its own under logs/, flushes, reads it back and removes it. Undefined: it can be trusted. */
export function testLogsFolder(disk: Disk, root: string): Problem | undefined {
  const name = `append-test-${randomBytes(6).toString('hex')}.tmp`;
  let path: string | undefined;
  let handle: Handle | undefined;
  try {
    path = join(makeFolders(disk, root, ['logs']), name);
    handle = disk.open(path, 'new');
    writeAll(disk, handle, Buffer.from('first\n'), path);
    disk.flush(handle);
    disk.close(handle);
    handle = disk.open(path, 'append');
    writeAll(disk, handle, Buffer.from('second\n'), path);
    disk.flush(handle);
    disk.flushFolder(join(root, 'logs'));
    const back = disk.read(path).toString('utf8');
    if (back !== 'first\nsecond\n')
      return raise('disk.does-not-append', 'What was appended to a file under logs/ did not come back.', {
        file: 'logs',
      });
    return undefined;
  } catch (error) {
    return diskProblem(error, 'logs', 'the logs folder was tested');
  } finally {
    if (handle !== undefined) attempt(() => disk.close(handle!));
    if (path !== undefined) attempt(() => disk.unlink(path!));
  }
}
