/** `init DIR`: creates a workshop folder. */
import { relative, resolve } from 'node:path';
import { problemFactory } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { realDisk } from '../store/disk.js';
import { makeWorkshop, shippedFolder } from '../store/makeworkshop.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { asJson, EXIT, fail, type Io, parseOptions, saying } from './io.js';
import { MAKING_SAYS } from './words/making.js';

const raise = problemFactory(COMMAND_MESSAGES);

export async function run(args: string[], io: Io): Promise<number> {
  const read = parseOptions(args, { json: { type: 'boolean' } });
  if (typeof read === 'string') return fail(io, [raise('init.usage/option', { fault: read })], EXIT.badInput);
  const { values, positionals } = read;
  const [folder, ...more] = positionals;
  if (folder === undefined || folder === '' || more.length > 0)
    return fail(io, [raise('init.usage')], EXIT.badInput);
  const shipped = shippedFolder();
  const to = resolve(folder);
  const made = shipped.ok ? makeWorkshop(realDisk, shipped.value, to) : shipped;
  if (!made.ok)
    return fail(
      io,
      made.problems,
      made.problems.some(({ id }) => id.startsWith('disk.')) ? EXIT.resource : EXIT.badInput,
    );
  const shown = sanitize(relative(process.cwd(), to) || '.');
  if (values.json) io.out(asJson({ workshop: to, files: made.value }));
  else {
    const say = saying(io, MAKING_SAYS);
    io.out(say('init-made', { folder: shown, n: made.value.length }));
    io.out(say('init-try', { folder: shown }));
  }
  return EXIT.done;
}
