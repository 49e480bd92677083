/** Set-ups at the bench: their standing, proving and ending them, and what was made under one that failed. */
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { type Disk, StoreError } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { appendSetupLog, readSetupLog, setupJournalOf } from '../store/setups.js';
import type { Workshop } from '../store/workshop.js';
import type { WorkshopAction } from '../unit/actions.js';
import { bestTool, passingValue } from '../unit/autopilot.js';
import { dayNow } from '../unit/day.js';
import { type Basis, type EventBody, type JournalEvent, onBasis, type setupEnds } from '../unit/events.js';
import type { Value } from '../unit/judge.js';
import { ALONE, isValid, levelOf } from '../unit/people.js';
import {
  decideFirstOff,
  decideSetupEnd,
  type InDoubt,
  type SetupRule,
  type SetupStanding,
  setupStandings,
  unitsInDoubt,
  validSetups,
} from '../unit/setups.js';
import type { DecisionContext, Question } from '../unit/types.js';
import type { BasisKeeper } from './basis.js';
import { type Board, materialsOf } from './board.js';
import { BENCH_MESSAGES } from './messages.js';
import type { Acted, Ports, SetupRow } from './ports.js';
import type { Registering } from './registering.js';
import { sessionSays } from './words.js';

/** How long the list of set-ups is cached while nothing is written, ms. */
const FRESH_MS = 30_000;

export class SetupDesk {
  readonly #book: SetupBook;
  #rows: { readonly at: number; readonly rows: readonly SetupRow[] } | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
    private readonly basis: BasisKeeper,
    register: Registering,
  ) {
    this.#book = new SetupBook(disk, root, register);
  }

  /** Undefined if the workshop requires no set-ups. */
  standings(
    workshop: Workshop,
    look: () => Board,
    now: string,
  ): Result<readonly SetupStanding[]> | undefined {
    const { setups } = workshop;
    return setups && this.#book.standings(setups, () => materialsOf(look()).uses, now);
  }

  /** For an on-screen list: cached for a while, until something is written. */
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

  /** For a decision: the valid ones, read from disk now. */
  valid(workshop: Workshop, uses: () => ReadonlyMap<string, number>, now: string) {
    const standings = this.#book.standings(workshop.setups ?? [], uses, now);
    if (!standings.ok) throw new StoreError(standings.problems[0]!);
    return validSetups(standings.value);
  }

  firstOff(
    workshop: Workshop,
    { setup, values, with: tools, confirmed, note }: Extract<WorkshopAction, { do: 'first-off' }>,
    context: DecisionContext,
  ): SetupActed {
    const rule = ruleOf(workshop.setups, setup);
    if (!rule.ok) return { kind: 'refused', problem: rule.problems[0]! };
    const whole = (given: Readonly<Record<string, string>>) =>
      Object.fromEntries(
        Object.entries(given).map(([check, value]) => [
          check.includes('/') ? check : `setup.${setup}/${check}`,
          value,
        ]),
      );
    this.forget();
    return this.#book.firstOff(rule.value, whole(values), context, {
      with: whole(tools ?? {}),
      ...(confirmed === undefined ? {} : { confirmed }),
      ...(note === undefined ? {} : { note }),
      restsOn: () => this.basis.ofFirstOff(workshop, context.workshop.people),
    });
  }

  end(
    workshop: Workshop,
    { setup, why, note }: Extract<WorkshopAction, { do: 'end-setup' }>,
    context: DecisionContext,
  ): SetupActed {
    const rule = ruleOf(workshop.setups, setup);
    if (!rule.ok) return { kind: 'refused', problem: rule.problems[0]! };
    this.forget();
    return this.#book.end(rule.value, why, context, note);
  }

  /** If the last first-off failed: what was made under the set-up since its last good one. */
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

/** The snag raised on each of those units. */
export const setupSnag = (setup: string, { failed, lastGood }: InDoubt) => ({
  do: 'snag' as const,
  severity: 'major' as const,
  cause: 'set-up',
  text:
    lastGood === undefined
      ? sessionSays('made-under-none', { failed, setup })
      : sessionSays('made-under', { lastGood, failed, setup }),
  ...(lastGood === undefined ? {} : { setup: lastGood }),
});

/** Converts to the bench's result type, with the event as a list. */
export const actedOf = (acted: SetupActed): Acted =>
  acted.kind === 'done' ? { kind: 'done', events: [acted.event] } : acted;

// The workshop's set-ups on disk: standing, first-offs, and what ends them.

const raise = problemFactory(BENCH_MESSAGES);

export type SetupActed =
  | { readonly kind: 'done'; readonly event: JournalEvent }
  | { readonly kind: 'ask'; readonly question: Question }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'failed'; readonly problem: Problem };

export class SetupBook {
  constructor(
    private readonly disk: Disk,
    private readonly root: string,
    private readonly register: Registering,
  ) {}

  events(): Result<readonly JournalEvent[]> {
    return readSetupLog(this.disk, this.root);
  }

  /** @param uses steps done under each set-up id; called only if a rule counts them */
  standings(
    rules: readonly SetupRule[],
    uses: () => ReadonlyMap<string, number>,
    now: string,
  ): Result<readonly SetupStanding[]> {
    const events = this.events();
    if (!events.ok) return events;
    const counted = rules.some((rule) => rule.uses !== undefined) ? uses() : new Map<string, number>();
    return ok(setupStandings(rules, events.value, counted, now));
  }

  firstOff(
    rule: SetupRule,
    values: Readonly<Record<string, Value>>,
    context: DecisionContext,
    { restsOn, ...options }: Parameters<typeof decideFirstOff>[3] & { readonly restsOn?: () => Basis } = {},
  ): SetupActed {
    const decision = decideFirstOff(rule, values, context, options);
    if (decision.kind !== 'events') return decision;
    const bodies = restsOn ? decision.events.map((body) => onBasis(body, restsOn())) : decision.events;
    return this.#write(bodies, decision.by, context);
  }

  end(
    rule: SetupRule,
    why: (typeof setupEnds)[number],
    context: DecisionContext,
    note: string | undefined,
  ): SetupActed {
    const decision = decideSetupEnd(rule, why, context, note);
    return decision.kind === 'events' ? this.#write(decision.events, decision.by, context) : decision;
  }

  #write(bodies: readonly EventBody[], by: string, { now, bench }: DecisionContext): SetupActed {
    const written = appendSetupLog(this.disk, this.root, bodies, { by, at: now, bench });
    if (!written.ok) return { kind: 'failed', problem: written.problems[0]! };
    this.register.journal(setupJournalOf(this.disk, this.root, bench), written.value.at(-1)!, 'set-up', by);
    return { kind: 'done', event: written.value[0]! };
  }
}

function ruleOf(rules: readonly SetupRule[] | undefined, id: string): Result<SetupRule> {
  const rule = rules?.find((each) => each.id === id);
  if (rule) return ok(rule);
  const known = rules?.map((each) => each.id).join(', ');
  return err(known === undefined ? raise('bench.no-setup/none') : raise('bench.no-setup', { id, known }));
}

/** Proves invalid set-ups with passing first-offs, for demonstrations, screenshots and tests. A sentence for each. */
export function proveSetups(
  ports: Pick<Ports, 'act' | 'world'> & { setups(): Result<readonly SetupStanding[]> | undefined },
): { readonly ok: boolean; readonly text: string }[] {
  const standings = ports.setups();
  if (!standings?.ok) return [];
  return standings.value
    .filter(({ valid }) => !valid)
    .map(({ rule }) => {
      const { now, today, rules, instruments, bench } = ports.world();
      const day = dayNow({ now, today });
      const stage = rule.stage ?? 'all';
      const person = rules.people
        .filter((each) => levelOf(each, stage) >= ALONE && isValid(each, day))
        .toSorted((a, b) => levelOf(a, stage) - levelOf(b, stage))[0];
      const context = { now, today, bench, person: person?.id, workshop: rules, instruments };
      const tools = rule.checks.flatMap((check) => {
        const tool = bestTool(check, context);
        return tool === undefined || tool === 'none' ? [] : [[check.id, tool.id] as const];
      });
      const byCheck = Object.fromEntries(tools);
      const values = Object.fromEntries(
        rule.checks.map((check) => [
          check.id,
          String(passingValue(check, { ...context, inHand: byCheck[check.id] }, {})),
        ]),
      );
      const acted = ports.act(
        { do: 'first-off', setup: rule.id, values, with: byCheck },
        { person: person?.id },
      );
      const event = acted.kind === 'done' ? acted.events[0] : undefined;
      const ok = event?.kind === 'first-off' && event.passed;
      if (ok) return { ok, text: sessionSays('proven-passed', { setup: rule.title, person: person!.name }) };
      const why = 'problem' in acted ? acted.problem.text : acted.kind === 'ask' ? acted.question.text : '';
      return { ok, text: sessionSays('proven-failed', { setup: rule.title, why }) };
    });
}
