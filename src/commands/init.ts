/** `init DIR`: a new workshop folder. */
import { relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { plain } from '../ground/plain.js';
import { problemText } from '../ground/problem.js';
import { realDisk } from '../store/disk.js';
import { makeWorkshop } from '../store/makeworkshop.js';
import { shippedFolder } from '../store/shipped.js';
import { EXIT, type Io } from './io.js';

const HELP = `pinchrod init DIR [--json]

Makes a new workshop in DIR: procedures, limits, instruments, people, profile sets, a job to try, and the manual of the
record format. Nothing that is there is overwritten. The people, figures and job are invented: put your own in their place.

Example: pinchrod init my-workshop && cd my-workshop && pinchrod board
Exit codes: 0 made, 2 used wrongly or the folder is in use, 3 the disk failed.`;

export async function run(args: string[], io: Io): Promise<number> {
  let parsed: ReturnType<typeof options>;
  try {
    parsed = options(args);
  } catch (error) {
    return used(io, (error as Error).message);
  }
  const { values, positionals } = parsed;
  if (values.help) {
    io.out(HELP);
    return EXIT.done;
  }
  const [folder, ...more] = positionals;
  if (folder === undefined || folder === '' || more.length > 0) return used(io, 'init takes one folder.');
  const shipped = shippedFolder();
  const to = resolve(folder);
  const made = shipped.ok ? makeWorkshop(realDisk, shipped.value, to) : shipped;
  if (!made.ok) {
    for (const problem of made.problems) io.err(problemText(problem));
    return made.problems.some(({ id }) => id.startsWith('disk.')) ? EXIT.resource : EXIT.badInput;
  }
  const shown = plain(relative(process.cwd(), to) || '.');
  if (values.json) io.out(JSON.stringify({ workshop: to, files: made.value }));
  else {
    io.out(`${shown} is a workshop now: ${made.value.length} files.`);
    io.out(`Try it: cd ${shown}, then pinchrod. Put your own people into shared/people.yaml first.`);
  }
  return EXIT.done;
}

const options = (args: string[]) =>
  parseArgs({
    args,
    allowPositionals: true,
    options: { help: { type: 'boolean', short: 'h' }, json: { type: 'boolean' } },
  });

function used(io: Io, text: string): number {
  io.err(`${plain(text)} [init.usage]\n  Example: pinchrod init my-workshop`);
  return EXIT.badInput;
}
