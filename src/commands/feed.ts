/**
 * `feed UNIT`: bench actions from a script or a gauge as JSON lines, one answer line each. Same actions, decisions and
 * journal as the bench; nothing is allowed here that the bench does not allow.
 */
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import { type Problem, problemFactory, problemTold } from '../base/problem.js';
import type { Acted, Hand, Ports } from '../session/ports.js';
import { connectToShop } from '../session/shopline.js';
import { realPorts } from '../session/workshopports.js';
import { type Action, type BenchAction, benchActionSchema } from '../unit/actions.js';
import type { JournalEvent } from '../unit/events.js';
import { heldSteps, nextCheck } from '../unit/next.js';
import { isSet, nextPlace } from '../unit/sets.js';
import type { UnitState } from '../unit/unitstate.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { asJson, EXIT, exitOf, fail, type Io } from './io.js';

const raise = problemFactory(COMMAND_MESSAGES);

export async function run(args: string[], io: Io): Promise<number> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    strict: false,
    options: { person: { type: 'string' } },
  });
  const unit = positionals[0];
  if (unit === undefined || positionals.length > 1) {
    return fail(io, [raise('feed.usage')], EXIT.badInput);
  }
  const made = realPorts({ workshop: io.workshop });
  if (!made.ok) return fail(io, made.problems);
  const ports = made.value;
  const untrusted = ports.testLogs();
  if (untrusted) {
    io.err(problemTold(untrusted, io.reader?.tell));
    return exitOf([untrusted]);
  }
  const line = await connectToShop(ports);
  try {
    await line?.ready();
    const who = typeof values.person === 'string' ? values.person : '';
    const opened = await openAsked(ports, unit, who);
    if (opened.kind === 'failed') {
      io.err(problemTold(opened.problem, io.reader?.tell));
      return exitOf([opened.problem]);
    }
    return await conversation(ports, io, typeof values.person === 'string' ? values.person : undefined);
  } finally {
    ports.close();
    await line?.stop();
  }
}

/** Where the shop is asked first, when it has answered. */
function openAsked(ports: Ports, unit: string, who: string): Promise<ReturnType<Ports['open']>> {
  return new Promise((resolve) => {
    ports.told?.((wanted) => {
      if (wanted !== undefined) resolve(ports.open(wanted, who));
    });
    const opened = ports.open(unit, who);
    if (opened.kind !== 'asked') resolve(opened);
  });
}

async function conversation(ports: Ports, io: Io, person: string | undefined): Promise<number> {
  let hand: Hand = { person };
  let worst: number = EXIT.done;
  const answer = (value: unknown, code: number): void => {
    worst = Math.max(worst, code);
    io.out(asJson(value));
  };
  const input = io.input ?? process.stdin;
  for await (const line of createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY })) {
    if (line.trim() === '') continue;
    const read = readAction(line);
    if ('problem' in read) {
      answer({ ok: false, refused: bare(read.problem) }, EXIT.badInput);
      continue;
    }
    const { action } = read;
    if (action.do === 'person' || action.do === 'instrument') {
      const taken = take(ports, hand, action);
      if ('problem' in taken) answer({ ok: false, refused: bare(taken.problem) }, EXIT.doesNotHold);
      else {
        hand = taken.hand;
        answer({ ok: true, events: [], ...standing(ports) }, EXIT.done);
      }
      continue;
    }
    const acted = settled(ports, action, hand);
    answer(
      reply(acted, ports),
      acted.kind === 'done' ? EXIT.done : acted.kind === 'failed' ? EXIT.resource : EXIT.doesNotHold,
    );
  }
  return worst;
}

/** The last reading of a set settles it; where its readings raise a question, that is the answer to it. */
function settled(ports: Ports, action: BenchAction, hand: Hand): Acted {
  const acted = ports.act(action, hand);
  if (acted.kind !== 'done' || action.do !== 'read') return acted;
  const steps = [...(ports.world().open?.state.steps.values() ?? [])];
  const step = steps.find(({ checks }) => checks.some(({ id }) => id === action.check));
  const check = step?.step.checks.find(({ id }) => id === action.check);
  const now = step?.checks.find(({ id }) => id === action.check);
  const judged = acted.events.some(({ kind }) => kind === 'answered');
  if (judged || !check || !now?.partial || nextPlace(check, now) !== undefined) return acted;
  return ports.act({ do: 'answer', check: action.check, value: {} }, hand);
}

/** What came of an answer: pass, fail or not-proven, and the first limit that decided it. */
function verdictOf(events: readonly JournalEvent[]): {
  readonly verdict?: string;
  readonly because?: string;
} {
  const answered = events.findLast((event) => event.kind === 'answered');
  if (answered?.kind !== 'answered') return {};
  const { outcome, rules, notes } = answered.verdict;
  const because = rules.find((rule) => rule.outcome === outcome)?.says ?? notes[0];
  return { verdict: outcome, ...(because === undefined ? {} : { because }) };
}

function readAction(line: string): { action: BenchAction } | { problem: Problem } {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return {
      problem: raise('feed.json'),
    };
  }
  const parsed = benchActionSchema.safeParse(value);
  if (parsed.success) return { action: parsed.data };
  const issue = parsed.error.issues[0]!;
  const field = issue.path.map(String).join('.');
  return {
    problem:
      field === ''
        ? raise('feed.action/whole', { fault: issue.message })
        : raise('feed.action', { field, fault: issue.message }),
  };
}

/** The person and the instruments in hand belong to the session; setting them writes nothing. */
function take(
  ports: Ports,
  hand: Hand,
  action: Extract<Action, { do: 'person' | 'instrument' }>,
): { hand: Hand } | { problem: Problem } {
  const world = ports.world();
  if (action.do === 'person') {
    const code = action.person.toLowerCase();
    const person = world.rules.people.find(
      (each) => each.id.toLowerCase() === code || each.initials.toLowerCase() === code,
    );
    if (person) return { hand: { ...hand, person: person.id } };
    const known = world.rules.people.map((each) => each.id);
    return { problem: raise('feed.person', { person: action.person, known }) };
  }
  const instrument = world.instruments.find(
    (each) => each.id.toLowerCase() === action.instrument.toLowerCase(),
  );
  if (instrument) return { hand: { ...hand, inHand: instrument.id } };
  const known = world.instruments.map((each) => each.id);
  return { problem: raise('feed.instrument', { instrument: action.instrument, known }) };
}

function reply(acted: Acted, ports: Ports): unknown {
  switch (acted.kind) {
    case 'done':
      return {
        ok: true,
        events: acted.events.map(({ n, kind, hash }) => ({ n, kind, hash })),
        ...verdictOf(acted.events),
        ...(acted.snags
          ? { snags: acted.snags.map(({ job, unit, problem }) => snagLine(job, unit, problem)) }
          : {}),
        ...standing(ports),
        ...troubleOf(ports),
      };
    case 'ask':
      return { ok: false, ask: acted.question };
    case 'refused':
    case 'failed':
      return { ok: false, refused: bare(acted.problem) };
  }
}

/** The register is not written: what is logged is logged, and not watched over. */
function troubleOf(ports: Ports): object {
  const { trouble } = ports.world();
  return trouble ? { trouble: bare(trouble) } : {};
}

function standing(ports: Ports): { standing: string; held?: readonly string[]; next: unknown } {
  const state: UnitState | undefined = ports.world().open?.state;
  const at = state ? nextCheck(state) : undefined;
  const check = at ? state?.steps.get(at.step)?.step.checks.find((each) => each.id === at.check) : undefined;
  const now = at ? state?.steps.get(at.step)?.checks.find(({ id }) => id === at.check) : undefined;
  const place = check && now && isSet(check) ? nextPlace(check, now) : undefined;
  const held = state ? heldSteps(state).map(({ step }) => step.id) : [];
  return {
    standing: state?.standing ?? 'not-started',
    ...(held.length > 0 ? { held } : {}),
    next:
      at && check
        ? {
            step: at.step,
            check: at.check,
            kind: check.kind,
            ask: check.ask,
            expect: place?.expect ?? check.expect ?? null,
            ...(place ? { reading: place.key } : {}),
            ...(check.unit ? { unit: check.unit } : {}),
            ...(check.quantity ? { quantity: check.quantity } : {}),
            ...(check.choices ? { choices: check.choices.map(({ id, text }) => ({ id, text })) } : {}),
          }
        : null,
  };
}

const snagLine = (job: string, unit: string, problem: Problem | undefined) => ({
  job,
  unit,
  refused: problem ? bare(problem) : null,
});

const bare = ({ id, text, todo }: Problem) => ({ id, text, todo });
