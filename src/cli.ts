#!/usr/bin/env node
/** Dispatches to commands, loaded on demand (only `bench` loads the screen). Only this file ends the process. */
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { localeLanguage } from './base/locale.js';
import { EXIT } from './base/problem.js';
import type { Reader, Spoken } from './base/words.js';
import { enableCompileCache } from './commands/compilecache.js';
import type { CommandModule, Io } from './commands/io.js';
import type { raiseMain } from './commands/mainproblem.js';

interface Verb {
  /** In a folder of a shop: what others wrote is fetched first, and what was written is handed over behind. */
  readonly shop?: 'before' | 'both';
  readonly load: () => Promise<CommandModule>;
}

const VERBS: Record<string, Verb> = {
  bench: {
    load: () => import('./commands/bench.js'),
  },
  board: { shop: 'before', load: () => import('./commands/board.js') },
  setout: {
    load: () => import('./commands/setout.js'),
  },
  lint: {
    load: () => import('./commands/lint.js'),
  },
  record: {
    shop: 'before',
    load: () => import('./commands/record.js'),
  },
  label: { load: () => import('./commands/label.js') },
  verify: { load: () => import('./commands/verify.js') },
  key: { shop: 'both', load: () => import('./commands/key.js') },
  register: {
    shop: 'both',
    load: () => import('./commands/register.js'),
  },
  shop: {
    load: () => import('./commands/shop.js'),
  },
  person: { load: () => import('./commands/person.js') },
  seal: { shop: 'both', load: () => import('./commands/seal.js') },
  archive: { load: () => import('./commands/archive.js') },
  feed: {
    load: () => import('./commands/feed.js'),
  },
  setup: {
    shop: 'both',
    load: () => import('./commands/setup.js'),
  },
  revise: {
    shop: 'both',
    load: () => import('./commands/revise.js'),
  },
  trace: {
    shop: 'before',
    load: () => import('./commands/trace.js'),
  },
  daybook: {
    shop: 'both',
    load: () => import('./commands/daybook.js'),
  },
  ledger: {
    shop: 'before',
    load: () => import('./commands/ledger.js'),
  },
  figures: { shop: 'before', load: () => import('./commands/figures.js') },
  study: { load: () => import('./commands/study.js') },
  square: { load: () => import('./commands/square.js') },
  train: {
    shop: 'both',
    load: () => import('./commands/train.js'),
  },
  compare: {
    load: () => import('./commands/compare.js'),
  },
  init: { load: () => import('./commands/init.js') },
  new: { load: () => import('./commands/new.js') },
  demo: {
    load: () => import('./commands/demo.js'),
  },
  messages: {
    load: () => import('./commands/messages.js'),
  },
};

const io = (workshop: string, reader?: Reader): Io => ({
  ...(reader ? { reader } : {}),
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

async function main(argv: readonly string[]): Promise<number> {
  const language = localeLanguage(process.env);
  const args = [...argv];
  let workshop = process.env.PINCHROD_WORKSHOP ?? '.';
  // Before the verb or after it.
  for (let at = args.findIndex(isWorkshop); at >= 0; at = args.findIndex(isWorkshop)) {
    const [, inOne] = args[at]!.split(/=(.*)/s, 2);
    const value = inOne ?? args[at + 1];
    if (value === undefined || value === '') return used('main.usage/workshop');
    args.splice(at, inOne === undefined ? 2 : 1);
    workshop = value;
  }
  const first = args[0];
  if (first === '--help' || first === '-h' || first === 'help') {
    const { usage } = await import('./commands/usage.js');
    io(workshop).out(await usage(Object.keys(VERBS), language));
    return EXIT.done;
  }
  if (first === '--version') {
    io(workshop).out(`pinchrod ${PINCHROD_VERSION}` as Spoken);
    return EXIT.done;
  }
  const verb = first === undefined ? 'bench' : first;
  const command = Object.hasOwn(VERBS, verb) ? VERBS[verb] : undefined;
  if (!command) return noSuchVerb(verb);
  const words = args.slice(1);
  if (words.includes('--help') || words.includes('-h')) {
    const { helpOf } = await import('./commands/usage.js');
    io(workshop).out(await helpOf(verb, language));
    return EXIT.done;
  }
  const at = io(resolve(workshop), await readerIn(language));
  const inShop = command.shop !== undefined && existsSync(join(at.workshop, 'shop'));
  if (!inShop) return (await command.load()).run(words, at);
  const { shopFirst, shopAfter } = await import('./commands/shopfirst.js');
  await shopFirst(at);
  const code = await (await command.load()).run(words, at);
  if (command.shop === 'both') await shopAfter(at);
  return code;
}

const isWorkshop = (arg: string): boolean => arg === '--workshop' || arg.startsWith('--workshop=');

/** Undefined for English, which is there without being loaded. */
async function readerIn(language: string): Promise<Reader | undefined> {
  return language === 'en' ? undefined : (await import('./commands/reader.js')).readerOf(language);
}

async function noSuchVerb(verb: string): Promise<number> {
  const { nearestVerb } = await import('./commands/mainproblem.js');
  const near = nearestVerb(verb, Object.keys(VERBS));
  return near === undefined ? used('main.usage', { verb }) : used('main.usage/near', { verb, near });
}

async function used(...given: Parameters<typeof raiseMain>): Promise<number> {
  return said(EXIT.badInput, ...given);
}

async function said(code: number, ...given: Parameters<typeof raiseMain>): Promise<number> {
  const { raiseMain } = await import('./commands/mainproblem.js');
  const { problemTold } = await import('./base/problem.js');
  const reader = await readerIn(localeLanguage(process.env));
  io('.').err(problemTold(raiseMain(...given), reader?.tell));
  return code;
}

enableCompileCache(process.env, process.platform);
main(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
  },
  async (error: unknown) => {
    const { code, message } = error as NodeJS.ErrnoException;
    if (typeof code === 'string' && /^E[A-Z]+$/.test(code))
      process.exit(await said(EXIT.resource, 'main.resource', { fault: message }));
    await said(EXIT.resource, 'main.unexpected', { fault: String(message ?? error) });
    if (process.env.PINCHROD_TRACE) io('.').err(String((error as Error).stack) as Spoken);
    process.exit(EXIT.resource);
  },
);
