/** Lines that a person types or a script sends: the same for both, with a prompt where somebody sits there. */
import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';
import { problemText } from '../../base/problem.js';
import type { Talk } from '../../tui/practice/run.js';
import type { Io } from '../io.js';

/** What the drills get besides arguments; tests give their own. */
export interface Session {
  /** Typed lines; ends with the input. */
  readonly lines: AsyncIterable<string>;
  /** Somebody sits at a terminal. */
  readonly person: boolean;
  /** Plays a conversation on the whole screen; absent where there is none, or plain lines are wanted. */
  readonly fullScreen?: (talk: Conversation, opening: readonly string[]) => Promise<boolean>;
  /** One line that is not shown while it is typed. */
  secret(): Promise<string | undefined>;
  /** UTC, ISO 8601 with milliseconds. */
  now(): string;
  /** A whole number for a drill that was given no seed. */
  seed(): number;
}

/** A drill as a conversation: the full screen plays the same one. */
export type Conversation = Talk;

/**
 * Talks until the drill is over or the input ends. As text, or with `json` one JSON object for each line.
 * Gives whether every line was understood.
 */
export async function converse(
  talk: Conversation,
  opening: readonly string[],
  session: Session,
  io: Io,
  json: boolean,
): Promise<boolean> {
  let understood = true;
  if (session.fullScreen && !json) return session.fullScreen(talk, opening);
  if (json) io.out(JSON.stringify({ task: opening }));
  else io.out(opening.join('\n'));
  if (talk.over) return understood;
  const prompt = () => {
    if (session.person && !json) process.stdout.write(`${talk.prompt}> `);
  };
  prompt();
  for await (const raw of session.lines) {
    const line = raw.trim();
    if (line === '') {
      prompt();
      continue;
    }
    if (/^(quit|exit)$/i.test(line)) break;
    if (/^(help|\?)$/i.test(line)) {
      if (json) io.out(JSON.stringify({ ok: true, says: talk.help }));
      else io.out(talk.help.join('\n'));
      prompt();
      continue;
    }
    const answer = talk.type(line);
    if ('problem' in answer) {
      understood = false;
      const { id, text, todo } = answer.problem;
      if (json) io.out(JSON.stringify({ ok: false, refused: { id, text, todo } }));
      else io.err(problemText(answer.problem));
    } else if (json) io.out(JSON.stringify({ ok: true, says: answer.says }));
    else if (answer.says.length > 0) io.out(answer.says.join('\n'));
    if (talk.over) break;
    prompt();
  }
  return understood;
}

/**
 * Standard input (or the one given), the wall clock and chance. The full screen's code is loaded only where there is one
 * to draw on.
 */
export function realSession(options: {
  readonly plain: boolean;
  readonly input?: NodeJS.ReadableStream | undefined;
}): Session {
  const { stdout, env, platform } = process;
  const stdin = options.input ?? process.stdin;
  const person = stdin === process.stdin && process.stdin.isTTY === true && stdout.isTTY === true;
  const whole = person && !options.plain && env.TERM !== 'dumb';
  return {
    lines: {
      // Opened when the first line is asked for: before that the screen has standard input.
      [Symbol.asyncIterator]: () =>
        createInterface({ input: stdin, crlfDelay: Number.POSITIVE_INFINITY })[Symbol.asyncIterator](),
    },
    person,
    ...(whole
      ? {
          fullScreen: async (talk, opening) => {
            // The terminal library draws nothing where this is set.
            env.CI = 'false';
            const [{ runTalk }, { themeFrom }] = await Promise.all([
              import('../../tui/practice/run.js'),
              import('../../tui/theme.js'),
            ]);
            return runTalk(talk, opening, themeFrom(env, platform));
          },
        }
      : {}),
    secret: () => secretLine(stdin, person),
    now: () => new Date().toISOString(),
    seed: () => Date.now() % 1_000_000,
  };
}

/** The first line of the input; at a terminal without an echo. */
function secretLine(from: NodeJS.ReadableStream, person: boolean): Promise<string | undefined> {
  const input = createInterface({
    input: from,
    ...(person
      ? { output: new Writable({ write: (_chunk, _encoding, done) => done() }), terminal: true }
      : {}),
  });
  return new Promise((resolve) => {
    input.once('line', (line) => {
      resolve(line);
      input.close();
    });
    input.once('close', () => resolve(undefined));
  });
}
