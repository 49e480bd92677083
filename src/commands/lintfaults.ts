/** One fault, one message: where a problem of a unit stands in its job, and which problems are echoes of others. */
import { PositionedYaml } from '../base/positionedyaml.js';
import type { Place, Problem } from '../base/problem.js';
import type { Workshop } from '../store/workshop.js';
import type { Unit } from '../window/types.js';

/** Lines of a job file; its text is read with positions when the first is asked for. */
export class JobLines {
  readonly #workshop: Workshop;
  readonly #name: string;
  #yaml: PositionedYaml | undefined;
  #file: string | undefined;

  constructor(workshop: Workshop, name: string) {
    this.#workshop = workshop;
    this.#name = name;
  }

  ofUnit(unit: Unit): Place {
    const job = this.#workshop.jobs.get(this.#name);
    const marks = job.ok ? [...new Set(job.value.value.units.map(({ mark }) => mark))] : [];
    return this.#find(['units', marks.indexOf(unit.mark), 'mark']);
  }

  /** Of a profile set or a procedure that is not there: where the job names it. */
  placed(problem: Problem): Problem {
    if (!problem.id.startsWith('workshop.unknown')) return problem;
    const key = problem.place?.file === 'procedures' ? 'procedure' : 'profile_set';
    return { ...problem, place: this.#find([key]) };
  }

  #find(path: readonly PropertyKey[]): Place {
    const job = this.#workshop.jobs.get(this.#name);
    if (!job.ok) return { file: `shared/jobs/${this.#name}` };
    this.#file ??= job.value.source.file;
    if (!/\.ya?ml$/i.test(this.#file)) return { file: this.#file };
    this.#yaml ??= new PositionedYaml(job.value.source);
    return this.#yaml.find(path);
  }
}

const placeText = ({ place }: Problem): string =>
  place === undefined ? '' : `${place.file}:${place.line ?? ''}:${place.column ?? ''}`;
/** Without the unit and the light that it was found at. */
const bare = ({ text }: Problem): string => text.replace(/^[^\s:]+-\d+: /, '').replace(/^L\d+: /, '');

/** What several units have of one line of one file, or of the same words, is told of the first. */
export function oncePerFault(
  broken: readonly Problem[],
  unwise: readonly Problem[],
): { broken: Problem[]; unwise: Problem[] } {
  const ofSets = new Set([...broken, ...unwise].filter(({ id }) => id.startsWith('set.')).map(placeText));
  const lacks = new Set(
    broken.flatMap(({ id, text }) => {
      const key = id === 'procedure.value' ? /": No such key: ([^;]+?)\.?$/.exec(text)?.[1] : undefined;
      return key === undefined ? [] : [key];
    }),
  );
  const seen = new Set<string>();
  return {
    broken: [...broken],
    unwise: unwise.filter((problem) => {
      const { id } = problem;
      if (id === 'procedure.figure-unknown' && [...lacks].some((key) => problem.text.includes(`"${key}"`)))
        return false;
      if (!/^(setout|order|job|layout)\./.test(id)) return true;
      if (id.startsWith('setout.') && ofSets.has(placeText(problem))) return false;
      // A glass is named once for many; a size that is refused belongs to its own line of the order.
      const key = id.startsWith('job.')
        ? `${id} ${bare(problem)}`
        : `${id} ${placeText(problem)} ${id.startsWith('setout.') ? '' : bare(problem)}`;
      const again = seen.has(key);
      seen.add(key);
      return !again;
    }),
  };
}
