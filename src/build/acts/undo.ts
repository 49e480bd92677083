/** Taking back the last answer, reading or release: a correction with a reason, never an erasure. */
import type { Action } from '../actions.js';
import type { JournalEvent } from '../events.js';
import type { Marks } from '../marks.js';
import { ALONE, levelProblem, RELEASES } from '../people.js';
import type { Decision } from '../types.js';
import { type Deed, refuse, refused, worker, write } from './deed.js';

type Undoable = JournalEvent & { readonly kind: 'answered' | 'read' | 'released' };

export function undo(deed: Deed, action: Extract<Action, { do: 'undo' }>): Decision {
  const who = worker(deed);
  if ('refusal' in who) return who.refusal;
  const { marks } = deed.state.derived;
  const found = lastUndoable(marks);
  if (!found) return refused('build.nothing-to-undo', 'Nothing was answered that could be taken back.');
  const { last, stage } = found;
  if (last.n < marks.lastRework)
    return refused(
      'build.nothing-to-undo',
      `Since the last answer (event ${last.n}) a step was made again; that is not taken back.`,
      'Answer the step anew.',
    );
  if (last.n < marks.lastDecision)
    return refused(
      'build.nothing-to-undo',
      `A snag was decided after the last answer (event ${last.n}); what the decision stood on is not taken back.`,
      `Rework ${last.step} instead; that keeps both readings.`,
    );
  if (who.person.id !== last.by) {
    const least = last.kind === 'released' ? RELEASES : ALONE;
    const problem = levelProblem(who.person, stage, least, "taking back another person's entry", deed.around);
    if (problem) return refuse(problem);
  }
  return write(who.person, { kind: 'corrected', of: last.n, reason: action.reason });
}

/** The last entry that undo would take back, and its stage. */
function lastUndoable(marks: Marks): { readonly last: Undoable; readonly stage: string } | undefined {
  const corrected = new Set<number>();
  const completed = new Set<string>();
  for (let i = marks.events.length - 1; i >= 0; i--) {
    const event = marks.events[i]!;
    if (event.kind === 'corrected') corrected.add(event.of);
    if (event.kind !== 'answered' && event.kind !== 'read' && event.kind !== 'released') continue;
    const node = marks.graph.nodes.get(event.step);
    if (!node) continue;
    // Single readings were taken up by the answer that completed their set, also where that was corrected.
    if (event.kind === 'answered') completed.add(event.check);
    if (event.kind === 'read' && completed.has(event.check)) continue;
    if (!corrected.has(event.n)) return { last: event, stage: node.step.stage };
  }
  return undefined;
}
