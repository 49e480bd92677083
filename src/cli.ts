#!/usr/bin/env node
/** Dispatches to commands, loaded on demand (only `bench` loads the screen). Only this file ends the process. */
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { EXIT } from './base/problem.js';
import { sanitize } from './base/text.js';
import { enableCompileCache } from './commands/compilecache.js';
import type { CommandModule, Io } from './commands/io.js';

interface Verb {
  readonly says: string;
  /** In a folder of a shop: what others wrote is fetched first, and what was written is handed over behind. */
  readonly shop?: 'before' | 'both';
  readonly load: () => Promise<CommandModule>;
}

const VERBS: Record<string, Verb> = {
  bench: {
    says: 'open the bench (as does no verb at all)',
    load: () => import('./commands/bench.js'),
  },
  board: { says: 'units and where they stand', shop: 'before', load: () => import('./commands/board.js') },
  setout: {
    says: 'every size and mark of a job, and why',
    load: () => import('./commands/setout.js'),
  },
  lint: {
    says: 'check the workshop files',
    load: () => import('./commands/lint.js'),
  },
  record: {
    says: 'quality record of a unit or job',
    shop: 'before',
    load: () => import('./commands/record.js'),
  },
  label: { says: 'labels for units and parts', load: () => import('./commands/label.js') },
  verify: { says: 'check that journals are whole and unaltered', load: () => import('./commands/verify.js') },
  key: { says: "this bench's signing key", shop: 'both', load: () => import('./commands/key.js') },
  register: {
    says: 'how far journals had come; accepting a restore',
    shop: 'both',
    load: () => import('./commands/register.js'),
  },
  shop: {
    says: 'several benches on one server: make, join, status, publish, take over',
    load: () => import('./commands/shop.js'),
  },
  person: { says: "people's PINs, and erasing a name", load: () => import('./commands/person.js') },
  seal: { says: 'sign and seal a finished job', shop: 'both', load: () => import('./commands/seal.js') },
  archive: { says: 'a job with all its records in one file', load: () => import('./commands/archive.js') },
  feed: {
    says: 'act on a unit from a script: one JSON action a line',
    load: () => import('./commands/feed.js'),
  },
  setup: {
    says: 'set-ups: how they stand, first-offs, what ends them',
    shop: 'both',
    load: () => import('./commands/setup.js'),
  },
  revise: {
    says: 'move a unit in progress to the current files',
    shop: 'both',
    load: () => import('./commands/revise.js'),
  },
  trace: {
    says: 'which units a lot, instrument or person reached',
    shop: 'before',
    load: () => import('./commands/trace.js'),
  },
  square: { says: 'squareness calculator for any frame', load: () => import('./commands/square.js') },
  train: {
    says: 'practice drills, memory, walk and sign-off',
    shop: 'both',
    load: () => import('./commands/train.js'),
  },
  compare: {
    says: 'what changed between two procedures or limits files',
    load: () => import('./commands/compare.js'),
  },
  init: { says: 'make a new workshop folder', load: () => import('./commands/init.js') },
  demo: {
    says: 'open the bench on a copy of the demonstration workshop',
    load: () => import('./commands/demo.js'),
  },
  messages: {
    says: 'the table of every message and what to do',
    load: () => import('./commands/messages.js'),
  },
};

const io = (workshop: string): Io => ({
  out: (text) => process.stdout.write(`${text}\n`),
  err: (text) => process.stderr.write(`${text}\n`),
  workshop,
});

// A reader that closes early (`pinchrod board | head`) is not an error; it just ends the command.
process.stdout.on('error', ({ code }: NodeJS.ErrnoException) =>
  process.exit(code === 'EPIPE' ? EXIT.done : EXIT.resource),
);
// If standard error is gone there is nowhere to report to; the exit code still tells the outcome.
process.stderr.on('error', () => {});

function usage(): string {
  const widest = Math.max(...Object.keys(VERBS).map((verb) => verb.length));
  return [
    'pinchrod [--workshop DIR] [VERB ...]',
    '',
    'Without a verb the bench opens in this terminal.',
    '',
    ...Object.entries(VERBS).map(([verb, { says }]) => `  ${verb.padEnd(widest)}  ${says}`),
    '',
    'pinchrod VERB --help tells more. Example: pinchrod setout pier-house P02-1',
    'Exit codes: 0 done, 1 the thing checked does not hold, 2 bad usage or bad input, 3 the disk or another resource failed.',
  ].join('\n');
}

async function main(argv: readonly string[]): Promise<number> {
  const args = [...argv];
  let workshop = process.env.PINCHROD_WORKSHOP ?? '.';
  // Before the verb or after it.
  for (let at = args.findIndex(isWorkshop); at >= 0; at = args.findIndex(isWorkshop)) {
    const [, inOne] = args[at]!.split(/=(.*)/s, 2);
    const value = inOne ?? args[at + 1];
    if (value === undefined || value === '') return used('--workshop needs a folder.');
    args.splice(at, inOne === undefined ? 2 : 1);
    workshop = value;
  }
  const first = args[0];
  if (first === '--help' || first === '-h' || first === 'help') {
    io(workshop).out(usage());
    return EXIT.done;
  }
  if (first === '--version') {
    io(workshop).out(`pinchrod ${PINCHROD_VERSION}`);
    return EXIT.done;
  }
  const verb = first === undefined ? 'bench' : first;
  const command = Object.hasOwn(VERBS, verb) ? VERBS[verb] : undefined;
  if (!command) return used(`"${sanitize(verb)}" is not a verb of pinchrod.`);
  const words = args.slice(1);
  if (words.includes('--help') || words.includes('-h')) {
    const { HELP } = await import('./commands/help.js');
    io(workshop).out(HELP[verb as keyof typeof HELP]);
    return EXIT.done;
  }
  const at = io(resolve(workshop));
  const inShop = command.shop !== undefined && existsSync(join(at.workshop, 'shop'));
  if (!inShop) return (await command.load()).run(words, at);
  const { shopFirst, shopAfter } = await import('./commands/shopfirst.js');
  await shopFirst(at);
  const code = await (await command.load()).run(words, at);
  if (command.shop === 'both') await shopAfter(at);
  return code;
}

const isWorkshop = (arg: string): boolean => arg === '--workshop' || arg.startsWith('--workshop=');

function used(text: string): number {
  io('.').err(`${text} [main.usage]\n  Run pinchrod --help for usage.`);
  return EXIT.badInput;
}

enableCompileCache(process.env, process.platform);
main(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    const { code, message } = error as NodeJS.ErrnoException;
    if (typeof code === 'string' && /^E[A-Z]+$/.test(code)) {
      io('.').err(
        `${sanitize(message)} [main.resource]\n  See to the file, folder or disk named above, then run the command again; nothing was left half-written.`,
      );
      process.exit(EXIT.resource);
    }
    io('.').err(
      `The program met something it did not expect: ${sanitize(String(message ?? error))} [main.unexpected]\n` +
        '  Nothing that was acknowledged is lost. Please report this line and what you were doing.',
    );
    if (process.env.PINCHROD_TRACE) io('.').err(String((error as Error).stack));
    process.exit(EXIT.resource);
  },
);
