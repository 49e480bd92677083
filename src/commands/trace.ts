/** `trace`: every unit and step that a lot, instrument, person, set-up or procedure version reached: a recall list. */
import { problemFactory, problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { utcText } from '../base/wallclock.js';
import type { Spoken } from '../base/words.js';
import { realDisk } from '../store/disk.js';
import { findIndex } from '../store/findindex.js';
import { readEvents } from '../store/journal.js';
import { mayHold, type TracedUnit, type TraceQuery, traceUnits } from '../unit/trace.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import {
  asJson,
  asLines,
  EXIT,
  fail,
  type Io,
  indented,
  readOptions,
  retold,
  saying,
  usageOf,
} from './io.js';
import { byTheWall } from './wall.js';
import { BOARD_SAYS } from './words/board.js';

const raise = problemFactory(COMMAND_MESSAGES);

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
    return fail(io, [raise('command.usage/trace', { usage: usageOf(HELP.trace) })], EXIT.badInput);
  }
  const units: TracedUnit[] = [];
  let damaged = false;
  for (const { job, unit, kept } of findIndex(realDisk, io.workshop)) {
    if (kept && !mayHold(kept.reaches, query)) continue;
    const events = readEvents(realDisk, io.workshop, job, unit);
    if (events.ok) units.push({ job, unit, events: events.value });
    else {
      damaged = true;
      for (const problem of events.problems) io.err(problemTold(problem, io.reader?.tell));
    }
  }
  const rows = traceUnits(units, query);
  if (values.json)
    io.out(asJson({ query, units: new Set(rows.map((row) => `${row.job}/${row.unit}`)).size, rows }));
  else {
    const say = saying(io, BOARD_SAYS);
    const lines: Spoken[] = [];
    let last = '';
    for (const row of rows) {
      const unit = `${row.job}/${row.unit}`;
      if (unit !== last) lines.push(sanitize(unit));
      last = unit;
      const shown = say('trace-row', {
        at: utcText(row.at),
        by: sanitize(row.by).padEnd(6),
        where: sanitize(row.check ?? row.step ?? row.kind),
        what: retold(io, row.what),
      });
      lines.push(indented(row.counts ? shown : say('trace-dead', { row: shown })));
    }
    const reached = new Set(rows.map((row) => `${row.job}/${row.unit}`)).size;
    lines.push(
      rows.length === 0 ? say('trace-none') : say('trace-count', { units: reached, rows: rows.length }),
    );
    io.out(asLines(await byTheWall(io, lines)));
  }
  if (damaged) return EXIT.badInput;
  return rows.length === 0 ? EXIT.doesNotHold : EXIT.done;
}
