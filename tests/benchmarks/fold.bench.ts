/** How long the state of one unit takes to follow from its events: a whole demonstration unit, and one built over and over. */
import type { JournalEvent } from '../../src/unit/events.js';
import { apply, fold } from '../../src/unit/fold.js';
import { ROUTES, whole } from '../unit/demonstration.js';
import { atMost, median, type Row } from './rows.js';

export const title = 'State of one unit from its events';

export async function measure(): Promise<Row[]> {
  const unit = [...ROUTES].toSorted(([, a], [, b]) => b.steps.length - a.steps.length)[0]![0];
  const { state } = whole(unit);
  const first = state.route.steps[0]!.id;
  const events: JournalEvent[] = [...state.events];
  const body = state.events.filter(({ kind }) => kind !== 'opened');
  while (events.length < 10_000) {
    const reworked = { ...body[0]!, kind: 'reworked', step: first, reason: 'again', reopens: [] };
    for (const event of [reworked, ...body]) events.push({ ...event, n: events.length + 1 } as JournalEvent);
  }
  const few = events.slice(0, 400);
  const many = events.slice(0, 10_000);
  const before = fold(state.route, many.slice(0, -1));
  const steps = `, ${state.route.steps.length} steps`;
  return [
    atMost(
      'fold of 400 events',
      timed(() => fold(state.route, few)),
      5,
      'ms',
      steps,
    ),
    atMost(
      'fold of 10,000 events',
      timed(() => fold(state.route, many)),
      60,
      'ms',
      steps,
    ),
    atMost(
      'one event more after 10,000',
      timed(() => apply(before, many.at(-1)!)),
      5,
      'ms',
      steps,
    ),
  ];
}

function timed(run: () => void): number {
  const times: number[] = [];
  for (let i = 0; i < 31; i += 1) {
    const from = performance.now();
    run();
    times.push(performance.now() - from);
  }
  return median(times);
}
