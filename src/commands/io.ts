import { type ParseArgsConfig, parseArgs } from 'node:util';
import { EXIT, type Problem, problemText } from '../base/problem.js';
import { sanitize } from '../base/text.js';

export { EXIT };

/** A command's environment, passed in so that tests can run commands without a separate process. */
export interface Io {
  /** Writes one or more lines to standard output; adds the line end. */
  out(text: string): void;
  err(text: string): void;
  readonly workshop: string;
  /** Standard input for verbs that read it; defaults to the process's own. */
  readonly input?: NodeJS.ReadableStream;
}

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

/** Returns the exit code for bad usage. @param help the verb's help; its first line is the usage */
export function readOptions<O extends NonNullable<ParseArgsConfig['options']>>(
  args: string[],
  io: Io,
  help: string,
  options: O,
  words: { readonly least?: number; readonly most?: number } = {},
): Values<O> | number {
  const read = parseOptions(args, options);
  if (typeof read === 'string') return wrong(read);
  const { least = 0, most = least } = words;
  const given = read.positionals.length;
  if (given < least) return wrong('Something is missing.');
  if (given > most) return wrong(`"${sanitize(read.positionals[most]!)}" is one word too many.`);
  return read;

  function wrong(text: string): number {
    io.err(`${text} [command.usage]\n  ${help.split('\n')[0]}`);
    return EXIT.badInput;
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
  for (const problem of problems) io.err(problemText(problem));
  return code;
}
