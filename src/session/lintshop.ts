/** What the shop's instruments can support, over everything that asks for a reading; and codes that two things share. */
import { type Problem, problemFactory } from '../base/problem.js';
import { type Message, Several } from '../base/words.js';
import { foreseenU, measuresIt, supportedBy, type Wanted, wouldDo } from '../measure/fitness.js';
import { KIND_MEASURES } from '../measure/instruments.js';
import { bandFor } from '../measure/limits.js';
import type { Instrument, InstrumentKind } from '../measure/types.js';
import type { Route, RouteCheck } from '../procedure/types.js';
import { limitsOf, wantedBy } from '../procedure/wanted.js';
import type { Workshop } from '../store/workshop.js';
import { placesOf } from '../unit/sets.js';
import type { LotUsed } from '../unit/types.js';
import { claimedMarks } from '../window/claims.js';
import type { Mark, SetOut } from '../window/types.js';
import { BENCH_MESSAGES } from './messages.js';
import { sessionWords } from './words.js';

const raise = problemFactory(BENCH_MESSAGES);

/** Limits that no instrument in date can support at the tightest figure asked, and quantities that none measures. */
export function instrumentProblems(workshop: Workshop, routes: readonly Route[], now: string): Problem[] {
  const checks = [
    ...routes.flatMap(({ steps }) => steps.flatMap((step) => step.checks)),
    ...(workshop.setups ?? []).flatMap((rule) => rule.checks),
  ];
  const found = new Map<string, Problem>();
  for (const check of checks)
    for (const problem of checkProblems(check, workshop, now)) {
      const key = `${problem.id} ${/"[^"]+"/.exec(problem.text)?.[0]}`;
      if (!found.has(key)) found.set(key, problem);
    }
  return [...found.values()];
}

function checkProblems(check: RouteCheck, workshop: Workshop, now: string): Problem[] {
  const wanted = wantedBy(check);
  if (!wanted) return [];
  const { instruments, limits, rules } = workshop;
  const able = wouldDo(instruments, wanted, now);
  if (able.length === 0) {
    const said = { quantity: wanted.quantity, unit: wanted.unit, check: baseOf(check.id) };
    return [
      instruments.some((each) => measuresIt(each, wanted))
        ? raise('bench.no-measure', said, INSTRUMENTS)
        : raise('bench.no-measure/none', { ...said, kinds: kindsFor(wanted) }, INSTRUMENTS),
    ];
  }
  return limitsOf(check).flatMap((id) => {
    const limit = limits.byId.get(id);
    if (!limit) return [];
    const difference = limit.of !== 'value' && limit.of !== 'deviation';
    const supports = (instrument: Instrument, at: number) => {
      const band = bandFor(limit, check.size ?? at);
      return (
        band === undefined || supportedBy(foreseenU(instrument, at, difference), band, rules.decisionRule)
      );
    };
    const ats = [
      ...placesOf(check).filter(({ limits }) => (limits ?? check.limits).includes(id)),
      check,
    ].flatMap(({ expect }) => expect ?? []);
    const bad = (ats.length > 0 ? ats : [0]).find((at) => !able.some((each) => supports(each, at)));
    return bad === undefined
      ? []
      : [raise('bench.limit-unsupported', { id, limit: limit.title, check: baseOf(check.id) }, INSTRUMENTS)];
  });
}

/** Kinds of instruments that measure what is wanted. */
const kindsFor = ({ quantity, kinds }: Wanted): string[] =>
  (Object.keys(KIND_MEASURES) as InstrumentKind[]).filter(
    (kind) => KIND_MEASURES[kind].includes(quantity) && (kinds.length === 0 || kinds.includes(kind)),
  );

const INSTRUMENTS = { file: 'shared/instruments.yaml' };

const baseOf = (check: string): string => check.replace(/@[^/]*/, '');

/** Limits that neither a procedure nor a set-up names; without set-ups nobody can tell. */
export function unusedLimits(workshop: Workshop, named: ReadonlySet<string>): Problem[] {
  if (!workshop.setups) return [];
  const used = new Set([
    ...named,
    ...workshop.setups.flatMap(({ checks }) => checks.flatMap(({ limits }) => limits)),
  ]);
  return workshop.limits.limits
    .filter(({ id }) => !used.has(id))
    .map(({ id, title }) =>
      raise(
        'bench.limit-unused',
        { id, title },
        {
          file: 'shared/limits.yaml',
        },
      ),
    );
}

/** Marks of a unit that no step makes, or that two make. `made` are the kinds that the set gives a wall. */
export function markProblems(setOut: SetOut, { steps }: Route, made: ReadonlySet<string>): Problem[] {
  // One sentence for a procedure that says nothing of marks, instead of one for each mark.
  if (steps.every(({ marks }) => (marks ?? []).length === 0))
    return setOut.parts.some(({ marks }) => marks.some(({ kind }) => made.has(kind)))
      ? [raise('bench.mark-unmade')]
      : [];
  const makers = new Map<Mark, string[]>();
  for (const { id, marks, item } of steps)
    for (const { mark } of claimedMarks(setOut, marks ?? [], item))
      makers.set(mark, [...(makers.get(mark) ?? []), id]);
  const found = new Map<string, Problem>();
  for (const { id, says, marks } of setOut.parts)
    for (const mark of marks) {
      const by = makers.get(mark) ?? [];
      if (!made.has(mark.kind) || by.length === 1) continue;
      const about = { mark: setOut.titles[mark.kind] ?? mark.kind, part: says, id };
      const what = `${about.mark} ${says}`;
      if (!found.has(what))
        found.set(
          what,
          by.length === 0
            ? raise('bench.mark-unmade/one', about)
            : raise('bench.mark-twice', { ...about, steps: by }),
        );
    }
  return [...found.values()];
}

/** Codes that a scan could take for two things: units, people, instruments, lots, set-ups, and this bench. */
export function sharedCodes(workshop: Workshop, lots: readonly LotUsed[]): Problem[] {
  const owners = new Map<string, Map<string, { readonly what: Message; readonly file: string }>>();
  const add = (code: string, what: Message, file: string) => {
    const key = code.toUpperCase();
    const of = owners.get(key) ?? new Map<string, { readonly what: Message; readonly file: string }>();
    owners.set(key, of.set(String(what), { what, file }));
  };
  for (const name of workshop.jobs.names) {
    const job = workshop.jobs.get(name);
    if (job.ok)
      for (const { id } of job.value.value.units)
        add(id, sessionWords('code-unit', { job: name }), `shared/jobs/${name}.yaml`);
  }
  for (const { id, initials } of workshop.rules.people)
    for (const code of new Set([id.toUpperCase(), initials.toUpperCase()]))
      add(code, sessionWords('code-person', { id }), 'shared/people.yaml');
  for (const { id } of workshop.instruments)
    add(id, sessionWords('code-instrument'), 'shared/instruments.yaml');
  for (const { id } of workshop.setups ?? []) add(id, sessionWords('code-setup'), 'shared/setups.yaml');
  for (const { code, job } of lots)
    add(code, sessionWords('code-lot'), job === undefined ? 'logs' : `logs/${job}`);
  add(workshop.bench, sessionWords('code-bench'), 'shared/workshop.yaml');
  return [...owners].flatMap(([code, of]) => {
    const owned = [...of.values()];
    // Units of two jobs may share an id; the bench then asks for the job.
    if (owned.length < 2 || owned.every(({ what }) => what.id === 'code-unit')) return [];
    return [
      raise(
        'bench.code-shared',
        { code, kinds: new Several(owned.map(({ what }) => what)) },
        { file: owned.at(-1)!.file },
      ),
    ];
  });
}
