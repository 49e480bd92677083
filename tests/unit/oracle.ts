/**
 * What a finished unit must be, worked out the slow way from its events and route alone, without the fold: used to judge
 * the fold by something that shares none of its code.
 */
import type { Route, RouteStep } from '../../src/procedure/types.js';
import type { JournalEvent } from '../../src/unit/events.js';

/** Everything wrong with calling this unit finished; empty where it may be. */
export function faults(route: Route, events: readonly JournalEvent[]): string[] {
  const out: string[] = [];
  const corrected = new Set(events.flatMap((e) => (e.kind === 'corrected' ? [e.of] : [])));
  const conceded = new Map<number, number>();
  for (const e of events) {
    if (e.kind !== 'snag-decided') continue;
    for (const [answer, snag] of conceded) if (snag === e.snag) conceded.delete(answer);
    if (e.disposition !== 'concession') continue;
    const raised = events.find((r) => r.n === e.snag);
    const check = raised?.kind === 'snag-raised' ? raised.check : undefined;
    const answer = events.findLast(
      (a) => a.kind === 'answered' && a.check === check && a.n < e.n && !corrected.has(a.n),
    );
    if (answer) conceded.set(answer.n, e.snag);
  }
  const made = (step: RouteStep): number => {
    const again = events.findLast((e) => (e.kind === 'began' || e.kind === 'reworked') && e.step === step.id);
    if (again) return again.n;
    return events.find((e) => (e.kind === 'answered' || e.kind === 'read') && e.step === step.id)?.n ?? 0;
  };
  const makers = (rests: readonly string[], self: RouteStep) =>
    route.steps.filter((s) => s.id !== self.id && s.makes.some((f) => rests.includes(f)));
  for (const step of route.steps) {
    const own = made(step);
    if (own === 0) out.push(`${step.id} was never made`);
    const below = makers(step.rests, step);
    for (const maker of below) if (made(maker) > own) out.push(`${step.id} is older than ${maker.id}`);
    let last = Math.max(own, ...below.map(made));
    for (const check of step.checks) {
      const since = Math.max(own, ...below.map(made), ...makers(check.rests, step).map(made));
      const answer = events.findLast(
        (e) => e.kind === 'answered' && e.check === check.id && !corrected.has(e.n),
      );
      if (answer?.kind !== 'answered' || answer.n < since) {
        out.push(`${check.id} has no reading since ${since}`);
        continue;
      }
      last = Math.max(last, answer.n);
      const stands = conceded.has(answer.n) && !check.safety;
      if (answer.verdict.outcome !== 'pass' && !stands) out.push(`${check.id} does not pass`);
    }
    if (!step.hold) continue;
    const release = events.findLast(
      (e) => e.kind === 'released' && e.step === step.id && !corrected.has(e.n),
    );
    if (!release || release.n < last) out.push(`the hold of ${step.id} is not released`);
  }
  for (const e of events)
    if (e.kind === 'snag-raised' && !events.some((c) => c.kind === 'snag-closed' && c.snag === e.n))
      out.push(`snag ${e.n} is open`);
  return out;
}
