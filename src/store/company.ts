/** shared/workshop.yaml: house rules, and the company details that documents print. */
import * as z from 'zod';
import { DATE_FORMS } from '../base/dates.js';
import { err, ok, type Problem, type Result, type SourceText } from '../base/problem.js';
import { language, name, text } from '../base/schemas.js';
import { isZone } from '../base/wallclock.js';
import { readYaml } from '../base/yaml.js';
import type { Level, Person, WorkshopRules } from '../unit/types.js';
import { storeProblem } from './disk.js';
import { PIN_HASH } from './pins.js';

/** Fields for the label and the declaration. Empty fields print empty; nothing is made up for them. */
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
  /** Last two digits of the year the mark was first affixed. */
  yearAffixed: text(4).default(''),
  /** Declared levels and classes by characteristic, worded as on the declaration. */
  classes: z.record(text(80), text(80)).default({}),
  /** Number of the report of the type test that the units rest on. */
  testReport: text(120).optional(),
  /** How long a unit's record is to be kept after its release. */
  keepYears: z.number().int().min(1).max(100).optional(),
});
/** None stated. */
export const UNSTATED_PARTICULARS: CompanyParticulars = particularsSchema.parse({});

export type CompanyParticulars = z.infer<typeof particularsSchema>;

export const workshopSchema = z.strictObject({
  format: z.literal('pinchrod-workshop 1'),
  note: text(600).optional(),
  name: text(80).min(1),
  /** Overridden by PINCHROD_BENCH in the environment. */
  bench: name.max(40),
  units: z.enum(['mm', 'inch']).default('mm'),
  /** `simple`: the bare reading is compared with the limit. `guarded: f`: the limit is tightened by f x U. */
  decisionRule: z
    .union([z.literal('simple'), z.strictObject({ guarded: z.number().positive().max(2) })])
    .default('simple'),
  soloRelease: z
    .strictObject({ minutes: z.number().int().min(1).max(10_000), evidence: z.boolean().default(true) })
    .optional(),
  idleMinutes: z.number().int().min(1).max(600).default(10),
  shiftMinutes: z.number().int().min(30).max(1440).default(600),
  openingTriangle: z.enum(['apex-at-hinge', 'apex-at-handle']).default('apex-at-hinge'),
  /** IANA name of the zone whose time the clock on the wall shows; that of the machine if absent. */
  zone: z
    .string()
    .refine(isZone, 'no time zone that this machine knows: write it as "Europe/Berlin"')
    .optional(),
  /** How dates are printed on goods here, besides ISO 8601. */
  dates: z.enum(DATE_FORMS).default('YYYY-MM-DD'),
  /** The least size of a picture in pixels: its longer and its shorter side. */
  leastPicture: z
    .tuple([z.number().int().min(1).max(20_000), z.number().int().min(1).max(20_000)])
    .default([640, 480]),
  /** Where several benches share a shop. */
  shop: z
    .strictObject({
      /** Units that nobody began, whose leases a bench takes ahead, for when the line is down. */
      ahead: z.number().int().min(0).max(1000).default(20),
      /** Whether a unit may be released while the server does not have all of its answers yet; the record then says so. */
      releaseUnseen: z.boolean().default(false),
    })
    .prefault({}),
  /** Omitted fields are empty. */
  particulars: particularsSchema.prefault({}),
});

/** House rules that need no other file, plus what documents print. */
export interface House {
  readonly rules: Omit<WorkshopRules, 'people' | 'limits' | 'pinMatches'>;
  readonly bench: string;
  /** IANA name; undefined: that of the machine. */
  readonly zone: string | undefined;
  readonly particulars: CompanyParticulars;
  readonly shop: ShopRule;
}

export type ShopRule = z.infer<typeof workshopSchema>['shop'];

export function parseHouse(source: SourceText): Result<House> {
  const read = readYaml(source, workshopSchema);
  if (!read.ok) return read;
  const { value } = read.value;
  const { decisionRule } = value;
  return ok({
    bench: value.bench,
    zone: value.zone,
    particulars: value.particulars,
    shop: value.shop,
    rules: {
      name: value.name,
      units: value.units,
      decisionRule:
        decisionRule === 'simple' ? { kind: 'simple' } : { kind: 'guarded', factor: decisionRule.guarded },
      ...(value.soloRelease ? { soloRelease: value.soloRelease } : {}),
      idleMinutes: value.idleMinutes,
      shiftMinutes: value.shiftMinutes,
      openingTriangle: value.openingTriangle,
      dates: value.dates,
      leastPicture: value.leastPicture,
    },
  });
}

// shared/people.yaml: who works here and what each person may do.

const level = z
  .number()
  .int()
  .min(0)
  .max(5)
  .transform((n) => n as Level);

export const peopleSchema = z.strictObject({
  format: z.literal('pinchrod-people 1'),
  note: text(600).optional(),
  people: z
    .array(
      z.strictObject({
        id: name.max(20),
        initials: text(6).min(1),
        name: text(80).min(1),
        /** Level by procedure stage; `all` covers stages not listed. */
        levels: z
          .record(name, level)
          .refine((levels) => 'all' in levels, 'needs "all": the level for stages not named'),
        validUntil: z.iso.date().optional(),
        /** Of an older workshop; now in keys/pins.json. */
        pin: z
          .string()
          .refine(isPinHash, 'a PIN stands here as salt:hash in hex, never in the clear')
          .optional(),
        /** Language for procedure texts at the bench if a translation exists; otherwise the procedure's own. */
        language: language.optional(),
      }),
    )
    .min(1),
});

/** Parses the file. Ids and initials must be unique ignoring case, because scanners type capitals. */
export function parsePeople(source: SourceText): Result<Person[]> {
  const read = readYaml(source, peopleSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  const problems: Problem[] = [];
  const owner = new Map<string, number>();
  for (const [i, person] of value.people.entries())
    for (const key of ['id', 'initials'] as const) {
      const code = person[key].toUpperCase();
      const other = owner.get(code);
      if (other !== undefined && other !== i)
        problems.push(
          storeProblem(
            'workshop.twice',
            { person: person[key], people: value.people[other]!.name },
            at(['people', i, key]),
          ),
        );
      owner.set(code, i);
    }
  if (problems.length > 0) return err(...problems);
  return ok(
    value.people.map(
      (person) =>
        Object.fromEntries(
          Object.entries(person).filter(([, given]) => given !== undefined),
        ) as unknown as Person,
    ),
  );
}

/** A hoisted function, because the schema above refers to it. */
function isPinHash(text: string): boolean {
  return PIN_HASH.test(text);
}
