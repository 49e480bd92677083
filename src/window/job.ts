/** Reads a job from YAML or a spreadsheet export. Every line becomes as many units as its quantity. */
import {
  err,
  ok,
  type Place,
  type Problem,
  problemFactory,
  type Result,
  type SourceText,
} from '../base/problem.js';
import { readYaml } from '../base/yaml.js';
import { handingOf } from './handing.js';
import { readJobTable } from './jobcsv.js';
import { type JobFile, jobSchema, type LayoutInput, type SplitInput } from './jobschema.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { DividerPositions, Layout, Makeup, Unit } from './types.js';

const raise = problemFactory(WINDOW_MESSAGES);

export interface Job {
  readonly name: string;
  readonly title: string;
  readonly customer: string;
  readonly profileSet: string;
  readonly procedure: string;
  readonly revision: string;
  readonly glasses: Readonly<Record<string, Makeup>>;
  readonly units: readonly Unit[];
}

/** A file name ending in .csv is read as a table. */
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
          'job.glass/glass',
          { name, count: glass.panes.length, count2: glass.gaps.length },
          at(['glasses', name]),
        ),
      );
  file.units.forEach((line, i) => {
    const before = marks.get(line.mark);
    if (before !== undefined)
      problems.push(raise('job.duplicate', { mark: line.mark }, at(['units', i, 'mark'])));
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
        fittings: line.fittings,
        glasses: file.glasses,
      });
  });
  // Number 1 of P1 and a mark P1-1 would give two windows the same unit id.
  const ids = new Map<string, string>();
  for (const unit of units) {
    const other = ids.get(unit.id.toLowerCase());
    if (other !== undefined && other !== unit.mark)
      problems.push(
        raise(
          'job.duplicate/marks',
          { other, mark: unit.mark, unit: unit.id },
          {
            file: at([]).file,
          },
        ),
      );
    ids.set(unit.id.toLowerCase(), unit.mark);
  }
  if (problems.length > 0) return err(...problems);
  return ok({
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

const DEEPEST = 8;

interface LayoutDefaults {
  readonly glass: string | undefined;
  readonly width: number;
  readonly height: number;
  at(path: readonly PropertyKey[]): Place;
}

/** Appends to `problems` and returns undefined on failure. */
function readLayout(
  input: LayoutInput,
  path: readonly PropertyKey[],
  defaults: LayoutDefaults,
  problems: Problem[],
  depth = 0,
): Layout | undefined {
  const place = defaults.at(path);
  if ('light' in input) {
    const handing = handingOf(input);
    if ('todo' in handing) {
      problems.push({ ...handing, place });
      return undefined;
    }
    // Whether it must have a glass, its profile set says.
    const glass = input.glass ?? defaults.glass ?? '';
    return {
      type: 'light',
      kind: input.light,
      glass,
      ...(handing.hinge && { hinge: handing.hinge }),
      ...(handing.opensIn && { opensIn: true }),
      ...(input.handle_at !== undefined && { handleAt: input.handle_at }),
    };
  }
  if (depth >= DEEPEST) {
    problems.push(raise('job.layout/deep', { deepest: DEEPEST }, place));
    return undefined;
  }
  const positions = positionsOf(input, defaults, place, problems);
  const parts = input.parts.map((part, i) =>
    readLayout(part, [...path, 'parts', i], defaults, problems, depth + 1),
  );
  if (!positions || parts.some((part) => part === undefined)) return undefined;
  return {
    type: 'split',
    direction: input.split,
    joint: input.joint ?? 'ported',
    ...(input.joint === undefined && { jointFromSet: true }),
    positions,
    parts: parts as Layout[],
  };
}

function positionsOf(
  input: SplitInput,
  { width, height }: LayoutDefaults,
  place: Place,
  problems: Problem[],
): DividerPositions | undefined {
  const given = (['at', 'sight', 'ratio', 'equal'] as const).filter((key) => input[key] !== undefined);
  if (given.length !== 1) {
    problems.push(
      given.length === 0
        ? raise('job.layout/none', {}, place)
        : raise('job.layout', { keys: given.join(', ') }, place),
    );
    return undefined;
  }
  const count = (found: number, wanted: number, key: string): boolean => {
    if (found === wanted) return true;
    problems.push(raise('layout.count/parts', { count: input.parts.length, wanted, key, found }, place));
    return false;
  };
  if (input.at) {
    const level = input.split === 'level';
    const from = input.from ?? (level ? 'bottom' : 'left');
    if (level !== (from === 'bottom' || from === 'top')) {
      problems.push(raise('job.layout/centre', { split: input.split, from }, place));
      return undefined;
    }
    if (!count(input.at.length, input.parts.length - 1, 'at')) return undefined;
    const whole = level ? height : width;
    const measured = input.at.map((at) => (from === 'right' || from === 'top' ? whole - at : at));
    // Parts run left to right and top to bottom; level centre lines are measured from the bottom.
    return { by: 'centre-line', at: measured.sort((a, b) => (level ? b - a : a - b)) };
  }
  if (input.from !== undefined) {
    problems.push(raise('job.layout/from', {}, place));
    return undefined;
  }
  if (input.sight) {
    if (!count(input.sight.length, input.parts.length, 'sight')) return undefined;
    if (input.sight.filter((size) => size === 'rest').length > 1) {
      problems.push(raise('layout.count/rest', {}, place));
      return undefined;
    }
    return { by: 'sight-size', sizes: input.sight };
  }
  if (input.ratio)
    return count(input.ratio.length, input.parts.length, 'ratio')
      ? { by: 'ratio', ratio: input.ratio }
      : undefined;
  return { by: input.equal === 'glass' ? 'equal-glass' : 'equal-sight' };
}
