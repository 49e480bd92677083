/** The workshop's set-ups on disk: how they stand, first-offs, and what ends them. */
import type { EventBody, JournalEvent, setupEnds } from '../../build/events.js';
import type { Value } from '../../build/judge.js';
import {
  decideFirstOff,
  decideSetupEnd,
  type SetupRule,
  type SetupStanding,
  setupStandings,
} from '../../build/setups.js';
import type { Question, Surroundings } from '../../build/types.js';
import { bad, good, type Problem, type Result, raiser } from '../../ground/problem.js';
import type { Disk } from '../../store/disk.js';
import { appendSetupLog, readSetupLog } from '../../store/setuplog.js';
import { BENCH_MESSAGES } from '../messages.js';

const raise = raiser(BENCH_MESSAGES);

export type SetupActed =
  | { readonly kind: 'done'; readonly event: JournalEvent }
  | { readonly kind: 'ask'; readonly question: Question }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'failed'; readonly problem: Problem };

export class SetupBook {
  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {}

  events(): Result<readonly JournalEvent[]> {
    return readSetupLog(this.disk, this.root);
  }

  /** @param uses steps done under each set-up id; asked for only where a rule counts them */
  standings(
    rules: readonly SetupRule[],
    uses: () => ReadonlyMap<string, number>,
    now: string,
  ): Result<readonly SetupStanding[]> {
    const events = this.events();
    if (!events.ok) return events;
    const counted = rules.some((rule) => rule.uses !== undefined) ? uses() : new Map<string, number>();
    return good(setupStandings(rules, events.value, counted, now));
  }

  firstOff(
    rule: SetupRule,
    values: Readonly<Record<string, Value>>,
    around: Surroundings,
    options: { readonly confirmed?: boolean; readonly note?: string } = {},
  ): SetupActed {
    const decision = decideFirstOff(rule, values, around, options);
    return decision.kind === 'events' ? this.#write(decision.events, decision.by, around) : decision;
  }

  end(
    rule: SetupRule,
    why: (typeof setupEnds)[number],
    around: Surroundings,
    note: string | undefined,
  ): SetupActed {
    const decision = decideSetupEnd(rule, why, around, note);
    return decision.kind === 'events' ? this.#write(decision.events, decision.by, around) : decision;
  }

  #write(bodies: readonly EventBody[], by: string, { now, bench }: Surroundings): SetupActed {
    const written = appendSetupLog(this.disk, this.root, bodies, { by, at: now, bench });
    if (!written.ok) return { kind: 'failed', problem: written.problems[0]! };
    return { kind: 'done', event: written.value[0]! };
  }
}

/** The rule of a set-up by its id. */
export function ruleOf(rules: readonly SetupRule[] | undefined, id: string): Result<SetupRule> {
  const rule = rules?.find((each) => each.id === id);
  if (rule) return good(rule);
  const known = rules?.map((each) => each.id).join(', ');
  return bad(
    raise(
      'bench.no-setup',
      rules ? `There is no set-up "${id}".` : 'This workshop asks for no set-ups.',
      undefined,
      rules
        ? `There are: ${known}.`
        : 'Put shared/setups.yaml into the workshop to have first-offs asked for.',
    ),
  );
}
