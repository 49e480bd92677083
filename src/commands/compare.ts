/** `compare`: what changed between two versions of a procedure or of the limits. */

import { resolve } from 'node:path';
import { type Problem, problemFactory, type Result, type SourceText } from '../base/problem.js';
import { Several } from '../base/words.js';
import { parseLimits } from '../measure/limits.js';
import { compareLimits, compareProcedures, type Difference, differenceText } from '../procedure/compare.js';
import { parseProcedure } from '../procedure/parse.js';
import { realDisk } from '../store/disk.js';
import { COMPARE_MESSAGES, commandWords } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, readOptions, retold, saying } from './io.js';
import { MAKING_SAYS } from './words/making.js';

const raise = problemFactory(COMPARE_MESSAGES);

const LARGEST = 2_000_000;

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.compare, { json: { type: 'boolean' } }, { least: 2, most: 2 });
  if (typeof read === 'number') return read;
  const [was, now] = read.positionals.map((file) => sourceAt(io.workshop, file));
  const compared = differences(was!, now!);
  if (!compared.ok)
    return fail(
      io,
      compared.problems,
      compared.problems.some(({ id }) => id === 'compare.no-file') ? EXIT.resource : EXIT.badInput,
    );
  if (read.values.json) io.out(asJson({ alike: compared.value.length === 0, differences: compared.value }));
  else if (compared.value.length === 0) io.out(saying(io, MAKING_SAYS)('compare-same'));
  else for (const line of differenceText(compared.value)) io.out(retold(io, line));
  return EXIT.done;
}

function differences(was: SourceText | Problem, now: SourceText | Problem): Result<Difference[]> {
  const unread = [was, now].filter((each): each is Problem => 'todo' in each);
  if ('todo' in was || 'todo' in now) return { ok: false, problems: unread };
  const kinds = [was, now].map(({ text }) => /^format:\s*(\S+)/m.exec(text)?.[1]);
  if (kinds[0] === kinds[1] && kinds[0] === 'pinchrod-procedure')
    return both(parseProcedure(was), parseProcedure(now), compareProcedures);
  if (kinds[0] === kinds[1] && kinds[0] === 'pinchrod-limits')
    return both(parseLimits(was), parseLimits(now), (a, b) => compareLimits(a.limits, b.limits));
  const named = [was, now].map(({ file }, i) => {
    const kind = kinds[i];
    return kind === undefined ? commandWords('kind-none', { file }) : commandWords('kind-of', { file, kind });
  });
  return { ok: false, problems: [raise('compare.kinds', { named: new Several(named) })] };
}

function both<T>(
  was: Result<T>,
  now: Result<T>,
  compare: (a: T, b: T) => Difference[],
): Result<Difference[]> {
  if (was.ok && now.ok) return { ok: true, value: compare(was.value, now.value), warnings: [] };
  return { ok: false, problems: [was, now].flatMap((each) => (each.ok ? [] : each.problems)) };
}

function sourceAt(workshop: string, file: string): SourceText | Problem {
  try {
    const path = resolve(workshop, file);
    const size = realDisk.stat(path)?.size;
    if (size === undefined) return raise('compare.no-file/there', { file }, { file });
    if (size > LARGEST) return raise('compare.no-file/bytes', { file, size, largest: LARGEST }, { file });
    return { file, text: realDisk.read(path).toString('utf8') };
  } catch (error) {
    return raise('compare.no-file', { file, code: (error as { code?: string }).code ?? '?' }, { file });
  }
}
