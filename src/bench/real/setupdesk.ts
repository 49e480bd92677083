/** Set-ups as the bench has them: how they stand, proving and ending them, and what was made under one that turned out wrong. */
import type { WorkshopAction } from '../../build/actions.js';
import { type InDoubt, type SetupStanding, unitsInDoubt, validSetups } from '../../build/setups.js';
import type { Surroundings } from '../../build/types.js';
import type { Result } from '../../ground/problem.js';
import type { Disk } from '../../store/disk.js';
import { StoreError } from '../../store/diskproblem.js';
import { readEvents } from '../../store/journal.js';
import type { Workshop } from '../../store/workshop.js';
import type { Acted, SetupRow } from '../ports.js';
import { type Board, materialsOf } from './board.js';
import { ruleOf, type SetupActed, SetupBook } from './setupbook.js';

/** How often the list of set-ups is worked out anew while nothing was written, ms. */
const FRESH_MS = 30_000;

export class SetupDesk {
  readonly #book: SetupBook;
  #rows: { readonly at: number; readonly rows: readonly SetupRow[] } | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {
    this.#book = new SetupBook(disk, root);
  }

  /** How the set-ups stand; undefined where the workshop asks for none. */
  standings(
    workshop: Workshop,
    look: () => Board,
    now: string,
  ): Result<readonly SetupStanding[]> | undefined {
    const { setups } = workshop;
    return setups && this.#book.standings(setups, () => materialsOf(look()).uses, now);
  }

  /** For a list on the screen: kept for a while, and until something is written. */
  rows(workshop: Workshop, look: () => Board, now: string): readonly SetupRow[] {
    const at = Date.parse(now);
    if (this.#rows && Math.abs(at - this.#rows.at) < FRESH_MS) return this.#rows.rows;
    const standings = this.standings(workshop, look, now);
    const rows = (standings?.ok ? standings.value : []).map((standing): SetupRow => {
      const inDoubt = standing.valid ? undefined : this.inDoubt(standing.rule.id, look());
      return { standing, ...(inDoubt ? { inDoubt } : {}) };
    });
    this.#rows = { at, rows };
    return rows;
  }

  forget(): void {
    this.#rows = undefined;
  }

  /** For a decision: the valid ones, as they are on disk now. */
  valid(workshop: Workshop, uses: () => ReadonlyMap<string, number>, now: string) {
    const standings = this.#book.standings(workshop.setups ?? [], uses, now);
    if (!standings.ok) throw new StoreError(standings.problems[0]!);
    return validSetups(standings.value);
  }

  firstOff(
    workshop: Workshop,
    { setup, values, confirmed, note }: Extract<WorkshopAction, { do: 'first-off' }>,
    around: Surroundings,
  ): SetupActed {
    const rule = ruleOf(workshop.setups, setup);
    if (!rule.ok) return { kind: 'refused', problem: rule.problems[0]! };
    const whole = Object.fromEntries(
      Object.entries(values).map(([check, value]) => [
        check.includes('/') ? check : `setup.${setup}/${check}`,
        value,
      ]),
    );
    this.forget();
    return this.#book.firstOff(rule.value, whole, around, {
      ...(confirmed === undefined ? {} : { confirmed }),
      ...(note === undefined ? {} : { note }),
    });
  }

  end(
    workshop: Workshop,
    { setup, why, note }: Extract<WorkshopAction, { do: 'end-setup' }>,
    around: Surroundings,
  ): SetupActed {
    const rule = ruleOf(workshop.setups, setup);
    if (!rule.ok) return { kind: 'refused', problem: rule.problems[0]! };
    this.forget();
    return this.#book.end(rule.value, why, around, note);
  }

  /** What was made under a set-up since its last good first-off, where the last one failed. */
  inDoubt(setup: string, board: Board): InDoubt | undefined {
    const events = this.#book.events();
    if (!events.ok) return undefined;
    const touched = board.units.filter(({ digest }) =>
      Object.keys(digest.uses).some((id) => id.startsWith(`${setup}-`)),
    );
    const traced = touched.flatMap(({ job, unit }) => {
      const read = readEvents(this.disk, this.root, job, unit);
      return read.ok ? [{ job, unit, events: read.value }] : [];
    });
    return unitsInDoubt(setup, events.value, traced);
  }
}

/** The snag that each of them gets. */
export const setupSnag = (setup: string, { failed, lastGood }: InDoubt) => ({
  do: 'snag' as const,
  severity: 'major' as const,
  cause: 'set-up',
  text: `made under ${lastGood}; the first-off ${failed} of ${setup} failed`,
  ...(lastGood === undefined ? {} : { setup: lastGood }),
});

/** As the bench is told of everything that was written. */
export const actedOf = (acted: SetupActed): Acted =>
  acted.kind === 'done' ? { kind: 'done', events: [acted.event] } : acted;
