/** Hand-over at the end of a shift: what is open, held, curing and half done, over all units that are under way. */
import { asOf } from './fold.js';
import { heldSteps } from './next.js';
import type { UnitState } from './types.js';

export interface HandoverLine {
  readonly job: string;
  readonly unit: string;
  readonly step: string | null;
  readonly text: string;
}

export interface Handover {
  readonly at: string;
  /** Steps begun and not done. */
  readonly halfDone: readonly HandoverLine[];
  readonly held: readonly HandoverLine[];
  readonly curing: readonly HandoverLine[];
  /** Open times that run, the soonest first. */
  readonly running: readonly HandoverLine[];
  readonly snags: readonly HandoverLine[];
  readonly parked: readonly HandoverLine[];
  /** Notes since a moment, where one is given (the shift's beginning). */
  readonly notes: readonly HandoverLine[];
}

export function handover(states: readonly UnitState[], now: string, since?: string): Handover {
  const out = {
    halfDone: [] as HandoverLine[],
    held: [] as HandoverLine[],
    curing: [] as (HandoverLine & { until: string })[],
    running: [] as (HandoverLine & { until: string })[],
    snags: [] as HandoverLine[],
    parked: [] as HandoverLine[],
    notes: [] as HandoverLine[],
  };
  for (const unit of states) {
    const state = asOf(unit, now);
    const line = (step: string | null, text: string): HandoverLine => ({
      job: state.job,
      unit: state.unit,
      step,
      text,
    });
    if (since !== undefined)
      for (const event of state.events)
        if (event.kind === 'noted' && event.at >= since)
          out.notes.push(line(event.step ?? null, `${event.by}: ${event.text}`));
    if (state.finished || state.scrapped) continue;
    for (const { step, status, checks } of state.steps.values()) {
      if (status !== 'begun' && status !== 'failed' && status !== 'stale') continue;
      const open = checks.filter(({ holds }) => !holds).length;
      out.halfDone.push(
        line(step.id, `${step.title}: ${WORDS[status]}, ${open} of ${checks.length} checks open`),
      );
    }
    for (const { step } of heldSteps(state))
      out.held.push(line(step.id, `${step.title}: ${step.hold!.title} waits for release`));
    for (const timer of state.timers)
      (timer.kind === 'not-before' ? out.curing : out.running).push({
        ...line(timer.step, timer.text),
        until: timer.until,
      });
    for (const snag of state.snags)
      if (snag.open)
        out.snags.push(
          line(
            snag.raised.step ?? null,
            `snag ${snag.n} (${snag.raised.severity}): ${snag.raised.text}; ${snag.decided ? `to ${snag.decided.disposition}` : 'not decided'}`,
          ),
        );
    if (state.parked) {
      const last = state.events.findLast((event) => event.kind === 'parked');
      out.parked.push(line(null, last?.kind === 'parked' ? last.reason : ''));
    }
  }
  const soonest = (lines: (HandoverLine & { until: string })[]): HandoverLine[] =>
    lines.toSorted((a, b) => (a.until < b.until ? -1 : 1)).map(({ until: _until, ...line }) => line);
  return { at: now, ...out, curing: soonest(out.curing), running: soonest(out.running) };
}

const WORDS = { begun: 'half done', failed: 'a check failed', stale: 'to be done again' } as const;
