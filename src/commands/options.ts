/** A verb's options, read strictly: an unknown one is bad input with a way out, never a stack trace. */
import { type ParseArgsConfig, parseArgs } from 'node:util';
import { plain } from '../base/text.js';
import { EXIT, type Io } from './io.js';

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
    return plain((error as Error).message.split('. ')[0]!);
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
  if (given > most) return wrong(`"${plain(read.positionals[most]!)}" is one word too many.`);
  return read;

  function wrong(text: string): number {
    io.err(`${text} [command.usage]\n  ${help.split('\n')[0]}`);
    return EXIT.badInput;
  }
}
