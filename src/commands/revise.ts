/** `revise`: moves a unit in progress to the current files, once it has shown what that re-opens and why. */
import { type Problem, problemFactory, problemTold, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import type { Spoken } from '../base/words.js';
import { type RealPorts, realPorts } from '../session/workshopports.js';
import { findPerson } from '../unit/people.js';
import type { RevisionEffect } from '../unit/revision.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, indented, readOptions, retold, saying, usageOf } from './io.js';
import { secretsOf } from './secret.js';
import { withTitles } from './titles.js';
import { KEY_SAYS } from './words/keys.js';
import { MAKING_SAYS } from './words/making.js';

const raise = problemFactory(COMMAND_MESSAGES);

const OPTIONS = {
  person: { type: 'string' },
  reason: { type: 'string' },
  yes: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

export async function run(args: string[], from: Io): Promise<number> {
  const read = readOptions(args, from, HELP.revise, OPTIONS, { least: 1 });
  if (typeof read === 'number') return read;
  const { person, reason, yes = false, json = false } = read.values;
  if (yes && (person === undefined || reason === undefined || reason.trim() === '')) {
    return fail(from, [raise('command.usage/revise', { usage: usageOf(HELP.revise) })], EXIT.badInput);
  }
  const made = realPorts({ workshop: from.workshop });
  if (!made.ok) return fail(from, made.problems, EXIT.badInput);
  const ports = made.value;
  const io = await withTitles(from, ports.world().more!.titles!);
  const opened = ports.open(read.positionals[0]!);
  if (opened.kind === 'failed') return fail(io, [opened.problem], EXIT.badInput);
  try {
    const effect = ports.revision();
    if (!yes || !effect.ok) return shown(io, ports, effect, json);
    if (!json) for (const line of effectLines(ports, effect.value, io)) io.out(line);
    const known = findPerson(ports.world().rules, person!);
    const pin = known?.pin === undefined ? undefined : await pinOf(io, known.name);
    const hand = { person: known?.id ?? person! };
    const acted = ports.revise({ reason: reason!, ...(pin === undefined ? {} : { pin }) }, hand);
    if (acted.kind === 'ask') return EXIT.doesNotHold;
    if (acted.kind !== 'done')
      return refused(io, acted.problem, json, acted.kind === 'failed' ? EXIT.resource : EXIT.doesNotHold);
    if (json) io.out(asJson({ ok: true, written: true, ...effect.value }));
    else io.out(saying(io, MAKING_SAYS)('revise-done'));
    return EXIT.done;
  } finally {
    ports.close();
  }
}

async function pinOf(io: Io, name: string): Promise<string | undefined> {
  const secrets = secretsOf(io);
  try {
    return await secrets.ask(saying(io, KEY_SAYS)('pin-of', { name: sanitize(name) }));
  } finally {
    secrets.close();
  }
}

function shown(io: Io, ports: RealPorts, effect: Result<RevisionEffect>, json: boolean): number {
  if (!effect.ok) return refused(io, effect.problems[0]!, json, EXIT.doesNotHold);
  if (json) io.out(asJson({ ok: true, written: false, ...effect.value }));
  else {
    for (const line of effectLines(ports, effect.value, io)) io.out(line);
    io.out(saying(io, MAKING_SAYS)('revise-not-yet'));
  }
  return EXIT.done;
}

/** What is to be done or checked again, and why. */
function effectLines(ports: RealPorts, { changed, reopens, again }: RevisionEffect, io: Io): Spoken[] {
  const say = saying(io, MAKING_SAYS);
  const { id, state } = ports.world().open!;
  const why = new Map([...changed, ...again].map(({ step, reasons }) => [step, reasons]));
  const titles = new Map(state.route.steps.map((step) => [step.id, step.title]));
  const listed = (steps: readonly string[]) =>
    steps.flatMap((step) => [
      indented(say('revise-step', { title: retold(io, titles.get(step) ?? step), id: sanitize(step) })),
      ...(why.get(step)?.map((reason) => retold(io, reason)) ?? [say('revise-rests')]).map((reason) =>
        indented(reason, 6),
      ),
    ]);
  return [
    ...(state.finished ? [say('revise-finished', { unit: id })] : []),
    ...(reopens.length > 0 ? [say('revise-again'), ...listed(reopens)] : []),
    ...(again.length > 0 ? [say('revise-release'), ...listed(again.map(({ step }) => step))] : []),
    ...(reopens.length + again.length === 0 ? [say('revise-nothing')] : []),
  ];
}

function refused(io: Io, problem: Problem, json: boolean, code: number): number {
  const { id, text, todo } = problem;
  if (json) io.out(asJson({ ok: false, refused: { id, text, todo } }));
  else io.err(problemTold(problem, io.reader?.tell));
  return code;
}
