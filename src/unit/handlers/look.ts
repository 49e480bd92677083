/**
 * One answer for all the questions that one look answers: the journal keeps an answer for each. Where one of them is not
 * right, only that is said: what stands above it was answered by nobody, and is asked.
 */
import type { Asked } from '../actions.js';
import { asIfWritten } from '../aswritten.js';
import type { EventBody } from '../events.js';
import { apply } from '../fold.js';
import { lookAt } from '../looks.js';
import type { Decision } from '../types.js';
import { answer } from './answer.js';
import { type ActionContext, refused, stepOf } from './context.js';

type LookAction = Extract<Asked, { do: 'look' }>;

export function look(scope: ActionContext, action: LookAction): Decision {
  const { step: id, not, second, confirm, evidence, confirmed, stood } = action;
  const found = stepOf(scope, id);
  if ('refusal' in found) return found.refusal;
  const together = lookAt(found.step);
  const answered = not === undefined ? together : together.filter((check) => check.id === not);
  if (answered.length === 0)
    return not === undefined
      ? refused('build.no-look', { step: id })
      : refused('build.no-look/check', { check: not, step: id });
  const events: EventBody[] = [];
  let { state } = scope;
  let by = '';
  for (const check of answered) {
    const value = check.id === not ? 'no' : 'yes';
    const decision = answer(
      { ...scope, state },
      {
        do: 'answer',
        check: check.id,
        value,
        ...(second === undefined ? {} : { second }),
        ...(confirm === undefined || events.length > 0 ? {} : { confirm }),
        ...(check.evidence && evidence !== undefined ? { evidence } : {}),
        ...(confirmed === undefined ? {} : { confirmed }),
        ...(stood === undefined ? {} : { stood }),
      },
    );
    if (decision.kind !== 'events') return decision;
    state = apply(state, ...asIfWritten(state, decision.events, decision.by, scope.context));
    by = decision.by;
    events.push(...decision.events);
  }
  return {
    kind: 'events',
    by,
    events: events.map((event) =>
      answered.length > 1 && event.kind === 'answered' ? { ...event, look: answered.length } : event,
    ),
  };
}
