/** `setup`: the workshop's set-ups and first-offs, and what was made under a set-up that turned out wrong. */

import { type Problem, problemFactory, problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { localTimes, utcText } from '../base/wallclock.js';
import { data, type Spoken } from '../base/words.js';
import { measuresIt } from '../measure/fitness.js';
import { findInstrument } from '../measure/instruments.js';
import { wantedBy } from '../procedure/wanted.js';
import { answerSays, documentSay } from '../record/telling.js';
import type { Acted } from '../session/ports.js';
import { type RealPorts, realPorts } from '../session/workshopports.js';
import { type JournalEvent, setupEnds } from '../unit/events.js';
import type { InDoubt } from '../unit/setups.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, asLines, EXIT, fail, type Io, indented, readOptions, retold, saying, tellOf } from './io.js';
import { MAKING_SAYS } from './words/making.js';
import { inEnglish } from './yesno.js';

const raise = problemFactory(COMMAND_MESSAGES);

type End = (typeof setupEnds)[number];

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(
    args,
    io,
    HELP.setup,
    {
      json: { type: 'boolean' },
      person: { type: 'string' },
      instrument: { type: 'string', multiple: true },
      value: { type: 'string', multiple: true },
      confirmed: { type: 'boolean' },
      note: { type: 'string' },
      snag: { type: 'boolean' },
    },
    { most: 3 },
  );
  if (typeof read === 'number') return read;
  const made = realPorts({ workshop: io.workshop });
  if (!made.ok) return said(io, made.problems, EXIT.badInput);
  const { values, positionals } = read;
  const [verb = 'list', setup, why] = positionals;
  const ports = made.value;
  const options: Wish = { ...values, json: values.json === true };
  if (verb === 'list' && setup === undefined) return list(ports, io, options.json);
  if (verb === 'first-off' && setup !== undefined && why === undefined)
    return firstOff(ports, setup, options, io);
  if (verb === 'end' && setup !== undefined && isEnd(why)) {
    const note = options.note === undefined ? {} : { note: options.note };
    const acted = ports.act({ do: 'end-setup', setup, why, ...note }, handOf(options));
    if (acted.kind === 'done') return list(ports, io, options.json);
    if (acted.kind === 'ask') return EXIT.doesNotHold;
    return said(
      io,
      [acted.problem],
      acted.kind === 'failed' ? EXIT.resource : EXIT.doesNotHold,
      options.json,
    );
  }
  return fail(
    io,
    [raise('command.usage/setup', { usage: HELP.setup.split('\n').slice(0, 3).join('\n  ') })],
    EXIT.badInput,
  );
}

interface Wish {
  readonly json: boolean;
  readonly person?: string | undefined;
  readonly instrument?: string[] | undefined;
  readonly value?: string[] | undefined;
  readonly confirmed?: boolean | undefined;
  readonly note?: string | undefined;
  readonly snag?: boolean | undefined;
}

const isEnd = (why: string | undefined): why is End => setupEnds.some((end) => end === why);

function list(ports: RealPorts, io: Io, json: boolean): number {
  const say = saying(io, MAKING_SAYS);
  const asked = (check: string, ask: string, tools: readonly string[]): Spoken => {
    const question = { check: sanitize(check), ask: sanitize(ask) };
    const [last = '', ...others] = tools.toReversed();
    if (last === '') return say('setup-check', question);
    const some = others.toReversed();
    return say('setup-check-with', {
      ...question,
      tools: some.length === 0 ? last : say('setup-or', { some, last }),
    });
  };
  const standings = ports.setups();
  if (standings && !standings.ok) return said(io, standings.problems, EXIT.doesNotHold, json);
  const rows = (standings?.value ?? []).map(({ rule, id, valid, because, uses, until }) => ({
    setup: rule.id,
    title: rule.title,
    valid,
    id: id ?? null,
    because,
    uses,
    until: until ?? null,
    checks: rule.checks.map(({ id: check, ask, kind, instruments }) => ({
      check: short(check),
      ask,
      kind,
      instruments,
    })),
  }));
  if (json) io.out(asJson({ setups: rows }));
  else if (!standings) io.out(say('setups-none'));
  else
    for (const { setup, valid, because, until, checks } of rows) {
      const row = { setup: sanitize(setup), because: retold(io, because) };
      const stands = valid
        ? until
          ? say('setup-valid-until', { ...row, until: utcText(until) })
          : say('setup-valid', row)
        : say('setups-to-prove', row);
      io.out(data(localTimes(stands, ports.place.workshop.zone, Date.now())));
      if (!valid)
        for (const { check, ask, instruments } of checks) io.out(indented(asked(check, ask, instruments), 4));
    }
  return EXIT.done;
}

function firstOff(ports: RealPorts, setup: string, options: Wish, io: Io): number {
  const given = Object.fromEntries(
    (options.value ?? []).map((text) => {
      const [check = '', ...rest] = text.split('=');
      return [check, inEnglish(rest.join('='), tellOf(io))];
    }),
  );
  const hand = handOf(options);
  const acted = ports.act(
    {
      do: 'first-off',
      setup,
      values: given,
      with: toolsFor(ports, setup, options.instrument ?? []),
      confirmed: options.confirmed === true,
      ...(options.note === undefined ? {} : { note: options.note }),
    },
    hand,
  );
  if (acted.kind === 'ask') {
    if (options.json) io.out(asJson({ ok: false, ask: acted.question }));
    else
      io.err(
        asLines([
          sanitize(tellOf(io)(acted.question.text)),
          ...[
            ...acted.question.details.map((text) => sanitize(tellOf(io)(text))),
            saying(io, MAKING_SAYS)('setup-confirm'),
          ].map((line) => indented(line)),
        ]),
      );
    return EXIT.doesNotHold;
  }
  if (acted.kind !== 'done')
    return said(
      io,
      [acted.problem],
      acted.kind === 'failed' ? EXIT.resource : EXIT.doesNotHold,
      options.json,
    );
  const event = acted.events[0]!;
  const passed = event.kind === 'first-off' && event.passed;
  const doubt = passed ? undefined : ports.inDoubt(setup);
  const raised = doubt && options.snag ? ports.act({ do: 'snag-setup', setup }, hand) : undefined;
  const snags = (raised?.kind === 'done' && raised.snags) || [];
  if (options.json) io.out(asJson({ ok: passed, event, inDoubt: doubt ?? null, snags }));
  else {
    const say = saying(io, MAKING_SAYS);
    io.out(
      passed
        ? say('setup-pass', { setup: sanitize(setup), id: sanitize(`${setup}-${event.n}`) })
        : say('setup-fail', { setup: sanitize(setup) }),
    );
    if (!passed) for (const line of failedText(event, io)) io.out(line);
    if (doubt) for (const line of doubtText(doubt, snags, options.snag === true, io)) io.out(line);
  }
  return passed ? EXIT.done : EXIT.doesNotHold;
}

/** What did not pass, and the limit that decided it. */
function failedText(event: JournalEvent, io: Io): Spoken[] {
  if (event.kind !== 'first-off') return [];
  const tell = documentSay(io.reader?.language ?? 'en', tellOf(io));
  return event.checks
    .filter(({ verdict }) => verdict.outcome !== 'pass')
    .map(({ check, answer, verdict }) => {
      const why = verdict.rules.find(({ outcome }) => outcome === verdict.outcome)?.says ?? verdict.notes[0];
      const row = { check: sanitize(short(check)), says: answerSays(tell, answer, undefined) };
      const say = saying(io, MAKING_SAYS);
      return indented(
        why === undefined
          ? say('setup-failed-check', row)
          : say('setup-failed-check-why', { ...row, why: retold(io, why) }),
        6,
      );
    });
}

type Raised = NonNullable<Extract<Acted, { kind: 'done' }>['snags']>[number];

function doubtText(doubt: InDoubt, snags: readonly Raised[], wanted: boolean, io: Io): Spoken[] {
  const say = saying(io, MAKING_SAYS);
  if (doubt.rows.length === 0) return [say('setups-no-doubt')];
  const units = [...new Set(doubt.rows.map(({ job, unit }) => `${job}/${unit}`))];
  return [
    say('setups-doubt', { since: doubt.lastGood ?? '' }),
    ...units.map((key) => {
      const steps = doubt.rows.filter(({ job, unit }) => `${job}/${unit}` === key).map(({ step }) => step);
      const snag = snags.find(({ job, unit }) => `${job}/${unit}` === key);
      const row = say('setup-doubt-row', { unit: sanitize(key), steps: [...new Set(steps)].map(String) });
      if (!snag) return indented(row);
      return indented(
        snag.problem
          ? say('setup-doubt-no-snag', { row, why: sanitize(tellOf(io)(snag.problem.said)) })
          : say('setup-doubt-snag', { row }),
      );
    }),
    ...(wanted ? [] : [say('setup-snag-how')]),
  ];
}

function handOf(options: Wish) {
  return { person: options.person };
}

/** The instrument of each check: of those named, the one that measures what it asks. */
function toolsFor(ports: RealPorts, setup: string, codes: readonly string[]): Record<string, string> {
  const standings = ports.setups();
  const rule = standings?.ok ? standings.value.find((each) => each.rule.id === setup)?.rule : undefined;
  const named = codes.flatMap((code) => findInstrument(ports.world().instruments, code) ?? []);
  return Object.fromEntries(
    (rule?.checks ?? []).flatMap((check) => {
      const wanted = wantedBy(check);
      const tool = wanted && (named.find((each) => measuresIt(each, wanted)) ?? named[0]);
      return tool ? [[check.id, tool.id] as const] : [];
    }),
  );
}

const short = (check: string): string => check.slice(check.indexOf('/') + 1);

function said(io: Io, problems: readonly Problem[], code: number, json = false): number {
  if (json)
    io.out(asJson({ ok: false, refused: problems.map(({ id, text, todo }) => ({ id, text, todo })) }));
  else for (const problem of problems) io.err(problemTold(problem, io.reader?.tell));
  return code;
}
