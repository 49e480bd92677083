import { type ParseArgsConfig, parseArgs } from 'node:util';
import { type Problem, problemText } from '../base/problem.js';
import { sanitize } from '../base/text.js';

/** What every command gets beside its arguments, so that tests can run one without a process of its own. */
export interface Io {
  /** One line (or more) for standard output; the line end is added. */
  out(text: string): void;
  err(text: string): void;
  /** The workshop's folder. */
  readonly workshop: string;
  /** Standard input, where a verb reads it; absent: the process's own. */
  readonly input?: NodeJS.ReadableStream;
}

/** Exit codes, the same for every command. */
export const EXIT = { done: 0, doesNotHold: 1, badInput: 2, resource: 3 } as const;

/** A verb: its file exports this. */
export interface CommandModule {
  run(args: string[], io: Io): Promise<number>;
}

// A verb's options, read strictly: an unknown one is bad input with a way out, never a stack trace.

type Values<O extends NonNullable<ParseArgsConfig['options']>> = ReturnType<
  typeof parseArgs<{ options: O; allowPositionals: true }>
>;

/** The options and the bare words, or what is wrong with them. */
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

/** The options and the bare words, or the exit code where they are wrong. @param help the verb's; its first line says how it is used */
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

/** What a verb ends with for these problems: the disk's failure first, then what does not hold, then bad input. */
export function exitOf(problems: readonly Problem[]): number {
  const any = (pattern: RegExp) => problems.some(({ id }) => pattern.test(id));
  if (any(/^disk\./)) return EXIT.resource;
  return any(/^(journal|source|verify|evidence)\./) ? EXIT.doesNotHold : EXIT.badInput;
}

/** Says the problems, each with its way out. Gives the exit code. */
export function fail(io: Io, problems: readonly Problem[], code = exitOf(problems)): number {
  for (const problem of problems) io.err(problemText(problem));
  return code;
}
