/**
 * When a running bench enters how far a journal has come: when a unit is opened, held, left, closed or sealed, and with
 * the first answer after a minute of work. Never before the journal's own lines are durable; where the register cannot
 * be written the work goes on, and the next entry catches up.
 */
import type { Problem } from '../base/problem.js';
import type { Disk } from '../store/disk.js';
import { enter } from '../store/register/enter.js';
import type { BenchBody, Occasion } from '../store/register/entries.js';
import { headProblem, knownOf } from '../store/register/heads.js';
import { benchFile, registerHeadOf } from '../store/register/place.js';
import type { Envelope, EventBody, JournalEvent, RegisterHead } from '../unit/events.js';
import type { UnitState } from '../unit/unitstate.js';

/** Work on a unit without an entry, ms. */
const EVERY_MS = 60_000;

interface Held {
  readonly job: string;
  readonly id: string;
  readonly state: UnitState;
}

export class Registering {
  /** Hash of the last line that was entered, by file, and when. */
  readonly #entered = new Map<
    string,
    { readonly hash: string; readonly at: number; readonly standing: string }
  >();
  #trouble: Problem | undefined;
  /** No entry is tried again before, ms. */
  #notBefore = Number.NEGATIVE_INFINITY;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
    private readonly bench: string,
    private readonly now: () => string,
    /** Monotonic, ms. */
    private readonly steady: () => number,
    /** Called with each file that got a line. */
    private readonly wroteTo: (file: string) => void = () => undefined,
  ) {}

  /** Why the last entry could not be written. */
  get trouble(): Problem | undefined {
    return this.#trouble;
  }

  /** What the bodies name of the register: a unit's first line and its closing one say how far it had come. */
  onto(bodies: readonly EventBody[]): readonly EventBody[] {
    if (!bodies.some(({ kind }) => CITES.has(kind))) return bodies;
    const register = this.#head();
    return register
      ? bodies.map((body) => (CITES.has(body.kind) ? ({ ...body, register } as EventBody) : body))
      : bodies;
  }

  /** After events were written. */
  wrote(held: Held, events: readonly JournalEvent[]): void {
    const before = this.#entered.get(fileOf(held));
    const { standing } = held.state;
    const on = occasionOf(
      events,
      standing,
      before?.standing,
      this.steady() - (before?.at ?? Number.NEGATIVE_INFINITY),
    );
    if (on && (on !== 'worked' || this.steady() >= this.#notBefore)) this.#unit(held, on, events.at(-1)!.by);
  }

  opened(held: Held): void {
    this.#unit(held, 'opened');
  }

  left(held: Held): void {
    this.#unit(held, 'left');
  }

  /** What the registers know of the unit's journal and is not there any more: it was cut off, written anew or removed. */
  contradicted(held: Held): Problem | undefined {
    const { events } = held.state;
    const file = fileOf(held);
    const expected = knownOf(this.disk, this.root, file).expected.get(file) ?? [];
    if (events.length === 0) return headProblem(file, expected, undefined);
    const hashes = new Map(events.map(({ n, hash }) => [n, hash]));
    return headProblem(file, expected, { lines: events.length, hashes });
  }

  #unit(held: Held, on: Occasion, by = 'nobody'): void {
    const file = fileOf(held);
    const last = held.state.events.at(-1);
    if (!last || this.#entered.get(file)?.hash === last.hash) return;
    if (this.journal(file, last, on, by))
      this.#entered.set(file, { hash: last.hash, at: this.steady(), standing: held.state.standing });
  }

  /** A journal's last line, which is durable. Returns whether it is entered. */
  journal(
    file: string,
    { n: events, hash }: Pick<Envelope, 'n' | 'hash'>,
    on: Occasion,
    by: string,
  ): boolean {
    if (on === 'set-up') this.wroteTo(file);
    return this.#enter([{ kind: 'heads', on, heads: [{ file, events, hash }] }], by) !== undefined;
  }

  #enter(bodies: readonly BenchBody[], by: string): RegisterHead | undefined {
    const entered = enter(this.disk, this.root, { by, at: this.now(), bench: this.bench }, bodies);
    this.#trouble = entered.ok ? undefined : entered.problems[0];
    if (entered.ok) {
      this.wroteTo(benchFile(this.bench));
      return entered.value;
    }
    this.#notBefore = this.steady() + EVERY_MS;
    return undefined;
  }

  /** The register's head; a register is begun where there is none. */
  #head(): RegisterHead | undefined {
    return registerHeadOf(this.disk, this.root, this.bench) ?? this.#enter([], 'nobody');
  }
}

const CITES: ReadonlySet<EventBody['kind']> = new Set(['opened', 'finished', 'scrapped']);

const fileOf = ({ job, id }: Held): string => `logs/${job}/${id}.jsonl`;

function occasionOf(
  events: readonly JournalEvent[],
  standing: string,
  before: string | undefined,
  since: number,
): Occasion | undefined {
  const has = (...kinds: readonly JournalEvent['kind'][]) => events.some(({ kind }) => kinds.includes(kind));
  if (has('sealed')) return 'sealed';
  if (has('finished', 'scrapped')) return 'closed';
  if (has('opened')) return 'opened';
  if (standing === 'held' && before !== 'held') return 'held';
  return since >= EVERY_MS ? 'worked' : undefined;
}
