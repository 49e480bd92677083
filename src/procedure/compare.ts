import { type Check, EVERYTHING, type Procedure, type Stage, type Step, stepsOf } from './model.js';
import type { Template } from './template.js';

export interface Difference {
  readonly change: 'added' | 'dropped' | 'changed' | 'moved';
  readonly thing: 'procedure' | 'stage' | 'step' | 'check' | 'hold' | 'limit';
  readonly id: string;
  /** One entry per changed field: `ask: "…" was "…"`. */
  readonly fields: readonly { readonly name: string; readonly was: string; readonly now: string }[];
}

/** In the order of the new procedure, dropped items last. */
export function compareProcedures(was: Procedure, now: Procedure): Difference[] {
  return [
    ...compared('procedure', [head(was)], [head(now)]),
    ...compared('hold', [...was.holds.values()].map(holdEntry), [...now.holds.values()].map(holdEntry)),
    ...compared('stage', was.stages.map(stageEntry), now.stages.map(stageEntry)),
    ...compared('step', stepsOf(was).map(stepEntry), stepsOf(now).map(stepEntry)),
    ...compared('check', stepsOf(was).flatMap(checkEntries), stepsOf(now).flatMap(checkEntries)),
    ...movedSteps(was, now),
  ];
}

interface ComparedLimit {
  readonly id: string;
  readonly bands: readonly { readonly upto?: number; readonly low?: number; readonly high?: number }[];
  readonly of: string;
  readonly unit: string;
  readonly source: { readonly kind: string; readonly text: string };
}

/** Limits added, dropped, moved (the figure changed) or changed (source or subject). */
export function compareLimits(was: readonly ComparedLimit[], now: readonly ComparedLimit[]): Difference[] {
  return compared('limit', was.map(limitEntry), now.map(limitEntry)).map((difference) =>
    difference.change === 'changed' && difference.fields.some(({ name }) => name === 'allows')
      ? { ...difference, change: 'moved' }
      : difference,
  );
}

/** Text lines: `+ step frame.mitres`, `~ check square.frame/flat`, with the old value underneath. */
export function differenceText(differences: readonly Difference[]): string[] {
  const signs = { added: '+', dropped: '-', changed: '~', moved: '>' } as const;
  return differences.flatMap(({ change, thing, id, fields }) => [
    `${signs[change]} ${thing} ${id}`,
    ...fields.flatMap(({ name, was, now }) => [
      `    ${name}: ${now || '(none)'}`,
      `      was: ${was || '(none)'}`,
    ]),
  ]);
}

interface Entry {
  readonly id: string;
  readonly fields: Readonly<Record<string, string>>;
}

function compared(thing: Difference['thing'], was: readonly Entry[], now: readonly Entry[]): Difference[] {
  const before = new Map(was.map((entry) => [entry.id, entry]));
  const after = new Set(now.map(({ id }) => id));
  const kept = now.flatMap((entry): Difference[] => {
    const old = before.get(entry.id);
    if (!old) return [{ change: 'added', thing, id: entry.id, fields: [] }];
    const fields = Object.keys({ ...old.fields, ...entry.fields })
      .map((name) => ({ name, was: old.fields[name] ?? '', now: entry.fields[name] ?? '' }))
      .filter((field) => field.was !== field.now);
    return fields.length === 0 ? [] : [{ change: 'changed', thing, id: entry.id, fields }];
  });
  const dropped = was
    .filter(({ id }) => !after.has(id))
    .map(({ id }): Difference => ({ change: 'dropped', thing, id, fields: [] }));
  return [...kept, ...dropped];
}

/** Steps in both versions that now follow a different step. */
function movedSteps(was: Procedure, now: Procedure): Difference[] {
  const before = placesAmong(was, now);
  return [...placesAmong(now, was)]
    .filter(([id, after]) => after !== before.get(id))
    .map(([id, after]) => ({
      change: 'moved',
      thing: 'step',
      id,
      fields: [{ name: 'after', was: before.get(id)!, now: after }],
    }));
}

/** Each step shared with the other version, and the shared step before it. */
function placesAmong(procedure: Procedure, other: Procedure): Map<string, string> {
  const both = new Set(stepsOf(other).map(({ id }) => id));
  const ids = stepsOf(procedure)
    .map(({ id }) => id)
    .filter((id) => both.has(id));
  return new Map(ids.map((id, i) => [id, ids[i - 1] ?? '(first)']));
}

const head = (procedure: Procedure): Entry => ({
  id: procedure.name,
  fields: { version: procedure.version, title: procedure.title, deferral: procedure.deferral.text },
});

const holdEntry = (hold: {
  id: string;
  title: string;
  notSamePerson: boolean;
  evidence: boolean;
}): Entry => ({
  id: hold.id,
  fields: {
    title: hold.title,
    notSamePerson: String(hold.notSamePerson),
    evidence: String(hold.evidence),
  },
});

const stageEntry = ({ id, title, branch, after }: Stage): Entry => ({
  id,
  fields: { title, branch, after: after.join(', ') },
});

const lines = (texts: readonly Template[]): string => texts.map(({ text }) => text).join(' / ');

const stepEntry = (step: Step): Entry => ({
  id: step.id,
  fields: {
    stage: step.stage,
    each: step.each,
    when: step.when?.text ?? '',
    title: step.title.text,
    do: lines(step.do),
    why: step.why.text,
    watch: step.watch.text,
    caution: step.caution?.text ?? '',
    hazards: step.hazards.join(', '),
    tools: lines(step.tools),
    makes: step.makes.join(', '),
    rests: step.rests.map((feature) => (feature === EVERYTHING ? '(everything)' : feature)).join(', '),
    hold: step.hold ?? '',
    'not before': step.notBefore
      ? `${step.notBefore.features.join(', ')} + ${step.notBefore.minutes.text} min`
      : '',
    'not after': step.notAfter
      ? `${step.notAfter.features.join(', ')} + ${step.notAfter.minutes.text} min`
      : '',
    'set-up': step.setup ?? '',
  },
});

const checkEntries = (step: Step): Entry[] =>
  step.checks.map((check) => ({ id: `${step.id}/${check.id}`, fields: checkFields(check) }));

const checkFields = (check: Check): Record<string, string> => ({
  kind: check.kind,
  ask: check.ask.text,
  how: check.how?.text ?? '',
  when: check.when?.text ?? '',
  expect: check.expect?.text ?? '',
  nominal: check.nominal ? `${check.nominal.w.text} x ${check.nominal.h.text}` : '',
  limits: check.limits.join(', '),
  rhythm: check.nth === undefined ? check.rhythm : `${check.rhythm} ${check.nth}`,
  holds: check.holds?.text ?? '',
  against: check.against,
  unit: check.unit ?? '',
  quantity: check.quantity ?? '',
  points: (check.points ?? [])
    .map(({ id, text, expect, limits }) =>
      [`${id}: ${text.text}`, expect && `(${expect.text})`, limits && `[${limits.join(', ')}]`]
        .filter(Boolean)
        .join(' '),
    )
    .join(' / '),
  pairs: (check.pairs ?? []).map((pair) => pair.join(' and ')).join(', '),
  choices: (check.choices ?? []).map((c) => `${c.id}${c.pass ? '' : ' (fails)'}: ${c.text.text}`).join(' / '),
  instruments: check.instruments.join(', '),
  rests: check.rests.join(', '),
  lot: [
    check.lot,
    check.accepts && 'accepted here',
    check.serial && 'by number',
    check.dated && 'with its date',
  ]
    .filter(Boolean)
    .join(', '),
  evidence: String(check.evidence),
  safety: String(check.safety),
});

const limitEntry = (limit: ComparedLimit): Entry => ({
  id: limit.id,
  fields: {
    allows: limit.bands
      .map(({ upto, low, high }) =>
        [
          upto === undefined ? '' : `up to ${upto}:`,
          low === undefined ? '' : `least ${low}`,
          high === undefined ? '' : `most ${high}`,
        ]
          .filter((part) => part !== '')
          .join(' '),
      )
      .join('; '),
    of: limit.of,
    unit: limit.unit,
    source: `${limit.source.kind}: ${limit.source.text}`,
  },
});
