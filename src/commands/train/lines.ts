/** Lines that a person types or a script sends: the same for both, with a prompt where somebody sits there. */
import { createInterface } from 'node:readline';
import { type Problem, problemText } from '../../ground/problem.js';
import type { Io } from '../io.js';

/** What the drills get besides arguments; tests give their own. */
export interface Session {
  /** Typed lines; ends with the input. */
  readonly lines: AsyncIterable<string>;
  /** Somebody sits at a terminal. */
  readonly person: boolean;
  /** UTC, ISO 8601 with milliseconds. */
  now(): string;
  /** A whole number for a drill that was given no seed. */
  seed(): number;
}

/** A drill as the conversation sees it. */
export interface Conversation {
  readonly over: boolean;
  readonly help: readonly string[];
  readonly prompt: string;
  /** One typed line; what is said back. */
  type(line: string): { readonly says: readonly string[] } | { readonly problem: Problem };
}

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

/** Standard input, the wall clock and chance. */
export function realSession(): Session {
  return {
    lines: createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY }),
    person: process.stdin.isTTY === true && process.stdout.isTTY === true,
    now: () => new Date().toISOString(),
    seed: () => Date.now() % 1_000_000,
  };
}
