/** shared/workshop.yaml: the house rules, and the particulars that documents print. */
import * as z from 'zod';
import { good, type Result, type SourceText } from '../base/problem.js';
import { name, text } from '../base/schemas.js';
import { readYaml } from '../base/yaml.js';
import type { WorkshopRules } from '../unit/workshop.js';

/** What a label and a declaration call for. Empty fields print as empty; nothing is invented for them. */
const particularsSchema = z.strictObject({
  maker: text(120).default(''),
  address: text(300).default(''),
  contact: text(120).default(''),
  productType: text(120).default(''),
  intendedUse: text(200).default(''),
  declarationNumber: text(60).default(''),
  standard: text(120).default(''),
  system: text(60).default(''),
  laboratory: text(120).default(''),
  /** Last two digits of the year in which the mark was first affixed. */
  yearAffixed: text(4).default(''),
  /** Declared levels and classes by characteristic, as the declaration words them. */
  classes: z.record(text(80), text(80)).default({}),
});
export type Particulars = z.infer<typeof particularsSchema>;

export const workshopSchema = z.strictObject({
  format: z.literal('pinchrod-workshop 1'),
  note: text(600).optional(),
  name: text(80).min(1),
  /** Name of this bench; PINCHROD_BENCH in the environment names another. */
  bench: name.max(40),
  units: z.enum(['mm', 'inch']).default('mm'),
  /** `simple`: the reading alone is held against the limit. `guarded: f`: the limit is drawn in by f x U. */
  decisionRule: z
    .union([z.literal('simple'), z.strictObject({ guarded: z.number().positive().max(2) })])
    .default('simple'),
  soloRelease: z
    .strictObject({ minutes: z.number().int().min(1).max(10_000), evidence: z.boolean().default(true) })
    .optional(),
  idleMinutes: z.number().int().min(1).max(600).default(10),
  openingTriangle: z.enum(['apex-at-hinge', 'apex-at-handle']).default('apex-at-hinge'),
  /** A field left out is an empty one. */
  particulars: particularsSchema.prefault({}),
});

/** The house rules that need no other file, and what documents print. */
export interface House {
  readonly rules: Omit<WorkshopRules, 'people' | 'limits' | 'pinMatches'>;
  readonly bench: string;
  readonly particulars: Particulars;
}

export function parseHouse(source: SourceText): Result<House> {
  const read = readYaml(source, workshopSchema);
  if (!read.ok) return read;
  const { value } = read.value;
  const { decisionRule } = value;
  return good({
    bench: value.bench,
    particulars: value.particulars,
    rules: {
      name: value.name,
      units: value.units,
      decisionRule:
        decisionRule === 'simple' ? { kind: 'simple' } : { kind: 'guarded', factor: decisionRule.guarded },
      ...(value.soloRelease ? { soloRelease: value.soloRelease } : {}),
      idleMinutes: value.idleMinutes,
      openingTriangle: value.openingTriangle,
    },
  });
}
