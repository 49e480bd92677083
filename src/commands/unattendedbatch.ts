/**
 * Builds all units of a job as a batch, by the bench's keys: a step is walked over its units. What must follow within an
 * open time is done unit by unit.
 */
import type { Message } from '../base/words.js';
import type { RouteStep } from '../procedure/types.js';
import type { StageRow } from '../unit/board.js';
import { type Building, KeyBuilder, makingWords, type Tally, waitUntil } from './unattended.js';

const BY_STAGE = '\u0006';
const DOWN = '\u001b[B';
const ENTER = '\r';
const ESC = '\u001b';

/** A sentence if it got stuck. */
export function buildBatch(building: Building, job: string, tally: Tally): Message | string | undefined {
  const batch = new Batch(building, job, tally);
  for (;;) {
    const done = batch.walkOne() ?? batch.sealOne() ?? batch.waitForOne();
    if (done !== 'acted') return done === 'finished' ? undefined : done.stuck;
  }
}

type Done = 'acted' | 'finished' | { readonly stuck: Message | string };

class Batch {
  readonly #building: Building;
  readonly #job: string;
  readonly #builder: KeyBuilder;
  /** The step whose walk ended as it began. */
  #last = '';
  /** By id in the procedure: a step as the first unit that has it shows it. */
  readonly #steps = new Map<string, RouteStep>();

  constructor(building: Building, job: string, tally: Tally) {
    this.#building = building;
    this.#job = job;
    this.#builder = new KeyBuilder(building, tally);
  }

  /** Walks the first step that can be walked over all its units; undefined if there is none. */
  walkOne(): Done | undefined {
    const rows = this.#rows();
    const at = rows.findIndex((row) => unitsOf(row).length > 0 && !this.#isTimed(row));
    if (at < 0) return undefined;
    this.#builder.press(...Array<string>(at + 1).fill(DOWN), ENTER);
    const { core } = this.#building;
    // What stood for all of its units has been taken over already.
    const { base } = rows[at]!;
    if (!core.state().walk && base === this.#last)
      return { stuck: makingWords('demo-no-walk', { step: base }) };
    this.#last = core.state().walk ? '' : base;
    while (core.state().walk) {
      this.#learn();
      // A frame as it was measured is looked at, and left.
      if (core.state().screen.name === 'measured') {
        this.#builder.press(ESC);
        continue;
      }
      const moved = this.#builder.move(core.state().walk!.units[0]!.step);
      if (moved === 'acted') continue;
      if (moved === 'finished') break;
      // Nothing more can be done here now: another unit's turn.
      if ('until' in moved) break;
      return moved;
    }
    return 'acted';
  }

  /** Takes one unit through what runs against a clock, and its holds; undefined if no unit waits for that. */
  sealOne(): Done | undefined {
    const rows = this.#rows();
    const row = rows.find((each) => unitsOf(each).length > 0 || each.held.length > 0);
    const unit = row && [...unitsOf(row), ...row.held][0]?.unit;
    if (unit === undefined) return undefined;
    this.#builder.press(`${this.#job}/${unit}${ENTER}`);
    for (let moves = 0; ; moves += 1) {
      this.#learn();
      const moved = this.#builder.move();
      if (moved === 'finished') return 'acted';
      if (moved !== 'acted') return 'until' in moved ? (moves > 0 ? 'acted' : undefined) : moved;
      const { state } = this.#building.core.world().open!;
      const runs = state.timers.some(({ kind }) => kind === 'not-after');
      const waits = [...state.steps.values()].some(({ status }) => status === 'held');
      if (!runs && !waits) return 'acted';
    }
  }

  /** Nothing can be done: time goes on until the first thing has cured. */
  waitForOne(): Done {
    const { core } = this.#building;
    let soonest: string | undefined;
    for (const { unit, job, standing } of core.world().board) {
      if (job !== this.#job || standing === 'finished') continue;
      this.#builder.press(`${job}/${unit}${ENTER}`);
      const cure = core
        .world()
        .open!.state.timers.filter(({ kind }) => kind === 'not-before')
        .map(({ until }) => until)
        .sort()[0];
      if (cure === undefined) return { stuck: makingWords('demo-no-cure', { unit }) };
      if (soonest === undefined || cure < soonest) soonest = cure;
    }
    if (soonest === undefined) return 'finished';
    waitUntil(this.#building, soonest);
    return 'acted';
  }

  #rows(): readonly StageRow[] {
    const { core } = this.#building;
    for (let i = 0; i < 3 && (i === 0 || core.state().screen.name !== 'stages'); i += 1)
      this.#builder.press(BY_STAGE);
    return core.world().more?.stages() ?? [];
  }

  #learn(): void {
    for (const step of this.#building.core.world().open?.state.route.steps ?? [])
      if (!this.#steps.has(step.base)) this.#steps.set(step.base, step);
  }

  /** Whether it runs against an open time, or waits for somebody who releases it. */
  #isTimed({ base }: StageRow): boolean {
    const step = this.#steps.get(base);
    if (!step) return false;
    const clocks = new Set([...this.#steps.values()].flatMap(({ notAfter }) => nameOf(notAfter?.feature)));
    const held = step.hold !== undefined && step.hold.release === undefined && step.hold.rhythm === undefined;
    return (
      held ||
      step.notAfter !== undefined ||
      step.makes.some((each) => nameOf(each).some((n) => clocks.has(n)))
    );
  }
}

/** Without its light or divider. */
const nameOf = (feature: string | undefined): string[] =>
  feature === undefined ? [] : [feature.replace(/@.*/, '')];

const unitsOf = ({ open, notStarted = [] }: StageRow) => [...open, ...notStarted];
