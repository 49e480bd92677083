import { type ParseArgsConfig, parseArgs } from 'node:util';
import { EXIT, type Problem, problemFactory, problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import {
  type Catalogue,
  data,
  ENGLISH,
  type Reader,
  type Say,
  type Spoken,
  sayIn,
  type Tell,
} from '../base/words.js';
import { COMMAND_MESSAGES } from './catalogue.js';

export { EXIT };

const raise = problemFactory(COMMAND_MESSAGES);

/** A command's environment, passed in so that tests can run commands without a separate process. */
export interface Io {
  /** Writes one or more lines to standard output; adds the line end. */
  out(text: Spoken): void;
  err(text: Spoken): void;
  readonly workshop: string;
  /** Who reads it; somebody who reads English where nobody is named. */
  readonly reader?: Reader;
  /** Standard input for verbs that read it; defaults to the process's own. */
  readonly input?: NodeJS.ReadableStream;
}

export const tellOf = ({ reader }: Pick<Io, 'reader'>): Tell => reader?.tell ?? ENGLISH;

/** What files keep in English, for whoever reads; made safe to show. */
export const retold = ({ reader }: Pick<Io, 'reader'>, text: string): Spoken =>
  sanitize(reader?.retell(text) ?? text);

/** The words of a catalogue, for whoever reads. */
export const saying = <C extends Catalogue>(io: Pick<Io, 'reader'>, catalogue: C): Say<C> =>
  sayIn(catalogue, tellOf(io));

/** For programs: the same in every language. */
export const asJson = (value: unknown, indent?: number): Spoken => data(JSON.stringify(value, null, indent));

/** Lines of one output; each is made of words or data. */
export const asLines = (lines: readonly Spoken[]): Spoken => data(lines.join('\n'));

/** Further in, below what it belongs to. */
export const indented = (text: Spoken, by = 2): Spoken => data(' '.repeat(by) + text);

export interface CommandModule {
  run(args: string[], io: Io): Promise<number>;
}

// Strict option parsing: an unknown option is reported as bad input with advice, never as a stack trace.

type Values<O extends NonNullable<ParseArgsConfig['options']>> = ReturnType<
  typeof parseArgs<{ options: O; allowPositionals: true }>
>;

/** Returns an error message for bad usage. */
export function parseOptions<O extends NonNullable<ParseArgsConfig['options']>>(
  args: string[],
  options: O,
): Values<O> | string {
  try {
    return parseArgs({ args, allowPositionals: true, options }) as Values<O>;
  } catch (error) {
    return sanitize((error as Error).message.split('. ')[0]!);
  }
}

/** How a verb is used: the first line of its help. */
export const usageOf = (help: string): string => help.split('\n')[0]!;

/** Returns the exit code for bad usage. @param help the verb's help; its first line is the usage */
export function readOptions<O extends NonNullable<ParseArgsConfig['options']>>(
  args: string[],
  io: Io,
  help: string,
  options: O,
  words: { readonly least?: number; readonly most?: number } = {},
): Values<O> | number {
  const usage = usageOf(help);
  const read = parseOptions(args, options);
  if (typeof read === 'string') return wrong(raise('command.usage/option', { fault: read, usage }));
  const { least = 0, most = least } = words;
  const given = read.positionals.length;
  if (given < least) return wrong(raise('command.usage/missing', { usage }));
  if (given > most) return wrong(raise('command.usage/many', { word: read.positionals[most]!, usage }));
  return read;

  function wrong(problem: Problem): number {
    return fail(io, [problem], EXIT.badInput);
  }
}

/** The exit code for these problems: disk failures take precedence, then failed checks, then bad input. */
export function exitOf(problems: readonly Problem[]): number {
  const any = (pattern: RegExp) => problems.some(({ id }) => pattern.test(id));
  if (any(/^disk\.|^shop\.(unreachable|server-full|refused)$/)) return EXIT.resource;
  return any(
    /^(journal|source|verify|evidence)\.|^shop\.(journal-differs|line-broken|content-changed|lines-lost)$/,
  )
    ? EXIT.doesNotHold
    : EXIT.badInput;
}

/** Prints each problem and what to do about it. Returns the exit code. */
export function fail(io: Io, problems: readonly Problem[], code = exitOf(problems)): number {
  for (const problem of problems) io.err(problemTold(problem, io.reader?.tell));
  return code;
}
