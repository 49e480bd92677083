/**
 * The bench's loop: a store of state, one queue of messages, effects carried out at once through the ports. A key is
 * decided only after everything that the key before it asked for has been done, so what a person sees acknowledged is
 * on disk, and typing ahead is safe.
 */

import { flush, type Key, SPLIT_START, type SplitState, split } from './keys/split.js';
import type { Ports, World } from './ports.js';
import type { Effect, Message } from './protocol.js';
import { update } from './reducer.js';
import { spokenWorld } from './spoken.js';
import { type BenchState, START } from './state.js';

export interface Core {
  /** What the terminal sent. */
  feed(chunk: string | Uint8Array): void;
  /** The line has gone quiet after an unfinished sequence. */
  quiet(): void;
  /** Whether `quiet` is wanted. */
  waits(): boolean;
  keys(keys: readonly Key[]): void;
  tick(): void;
  /** Tells the ports what the next key may answer. To be called while nothing else is to be done; nothing changes by it. */
  foresee(): void;
  open(unit: string): void;
  state(): BenchState;
  world(): World;
  /** Goes up by one whenever state or world may have changed. */
  version(): number;
  /** Goes up only when something besides the entry line has: typing does not draw the whole screen again. */
  pageVersion(): number;
  subscribe(listener: () => void): () => void;
}

export function makeCore(ports: Ports, start: BenchState = START): Core {
  let state = start;
  let outside = ports.world();
  let world = spokenWorld(state, outside);
  let splitting: SplitState = SPLIT_START;
  let version = 0;
  let pageVersion = 0;
  let shown = { state, world };
  const listeners = new Set<() => void>();

  const now = (): number => Date.parse(world.now);

  function run(message: Message): void {
    const queue: Message[] = [message];
    for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
      const result = update(state, next, world);
      state = result.state;
      for (const effect of result.effects) {
        const answer = perform(effect);
        look();
        if (answer) queue.push(answer);
      }
      // Who is at the bench may have changed, and with them the language.
      world = spokenWorld(state, outside);
    }
  }

  /** The world as the person at the bench reads it. */
  function look(): void {
    outside = ports.world();
    world = spokenWorld(state, outside);
  }

  function perform(effect: Effect): Message | undefined {
    switch (effect.kind) {
      case 'act': {
        const acted = ports.act(effect.action, { person: state.person, inHand: state.inHand });
        return { kind: 'result', of: 'act', action: effect.action, acted };
      }
      case 'open': {
        const result = ports.open(effect.unit, state.person);
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

  function changed(): void {
    version += 1;
    if (!samePage(shown, { state, world })) pageVersion += 1;
    shown = { state, world };
    for (const listener of listeners) listener();
  }

  function keys(list: readonly Key[]): void {
    for (const key of list) {
      if (state.left) break;
      look();
      run({ kind: 'key', key, at: now() });
    }
    if (list.length > 0) changed();
  }

  return {
    feed(chunk) {
      const result = split(splitting, chunk);
      splitting = result.state;
      keys(result.keys);
    },
    quiet() {
      const result = flush(splitting);
      splitting = result.state;
      keys(result.keys);
    },
    waits: () => splitting.pending !== '',
    keys,
    tick() {
      const before = state;
      look();
      run({ kind: 'tick', at: now() });
      if (state !== before || world.open) changed();
    },
    foresee() {
      if (!ports.foresee || state.left || state.screen.name !== 'step' || !world.open) return;
      const actions = ANSWERING.flatMap((name) =>
        update(state, { kind: 'key', key: { name }, at: now() }, world).effects.flatMap((effect) =>
          effect.kind === 'act' ? [effect.action] : [],
        ),
      );
      ports.foresee(actions, { person: state.person, inHand: state.inHand });
    },
    open(unit) {
      const effect: Effect = { kind: 'open', unit };
      const answer = perform(effect);
      look();
      if (answer) run(answer);
      changed();
    },
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

/** The keys by which a check is answered: yes, no, and what was typed or is marked. */
const ANSWERING = ['right', 'left', 'enter'] as const;

interface Shown {
  readonly state: BenchState;
  readonly world: World;
}

/** Whether two moments look the same but for the entry line. The board is narrowed by what is typed, so it never does. */
function samePage(a: Shown, b: Shown): boolean {
  return (
    a.state.screen === b.state.screen &&
    (a.state.screen.name !== 'units' || a.state.entry === b.state.entry) &&
    a.state.back === b.state.back &&
    a.state.note === b.state.note &&
    a.state.person === b.state.person &&
    a.state.second === b.state.second &&
    a.state.inHand === b.state.inHand &&
    a.state.at === b.state.at &&
    a.world.open === b.world.open &&
    a.world.board === b.world.board &&
    a.world.rules === b.world.rules
  );
}
