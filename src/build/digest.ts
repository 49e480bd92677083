/** One unit's digest, from its state. What a digest is stands in digests.ts, which those who only read one may load alone. */
import { boardRow, byStep } from './board.js';
import type { LotUsed, Phase, UnitDigest } from './digests.js';
import { asOf } from './fold.js';
import { linesOf as handoverLines } from './handover.js';
import { usesOf } from './setups.js';
import type { UnitState } from './unitstate.js';

/** Timers' texts name the day once it is another one, so each midnight begins a phase; a week of them is looked ahead. */
const DAYS = 7;

export function digestOf(unit: UnitState, now: string): UnitDigest {
  const first = asOf(unit, now);
  const moments = [now, ...momentsAfter(first, now)];
  const until = first.timers.length === 0 ? undefined : midnightAfter(moments.at(-1)!);
  const events = unit.events;
  return {
    phases: moments.map((moment) => phaseOf(asOf(unit, moment), moment)),
    ...(until === undefined ? {} : { until }),
    lots: lotsOf(unit),
    snagged: {
      lots: openTouches(unit, 'lot'),
      setups: openTouches(unit, 'setup'),
    },
    uses: Object.fromEntries(usesOf([{ unit: unit.unit, job: unit.job, events }])),
    ...(unit.replacement === undefined ? {} : { replacement: unit.replacement }),
    notes: events.flatMap((event) =>
      event.kind === 'noted'
        ? [{ at: event.at, by: event.by, step: event.step ?? null, text: event.text }]
        : [],
    ),
  };
}

function phaseOf(state: UnitState, now: string): Phase {
  const { standing, done, of, where } = boardRow(state);
  return {
    from: now,
    standing,
    done,
    total: of,
    where,
    steps: byStep([state]).flatMap(({ base, title, stage, open, held }) =>
      [...open, ...held].map(({ step }) => ({
        base,
        title,
        stage,
        step,
        place: state.route.steps.findIndex(({ id }) => id === step),
        held: held.some((each) => each.step === step),
      })),
    ),
    handover: Object.fromEntries(
      Object.entries(handoverLines(state)).filter(([, lines]) => lines.length > 0),
    ),
  };
}

/** Moments at which a running timer changes something, and the midnights between. */
function momentsAfter(state: UnitState, now: string): string[] {
  const ends = state.timers
    // What must be done by a moment may still be done in it.
    .map(({ kind, until }) => (kind === 'not-after' ? new Date(Date.parse(until) + 1).toISOString() : until))
    .filter((end) => end > now);
  const last = ends.toSorted().at(-1);
  if (last === undefined) return [];
  const moments = new Set(ends);
  let midnight = midnightAfter(now);
  for (let day = 0; day < DAYS && midnight < last; day += 1) {
    moments.add(midnight);
    midnight = midnightAfter(midnight);
  }
  // Beyond the days looked ahead nothing is claimed.
  return [...moments].filter((moment) => moment <= midnight).sort();
}

const DAY_MS = 86_400_000;
const midnightAfter = (now: string): string =>
  new Date((Math.floor(Date.parse(now) / DAY_MS) + 1) * DAY_MS).toISOString();

/** Each lot once, as it was named last; an entry that was taken back does not count. */
function lotsOf(unit: UnitState): LotUsed[] {
  const corrected = new Set(unit.events.flatMap((event) => (event.kind === 'corrected' ? [event.of] : [])));
  const lots = new Map<string, LotUsed>();
  for (const event of unit.events)
    if (event.kind === 'answered' && event.lot && !corrected.has(event.n)) {
      const { material, code, expires } = event.lot;
      const known = lots.get(`${material}/${code}`)?.expires;
      const until = expires ?? known;
      lots.set(`${material}/${code}`, {
        material,
        code,
        ...(until === undefined ? {} : { expires: until }),
        at: event.at,
      });
    }
  return [...lots.values()];
}

function openTouches(unit: UnitState, what: 'lot' | 'setup'): string[] {
  const touched = unit.snags.flatMap(({ open, raised }) => (open ? (raised.touches[what] ?? []) : []));
  return [...new Set(touched)];
}
