/** `revise`: moves a unit in progress to the current job, profile set, procedure and limits files. */
import { problemText } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { realPorts } from '../session/workshopports.js';
import { HELP } from './help.js';
import { EXIT, type Io, readOptions } from './io.js';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(
    args,
    io,
    HELP.revise,
    { person: { type: 'string' }, reason: { type: 'string' }, json: { type: 'boolean' } },
    { least: 1 },
  );
  if (typeof read === 'number') return read;
  const { person, reason, json } = read.values;
  if (person === undefined || reason === undefined || reason.trim() === '') {
    io.err(`A person and a reason are needed. [command.usage]\n  ${HELP.revise.split('\n')[0]}`);
    return EXIT.badInput;
  }
  const made = realPorts({ workshop: io.workshop });
  const ports = made.ok ? made.value : undefined;
  const opened = ports?.open(read.positionals[0]!);
  if (!made.ok || opened?.kind === 'failed') {
    for (const problem of made.ok ? [] : made.problems) io.err(problemText(problem));
    if (opened?.kind === 'failed') io.err(problemText(opened.problem));
    return EXIT.badInput;
  }
  const code = person.toLowerCase();
  const known = ports!
    .world()
    .rules.people.find(({ id, initials }) => id.toLowerCase() === code || initials.toLowerCase() === code);
  try {
    const acted = ports!.revise(reason, { person: known?.id ?? person });
    if (acted.kind === 'ask') return EXIT.doesNotHold;
    if (acted.kind !== 'done') {
      const { id, text, todo } = acted.problem;
      if (json) io.out(JSON.stringify({ ok: false, refused: { id, text, todo } }));
      else io.err(problemText(acted.problem));
      return acted.kind === 'failed' ? EXIT.resource : EXIT.doesNotHold;
    }
    const changed = acted.events.flatMap((event) => (event.kind === 'revised' ? event.changed : []));
    const stale = [...(ports!.world().open?.state.steps.values() ?? [])]
      .filter(({ status }) => status === 'stale')
      .map(({ step }) => step.id);
    if (json) io.out(JSON.stringify({ ok: true, changed, stale }));
    else
      io.out(
        changed.length === 0
          ? 'Revised; nothing that was done is to be done again.'
          : `Revised. To be done again: ${sanitize([...new Set([...changed, ...stale])].join(', '))}`,
      );
    return EXIT.done;
  } finally {
    ports!.close();
  }
}
