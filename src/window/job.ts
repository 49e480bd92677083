/** Reading a job: YAML, or a table exported from a spreadsheet. Every line becomes as many units as its quantity says. */
import { bad, good, type Place, type Problem, type Result, raiser } from '../ground/problem.js';
import type { SourceText } from '../ground/sourcetext.js';
import { readYaml } from '../ground/yamlfile.js';
import { readJobTable } from './jobcsv.js';
import { readLayout } from './joblayout.js';
import { type JobFile, jobSchema } from './jobschema.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { Makeup, Unit } from './types.js';

const raise = raiser(WINDOW_MESSAGES);

export interface Job {
  readonly name: string;
  readonly title: string;
  readonly customer: string;
  /** Name of the profile set. */
  readonly profileSet: string;
  /** Name of the procedure. */
  readonly procedure: string;
  readonly revision: string;
  /** The job's own glass make-ups. */
  readonly glasses: Readonly<Record<string, Makeup>>;
  readonly units: readonly Unit[];
}

/** Reads a job file. A name that ends in .csv is read as a table. */
export function parseJob(source: SourceText): Result<Job> {
  if (/\.csv$/i.test(source.file)) {
    const table = readJobTable(source);
    return table.ok ? jobOf(table.value.job, table.value.at) : table;
  }
  const read = readYaml(source, jobSchema);
  return read.ok ? jobOf(read.value.value, read.value.at) : read;
}

function jobOf(file: JobFile, at: (path: readonly PropertyKey[]) => Place): Result<Job> {
  const problems: Problem[] = [];
  const units: Unit[] = [];
  const marks = new Map<string, number>();
  for (const [name, glass] of Object.entries(file.glasses))
    if (glass.gaps.length !== glass.panes.length - 1)
      problems.push(
        raise(
          'job.glass',
          `Glass ${name} has ${glass.panes.length} panes and ${glass.gaps.length} gaps.`,
          at(['glasses', name]),
          'Give one gap fewer than there are panes.',
        ),
      );
  file.units.forEach((line, i) => {
    const before = marks.get(line.mark);
    if (before !== undefined)
      problems.push(
        raise('job.duplicate', `Mark ${line.mark} stands twice in this job.`, at(['units', i, 'mark'])),
      );
    marks.set(line.mark, i);
    const layout = readLayout(
      line.layout,
      ['units', i, 'layout'],
      { glass: line.glass ?? file.glass, width: line.width, height: line.height, at },
      problems,
    );
    if (!layout) return;
    for (let number = 1; number <= line.quantity; number++)
      units.push({
        id: `${line.mark}-${number}`,
        mark: line.mark,
        number,
        job: file.name,
        width: line.width,
        height: line.height,
        layout,
        room: line.room,
        note: line.note,
        outsideColour: line.outside_colour ?? line.colour ?? file.outside_colour ?? file.colour,
        insideColour: line.inside_colour ?? line.colour ?? file.inside_colour ?? file.colour,
        needs: {
          escape: line.needs.escape,
          restrictor: line.needs.restrictor,
          safetyGlass: line.needs.safety_glass,
        },
        glasses: file.glasses,
      });
  });
  // P1 with number 1 and a mark P1-1 would make one unit id of two windows.
  const ids = new Map<string, string>();
  for (const unit of units) {
    const other = ids.get(unit.id.toLowerCase());
    if (other !== undefined && other !== unit.mark)
      problems.push(
        raise('job.duplicate', `Marks ${other} and ${unit.mark} give one unit id, ${unit.id}.`, {
          file: at([]).file,
        }),
      );
    ids.set(unit.id.toLowerCase(), unit.mark);
  }
  if (problems.length > 0) return bad(...problems);
  return good({
    name: file.name,
    title: file.title,
    customer: file.customer,
    profileSet: file.profile_set,
    procedure: file.procedure,
    revision: file.revision,
    glasses: file.glasses,
    units,
  });
}
