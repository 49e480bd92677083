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
export interface Command {
  run(args: string[], io: Io): Promise<number>;
}
