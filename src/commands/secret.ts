/** Lines that nobody else shall read: without echo at a terminal, never as an argument. */
import { createInterface, type Interface } from 'node:readline';
import { Writable } from 'node:stream';
import type { Spoken } from '../base/words.js';
import type { Io } from './io.js';

/** @param person somebody types at a terminal */
export const hiddenLines = (from: NodeJS.ReadableStream, person: boolean): Interface =>
  createInterface({
    input: from,
    ...(person
      ? { output: new Writable({ write: (_chunk, _encoding, done) => done() }), terminal: true }
      : {}),
  });

/** From the command's input; at a terminal what is asked for is told there. */
export function secretsOf(io: Io): Secrets {
  const input = io.input ?? process.stdin;
  const atTerminal = input === process.stdin && process.stdin.isTTY === true;
  return new Secrets(input, atTerminal, (text) => {
    if (atTerminal) io.err(text);
  });
}

export class Secrets {
  readonly #lines: Interface;
  readonly #waiting: ((line: string | undefined) => void)[] = [];
  readonly #come: string[] = [];
  #over = false;

  constructor(
    from: NodeJS.ReadableStream,
    person: boolean,
    private readonly say: (text: Spoken) => void,
  ) {
    this.#lines = hiddenLines(from, person);
    this.#lines.on('line', (line) => {
      const next = this.#waiting.shift();
      if (next) next(line);
      else this.#come.push(line);
    });
    this.#lines.on('close', () => {
      this.#over = true;
      for (const next of this.#waiting.splice(0)) next(undefined);
    });
  }

  /** The next line; undefined if there is none. */
  ask(text: Spoken): Promise<string | undefined> {
    this.say(text);
    const there = this.#come.shift();
    if (there !== undefined || this.#over) return Promise.resolve(there?.trim());
    return new Promise((resolve) => this.#waiting.push((line) => resolve(line?.trim())));
  }

  close(): void {
    this.#lines.close();
  }
}
