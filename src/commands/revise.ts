/** `revise`: moves a unit in progress to the current files, once it has shown what that re-opens and why. */
import { problemText, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { type RealPorts, realPorts } from '../session/workshopports.js';
import { findPerson } from '../unit/people.js';
import type { RevisionEffect } from '../unit/revision.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions } from './io.js';

const OPTIONS = {
  person: { type: 'string' },
  reason: { type: 'string' },
  yes: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.revise, OPTIONS, { least: 1 });
  if (typeof read === 'number') return read;
  const { person, reason, yes = false, json = false } = read.values;
  if (yes && (person === undefined || reason === undefined || reason.trim() === '')) {
    io.err(`A person and a reason are needed. [command.usage]\n  ${HELP.revise.split('\n')[0]}`);
    return EXIT.badInput;
  }
  const made = realPorts({ workshop: io.workshop });
  if (!made.ok) return fail(io, made.problems, EXIT.badInput);
  const ports = made.value;
  const opened = ports.open(read.positionals[0]!);
  if (opened.kind === 'failed') return fail(io, [opened.problem], EXIT.badInput);
  try {
    const effect = ports.revision();
    if (!yes || !effect.ok) return shown(io, effect, json);
    if (!json) for (const line of effectLines(effect.value)) io.out(line);
    return revised(io, ports, effect.value, { person: person!, reason: reason!, json });
  } finally {
    ports.close();
  }
}

function shown(io: Io, effect: Result<RevisionEffect>, json: boolean): number {
  if (!effect.ok) return refused(io, effect.problems[0]!, json, EXIT.doesNotHold);
  if (json) io.out(JSON.stringify({ ok: true, written: false, ...effect.value }));
  else {
    for (const line of effectLines(effect.value)) io.out(line);
    io.out('Nothing is written yet. With --person, --reason and --yes it is done.');
  }
  return EXIT.done;
}

/** What is to be done again, and why. */
function effectLines({ changed, reopens }: RevisionEffect): string[] {
  if (reopens.length === 0) return ['Nothing that was done is to be done again.'];
  const why = new Map(changed.map(({ step, reasons }) => [step, reasons]));
  return [
    'To be done again:',
    ...reopens.flatMap((step) => [
      `  ${sanitize(step)}`,
      ...(why.get(step) ?? ['rests on one of these']).map((reason) => `      ${sanitize(reason)}`),
    ]),
  ];
}

function revised(
  io: Io,
  ports: RealPorts,
  effect: RevisionEffect,
  { person, reason, json }: { readonly person: string; readonly reason: string; readonly json: boolean },
): number {
  const known = findPerson(ports.world().rules, person);
  const acted = ports.revise(reason, { person: known?.id ?? person });
  if (acted.kind === 'ask') return EXIT.doesNotHold;
  if (acted.kind !== 'done')
    return refused(io, acted.problem, json, acted.kind === 'failed' ? EXIT.resource : EXIT.doesNotHold);
  if (json) io.out(JSON.stringify({ ok: true, written: true, ...effect }));
  else io.out('Revised.');
  return EXIT.done;
}

function refused(io: Io, problem: Parameters<typeof problemText>[0], json: boolean, code: number): number {
  const { id, text, todo } = problem;
  if (json) io.out(JSON.stringify({ ok: false, refused: { id, text, todo } }));
  else io.err(problemText(problem));
  return code;
}
