/**
 * The main loop: holds the state, runs one message queue, and carries out effects synchronously through the ports. A
 * key is handled only after all effects of the previous key are done, so whatever a person sees acknowledged is on
 * disk, and typing ahead is safe.
 */
import { type Problem, problemFactory } from '../base/problem.js';
import { BENCH_MESSAGES } from '../session/messages.js';
import type { Ports, World } from '../session/ports.js';
import { type Key, KeyReader } from './keys/split.js';
import { commandOf } from './keys/table.js';
import { localizedWorld } from './language.js';
import { withNews } from './news.js';
import type { BenchMessage, Effect } from './protocol.js';
import { update } from './reducer.js';
import { screenOn } from './screens/screens.js';
import { type BenchState, START } from './state.js';
import { problemSaid, wordsRead } from './words/told.js';

const raise = problemFactory(BENCH_MESSAGES);
/** After this many faults on one unit the bench only accepts the key that leaves. */
const MOST_FAULTS = 4;

export interface Core {
  feed(chunk: string | Uint8Array): void;
  /** Call when no more input follows an unfinished sequence. */
  quiet(): void;
  waits(): boolean;
  keys(keys: readonly Key[]): void;
  tick(): void;
  /** Something outside has changed. */
  news(): void;
  open(unit: string): void;
  /** Reports that rendering threw. */
  undrawable(error: unknown): void;
  /** Program faults since a unit was opened; a failed render is retried when this goes up. */
  faults(): number;
  state(): BenchState;
  world(): World;
  /** Goes up whenever state or world may have changed. */
  version(): number;
  /** Goes up only when something besides the entry line changed, so typing does not redraw the whole screen. */
  pageVersion(): number;
  subscribe(listener: () => void): () => void;
}

export function makeCore(ports: Ports, start: BenchState = START): Core {
  let state = start;
  let outside = ports.world();
  let world = localizedWorld(state, outside);
  const reader = new KeyReader();
  let version = 0;
  let pageVersion = 0;
  let shown = { state, world };
  const listeners = new Set<() => void>();
  let faults = 0;

  const now = (): number => Date.parse(world.now);

  function run(message: BenchMessage): void {
    const queue: BenchMessage[] = [message];
    for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
      const result = update(state, next, world);
      state = result.state;
      for (const effect of result.effects) {
        const answer = perform(effect);
        look();
        if (answer) queue.push(answer);
      }
      // The person at the bench may have changed, and with them the language.
      world = localizedWorld(state, outside);
    }
  }

  /** Refreshes the world, in the language of the person at the bench. */
  function look(): void {
    outside = ports.world();
    world = localizedWorld(state, outside);
  }

  function perform(effect: Effect): BenchMessage | undefined {
    switch (effect.kind) {
      case 'act': {
        const acted = ports.act(effect.action, {
          person: state.person,
          inHand: state.inHand,
          reads: wordsRead(world),
        });
        return { kind: 'result', of: 'act', action: effect.action, acted };
      }
      case 'open': {
        const result = ports.open(effect.unit, state.person);
        faults = 0;
        if (result.kind === 'asked') return { kind: 'result', of: 'open', unit: effect.unit, asked: true };
        return {
          kind: 'result',
          of: 'open',
          unit: effect.unit,
          ...(result.kind === 'failed' ? { problem: result.problem } : {}),
        };
      }
      case 'refresh':
        ports.refresh();
        return undefined;
      case 'close':
        ports.close();
        return undefined;
    }
  }

  /**
   * Handles a bug in a decision or a render. Whatever was acknowledged is on disk, so the unit is reloaded from there;
   * after a second fault it is read-only, after a third it is closed. Must not throw.
   */
  function recover(error: unknown): void {
    faults += 1;
    const problem = faultOf(error, faults);
    const { person, seconds, said, inHand, lastFor, lastKey } = state;
    state = {
      ...START,
      seconds,
      lastFor,
      ...(inHand !== undefined && { inHand }),
      ...(person !== undefined && { person }),
      ...(said && { said }),
      ...(lastKey && { lastKey }),
    };
    try {
      if (faults === 1) ports.reread();
      else if (faults === 2) ports.reread(problem);
      else ports.close();
      look();
      if (world.open) run({ kind: 'result', of: 'open', unit: world.open.id });
    } catch (second) {
      if (faults < MOST_FAULTS) recover(second);
      return;
    }
    const [text, todo] = problemSaid(problem, world);
    state = { ...state, note: { tone: 'bad', text, todo } };
  }

  /** Runs `work`, recovering from an exception. Returns whether there was none. */
  function guarded(work: () => void): boolean {
    try {
      work();
      return true;
    } catch (error) {
      recover(error);
      return false;
    }
  }

  function changed(): void {
    version += 1;
    if (!samePage(shown, { state, world })) pageVersion += 1;
    shown = { state, world };
    for (const listener of listeners) listener();
  }

  function keys(list: readonly Key[]): void {
    for (const key of list) {
      if (state.left) break;
      // After a fault, the leave key works on the first press.
      if (faults > 0 && commandOf(key.name)?.id === 'leave') state = { ...state, left: true };
      if (state.left || faults >= MOST_FAULTS) continue;
      const went = guarded(() => {
        look();
        run({ kind: 'key', key, at: now() });
      });
      // Keys typed ahead were meant for another screen.
      if (!went) break;
    }
    if (list.length > 0) changed();
  }

  return {
    feed: (chunk) => keys(reader.feed(chunk)),
    quiet: () => keys(reader.quiet()),
    waits: () => reader.waits(),
    keys,
    tick() {
      if (faults >= MOST_FAULTS) return;
      const before = state;
      guarded(() => {
        look();
        run({ kind: 'tick', at: now() });
      });
      if (state !== before || world.open) changed();
    },
    news() {
      const before = world;
      if (faults >= MOST_FAULTS || !guarded(look)) return;
      state = withNews(state, before, world);
      changed();
    },
    open(unit) {
      guarded(() => {
        const answer = perform({ kind: 'open', unit });
        look();
        if (answer) run(answer);
      });
      changed();
    },
    undrawable(error) {
      recover(error);
      changed();
    },
    faults: () => faults,
    state: () => state,
    world: () => world,
    version: () => version,
    pageVersion: () => pageVersion,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

function faultOf(error: unknown, faults: number): Problem {
  const id = faults === 1 ? 'bench.reread' : faults === 2 ? 'bench.look-only' : 'bench.let-go';
  return raise(id, { fault: String((error as Error)?.message ?? error) });
}

interface Shown {
  readonly state: BenchState;
  readonly world: World;
}

/** Whether two states look the same apart from the entry line, where that filters nothing. */
function samePage(a: Shown, b: Shown): boolean {
  return (
    a.state.screen === b.state.screen &&
    (!screenOn(a.state).filtered || a.state.entry === b.state.entry) &&
    a.state.back === b.state.back &&
    a.state.note === b.state.note &&
    a.state.person === b.state.person &&
    a.state.seconds === b.state.seconds &&
    a.state.inHand === b.state.inHand &&
    a.state.at === b.state.at &&
    a.world.open === b.world.open &&
    a.world.board === b.world.board &&
    a.world.rules === b.world.rules &&
    a.world.shop?.waiting === b.world.shop?.waiting &&
    a.world.shop?.down === b.world.shop?.down
  );
}
