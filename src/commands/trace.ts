/** `trace`: every unit and step that a lot, instrument, person, set-up or procedure version reached: a recall list. */
import { problemText } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { realDisk } from '../store/disk.js';
import { findIndex } from '../store/findindex.js';
import { readEvents } from '../store/journal.js';
import { mayHold, type TracedUnit, type TraceQuery, traceUnits } from '../unit/trace.js';
import { HELP } from './help.js';
import { EXIT, type Io, readOptions } from './io.js';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.trace, {
    lot: { type: 'string' },
    instrument: { type: 'string' },
    person: { type: 'string' },
    'set-up': { type: 'string' },
    'procedure-version': { type: 'string' },
    json: { type: 'boolean' },
  });
  if (typeof read === 'number') return read;
  const { values } = read;
  const wanted = {
    lot: values.lot,
    instrument: values.instrument,
    person: values.person,
    setup: values['set-up'],
    procedureVersion: values['procedure-version'],
  };
  const query = Object.fromEntries(
    Object.entries(wanted).filter(([, value]) => value !== undefined),
  ) as TraceQuery;
  if (Object.keys(query).length === 0) {
    io.err(`Nothing to look for. [command.usage]\n  ${HELP.trace.split('\n')[0]}`);
    return EXIT.badInput;
  }
  const units: TracedUnit[] = [];
  let damaged = false;
  for (const { job, unit, kept } of findIndex(realDisk, io.workshop)) {
    if (kept && !mayHold(kept.reaches, query)) continue;
    const events = readEvents(realDisk, io.workshop, job, unit);
    if (events.ok) units.push({ job, unit, events: events.value });
    else {
      damaged = true;
      for (const problem of events.problems) io.err(problemText(problem));
    }
  }
  const rows = traceUnits(units, query);
  if (values.json)
    io.out(JSON.stringify({ query, units: new Set(rows.map((row) => `${row.job}/${row.unit}`)).size, rows }));
  else {
    let last = '';
    for (const row of rows) {
      const unit = `${row.job}/${row.unit}`;
      if (unit !== last) io.out(sanitize(unit));
      last = unit;
      const where = row.check ?? row.step ?? row.kind;
      io.out(
        `  ${row.at}  ${sanitize(row.by).padEnd(6)} ${sanitize(where)}: ${sanitize(row.what)}${row.counts ? '' : ' (made again or put right since)'}`,
      );
    }
    io.out(
      rows.length === 0
        ? 'Nothing found.'
        : `${new Set(rows.map((row) => `${row.job}/${row.unit}`)).size} unit(s), ${rows.length} entries.`,
    );
  }
  if (damaged) return EXIT.badInput;
  return rows.length === 0 ? EXIT.doesNotHold : EXIT.done;
}
