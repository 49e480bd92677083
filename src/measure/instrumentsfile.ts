/** shared/instruments.yaml: what the workshop measures with. */
import * as z from 'zod';
import { bad, good, type Problem, type Result, raiser } from '../ground/problem.js';
import { name, text } from '../ground/schemas.js';
import type { SourceText } from '../ground/sourcetext.js';
import { readYaml } from '../ground/yamlfile.js';
import { instrumentKinds, readingUnits } from './instruments.js';
import { MEASURE_MESSAGES } from './messages.js';
import type { Instrument } from './types.js';
import { MM_PER_INCH, tidy } from './units.js';

const raise = raiser(MEASURE_MESSAGES);

export const instrumentsSchema = z.strictObject({
  format: z.literal('pinchrod-instruments 1'),
  note: text(600).optional(),
  instruments: z.array(
    z.strictObject({
      id: name.max(20),
      kind: z.enum(instrumentKinds),
      title: text(120),
      unit: z.enum(readingUnits).default('mm'),
      resolution: z.number().positive().max(1000),
      class: z.enum(['I', 'II', 'III']).optional(),
      maxError: z.number().nonnegative().max(1000).optional(),
      repeatability: z.number().nonnegative().max(100).optional(),
      offset: z.number().min(-5000).max(5000).default(0),
      hook: z.boolean().default(false),
      serial: text(60).optional(),
      calibrated: z.iso.date().optional(),
      due: z.iso.date().optional(),
      certificate: text(120).optional(),
      note: text(300).optional(),
    }),
  ),
});

/** Reads the file; ids are unique without regard to case, because scanners type capitals. */
export function parseInstruments(source: SourceText): Result<Instrument[]> {
  const read = readYaml(source, instrumentsSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  const problems: Problem[] = [];
  const seen = new Set<string>();
  const instruments = value.instruments.map((given, i): Instrument => {
    const place = at(['instruments', i, 'id']);
    const key = given.id.toUpperCase();
    if (seen.has(key)) problems.push(raise('measure.instrument-twice', `${given.id} stands twice.`, place));
    seen.add(key);
    if (given.class === undefined && given.maxError === undefined)
      problems.push(raise('measure.instrument-error', `${given.id} has neither class nor maxError.`, place));
    if (given.calibrated && given.due && given.due < given.calibrated)
      problems.push(
        raise(
          'measure.instrument-dates',
          `${given.id} is due on ${given.due}, before its calibration.`,
          place,
        ),
      );
    return inMillimetres(withoutUndefined(given) as unknown as Instrument);
  });
  return problems.length > 0 ? bad(...problems) : good(instruments);
}

function withoutUndefined<T extends object>(given: T): T {
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as T;
}

/** Lengths are mm inside the program, whatever the instrument shows. */
function inMillimetres(given: Instrument): Instrument {
  if (given.unit !== 'inch') return given;
  return {
    ...given,
    resolution: tidy(given.resolution * MM_PER_INCH),
    offset: tidy(given.offset * MM_PER_INCH),
    ...(given.maxError === undefined ? {} : { maxError: tidy(given.maxError * MM_PER_INCH) }),
    ...(given.repeatability === undefined ? {} : { repeatability: tidy(given.repeatability * MM_PER_INCH) }),
  };
}
