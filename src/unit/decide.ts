/** The decision function shared by the bench and `feed`. Pure: everything it needs is passed in. */
import { err, ok, placeText, type Result } from '../base/problem.js';
import { Several } from '../base/words.js';
import { type Action, type Asked, actionSchema } from './actions.js';
import { asIfWritten } from './aswritten.js';
import type { EventBody } from './events.js';
import { apply, asOf } from './fold.js';
import { lastStage } from './graph.js';
import { answer, beginSet, read } from './handlers/answer.js';
import { cite, citedAt } from './handlers/cite.js';
import { type ActionContext, jump, refuse, refused } from './handlers/context.js';
import { look } from './handlers/look.js';
import { release } from './handlers/release.js';
import { instrument, note, override, park, person, resume, rework, undo } from './handlers/simple.js';
import { closeSnag, decideSnag, raiseSnag } from './handlers/snags.js';
import { unitProblem } from './messages.js';
import { missingEnd } from './next.js';
import { allowing } from './people.js';
import type { Decision, DecisionContext } from './types.js';
import type { UnitState } from './unitstate.js';
import { unitWords } from './words.js';

/**
 * Returns events to write, a refusal that says how to resolve it, or a question about a likely misread. When an answer,
 * release or snag closure completes the unit, `finished` is appended to the same events.
 */
export function decide(state: UnitState, action: Action, context: DecisionContext): Decision {
  const parsed = readAction(action);
  if (!parsed.ok) return refuse(parsed.problems[0]!);
  const jumps = jump(state, context).events;
  const decision = byKind(contextAt(state, jumps, context), parsed.value);
  if (decision.kind !== 'events' || decision.events.length === 0) return decision;
  const events = [...jumps, ...decision.events, ...citedWith(state, jumps, decision, context)];
  return closing(
    state,
    { ...decision, events: completed(state, events, decision.by, context) },
    parsed.value,
    context,
  );
}

function readAction(action: Action): Result<Asked> {
  const parsed = actionSchema.safeParse(action);
  if (parsed.success) return ok(parsed.data);
  const issue = parsed.error.issues[0]!;
  return err(
    issue.path.length === 0
      ? unitProblem('build.bad-action/whole', { fault: issue.message })
      : unitProblem('build.bad-action', { field: issue.path.map(String).join('.'), fault: issue.message }),
  );
}

/** The unit as of now. A clock jump first noticed now is removed before anything time-based is judged. */
function contextAt(state: UnitState, jumps: readonly EventBody[], context: DecisionContext): ActionContext {
  const known = jumps.length === 0 ? state : apply(state, ...asIfWritten(state, jumps, 'nobody', context));
  return { state: asOf(known, context.now), context: staying(context) };
}

/** The context without the jump. A prototype-based view, not a copy: data about other units is looked up lazily. */
function staying(context: DecisionContext): DecisionContext {
  return context.clockJump === undefined
    ? context
    : (Object.create(context, { clockJump: { value: undefined } }) as DecisionContext);
}

function byKind(scope: ActionContext, action: Asked): Decision {
  switch (action.do) {
    case 'person':
      return person(scope, action);
    case 'instrument':
      return instrument(scope, action);
    case 'answer':
      return answer(scope, action);
    case 'look':
      return look(scope, action);
    case 'read':
      return read(scope, action);
    case 'begin-set':
      return beginSet(scope, action);
    case 'undo':
      return undo(scope, action);
    case 'rework':
      return rework(scope, action);
    case 'release':
      return release(scope, action);
    case 'snag':
      return raiseSnag(scope, action);
    case 'decide':
      return decideSnag(scope, action);
    case 'close':
      return closeSnag(scope, action);
    case 'cite':
      return cite(scope, action);
    case 'park':
      return park(scope, action);
    case 'resume':
      return resume(scope);
    case 'note':
      return note(scope, action);
    case 'override':
      return override(scope, action);
  }
}

/** What units share and a step asks after its own questions is cited with the last of them. */
function citedWith(
  state: UnitState,
  jumps: readonly EventBody[],
  { events, by }: Extract<Decision, { kind: 'events' }>,
  context: DecisionContext,
): EventBody[] {
  const last = events.at(-1);
  if (last?.kind !== 'answered' || last.cited) return [];
  const after = apply(state, ...asIfWritten(state, [...jumps, ...events], by, context));
  const step = after.steps.get(last.step)!;
  return step.checks.some(({ holds }) => !holds) ? citedAt(after, step, context) : [];
}

/** A unit that the bench cannot sign is closed only on the word of a named person, which the closing line keeps. */
function closing(
  state: UnitState,
  decision: Extract<Decision, { kind: 'events' }>,
  action: Asked,
  context: DecisionContext,
): Decision {
  if (!decision.events.some(isEnd)) return decision;
  const seen = whereSeen(state, decision, context);
  if (seen.kind !== 'events') return seen;
  const { keyProblem } = context;
  if (!keyProblem) return seen;
  const { place, text } = keyProblem;
  const why = place ? `${placeText(place)}: ${text}` : text;
  const word = 'unsignedBy' in action ? action.unsignedBy : undefined;
  if (!word)
    return refused('build.unsigned', {
      why: place ? new Several([placeText(place), keyProblem.said], ': ') : keyProblem.said,
      unit: state.unit,
    });
  const who = allowing(word, lastStage(state.route), unitWords('act-unsigned'), context);
  if ('problem' in who) return refuse(who.problem);
  const unsigned = { by: who.person.id, why };
  return { ...seen, events: seen.events.map((event) => (isEnd(event) ? { ...event, unsigned } : event)) };
}

/** A unit is released only once a shop's server has all of it, or where the shop allows it; the closing line then says so. */
function whereSeen(
  state: UnitState,
  decision: Extract<Decision, { kind: 'events' }>,
  context: DecisionContext,
): Decision {
  const unseen = decision.events.some(({ kind }) => kind === 'finished') ? context.unseen : undefined;
  if (!unseen) return decision;
  const { lines, allowed } = unseen;
  if (!allowed)
    return lines === 0
      ? refused('build.unseen/evidence', { unit: state.unit })
      : refused('build.unseen', { lines, unit: state.unit });
  return {
    ...decision,
    events: decision.events.map((event) => (event.kind === 'finished' ? { ...event, unseen: lines } : event)),
  };
}

type End = EventBody & { readonly kind: 'finished' | 'scrapped' };
const isEnd = (event: EventBody): event is End => event.kind === 'finished' || event.kind === 'scrapped';

const COMPLETES: readonly EventBody['kind'][] = [
  'answered',
  'released',
  'snag-closed',
  'snag-decided',
  'resumed',
];

function completed(state: UnitState, events: EventBody[], by: string, context: DecisionContext): EventBody[] {
  if (state.finished || !events.some(({ kind }) => COMPLETES.includes(kind))) return events;
  // One decision advances one step; beyond that it can only complete steps that are stale because of that one.
  let open = 0;
  for (const { status } of state.steps.values()) {
    if (status !== 'done' && status !== 'stale') open += 1;
    if (open > 1) return events;
  }
  const after = apply(state, ...asIfWritten(state, events, by, context));
  const end = missingEnd(after);
  return end ? [...events, end] : events;
}
