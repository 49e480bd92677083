/** `key`: creates the key this bench signs finished work with, or shows its public part. */
import type { Problem } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { realDisk } from '../store/disk.js';
import { benchKey, newBenchKey, privateKeyFile, publicKeyFile, publicKeys } from '../store/key.js';
import { openWorkshop } from '../store/workshop.js';
import { fingerprintOf } from '../unit/sealing.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions } from './io.js';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.key, {}, { least: 1 });
  if (typeof read === 'number') return read;
  const word = read.positionals[0]!;
  if (word !== 'new' && word !== 'show') {
    io.err(
      `"${sanitize(word)}" is not something to do with a key. [command.usage]\n  ${HELP.key.split('\n')[0]}`,
    );
    return EXIT.badInput;
  }
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return said(io, workshop.problems);
  const bench = process.env.PINCHROD_BENCH ?? workshop.value.bench;
  return word === 'new' ? make(io, bench) : show(io, bench);
}

function make(io: Io, bench: string): number {
  const made = newBenchKey(realDisk, io.workshop, bench);
  if (!made.ok) return said(io, made.problems);
  io.out(`${sanitize(bench)} signs with key ${made.value.id} from now on.`);
  io.out(`  fingerprint: ${fingerprintOf(made.value.publicPem)}`);
  io.out('               (write it on paper: pinchrod verify --trust asks for it)');
  io.out(`  private: ${privateKeyFile(bench)} (yours alone; keep a copy in a safe place)`);
  io.out(`  public:  ${publicKeyFile(made.value.id)}`);
  return EXIT.done;
}

function show(io: Io, bench: string): number {
  const own = benchKey(realDisk, io.workshop, bench);
  const known = publicKeys(realDisk, io.workshop);
  if (own.ok && own.value) {
    io.out(
      `${sanitize(bench)} signs with key ${own.value.id}.\nfingerprint: ${fingerprintOf(own.value.publicPem)}\n\n${own.value.publicPem.trimEnd()}`,
    );
    if (!known.keys.has(own.value.id))
      io.out(`\nIts public part is not at ${publicKeyFile(own.value.id)}: save the text above there.`);
  } else if (own.ok)
    io.out(`${sanitize(bench)} has no key: what it finishes is not signed. pinchrod key new makes one.`);
  const others = [...known.keys.keys()].filter((id) => !own.ok || id !== own.value?.id);
  if (others.length > 0) io.out(`\nOther keys that this workshop knows: ${others.join(', ')}.`);
  return own.ok && known.problems.length === 0
    ? EXIT.done
    : said(io, [...(own.ok ? [] : own.problems), ...known.problems]);
}

function said(io: Io, problems: readonly Problem[]): number {
  return fail(
    io,
    problems,
    problems.some(({ id }) => id.startsWith('disk.')) ? EXIT.resource : EXIT.badInput,
  );
}
