/**
 * The record of a unit as data: the single view model behind every document, and the published format of the JSON
 * document. All text is already readable by outsiders; lengths in mm, times in UTC, ISO 8601, but in sentences by
 * the clock of `made.zone`.
 */
import * as z from 'zod';
import type { Spoken } from '../base/words.js';
import { instrumentKinds } from '../measure/instruments.js';
import { QUANTITIES } from '../measure/types.js';
import { FIGURE_UNITS } from '../measure/units.js';

/** Told from a catalogue, or what files and people said. */
const said = z.string() as unknown as z.ZodType<Spoken>;
const when = z.string().describe('UTC, ISO 8601');
export const registersSchema = z.strictObject({
  heads: z.array(z.strictObject({ bench: z.string(), n: z.number().int().positive(), hash: z.string() })),
  firstKey: z.string().optional().describe('SHA-256 of the key by which the others count'),
});
/** As `Zone`. */
export const zoneSchema = z.strictObject({
  name: z.string(),
  offsets: z
    .array(z.strictObject({ from: z.iso.datetime(), minutes: z.number().int().min(-1440).max(1440) }))
    .min(1)
    .max(2000),
});
/** How far the registers had come when the document was made. */
export type RegistersThen = z.infer<typeof registersSchema>;
const madeSchema = z.strictObject({
  at: when,
  program: z.string(),
  initials: z.boolean(),
  registers: registersSchema.optional(),
  zone: zoneSchema.optional().describe('whose time it tells; UTC if absent'),
  language: z.string().optional().describe('BCP 47: in which it is told; English if absent'),
  words: z.string().optional().describe('SHA-256 of the words it is told in, canonical JSON by id'),
  annex: z
    .boolean()
    .optional()
    .describe('arranged in layers, with or without the annex of every answer; absent: not in layers'),
  paper: z.literal('letter').optional().describe('of a PDF or a page that is printed; A4 if absent'),
});
const line = z.number().int().positive().describe('line number of the event in the journal');
const evidence = z.strictObject({
  name: said,
  bytes: z.number().int(),
  sha256: z.string(),
  /** As it was read when it was kept: `jpg, 4032 x 3024`. */
  picture: said.optional(),
});

const reading = z.strictObject({
  /** "top", "bottom left to top right"; "" for a check with a single reading. */
  what: said,
  raw: said.describe('exactly as typed or scanned'),
  value: z.number().optional(),
  unit: z.string().optional(),
  instrument: said.optional(),
  confirmed: z.boolean().describe('asked about as a likely misread, and stood by'),
});

const rule = z.strictObject({
  limit: said,
  title: said,
  says: said,
  low: z.number().optional(),
  high: z.number().optional(),
  source: said,
  sourceKind: said,
  outcome: z.string(),
});

const answer = z.strictObject({
  line,
  at: when,
  by: said,
  second: said.optional(),
  readings: z.array(reading),
  /** The readings, tick, choice or text, in one sentence. */
  says: said,
  outcome: z.enum(['pass', 'fail', 'not-proven']),
  judged: z.strictObject({
    value: z.number().optional(),
    unit: said.optional(),
    uncertainty: z.number().optional().describe('expanded, k = 2'),
  }),
  rules: z.array(rule),
  notes: z.array(said),
  lot: z
    .strictObject({
      material: said,
      code: said,
      expires: said.optional(),
      /** "at goods-in, here", or who accepted it on the spot. */
      accepted: said.optional(),
    })
    .optional(),
  evidence: z.array(evidence),
  burst: z.boolean().describe('answered faster than the work can be done'),
  overdueAllowedBy: said.optional(),
  setup: said.optional().describe('set-up (its first-off) under which the work was done'),
  cited: said.optional().describe('asked of another unit: which one, its line, and how often it is due'),
});

const check = z.strictObject({
  id: z.string(),
  asks: said,
  how: said.optional(),
  kind: z.string(),
  expect: said.optional(),
  safety: z.boolean(),
  /** Current state; open if no answer counts. */
  verdict: z.enum(['pass', 'fail', 'not-proven', 'conceded', 'open']),
  /** Set if an answer exists but no longer counts, or a failed one was accepted. */
  remark: said.optional(),
  answer: answer.optional(),
  concession: line.optional().describe('snag whose concession lets the failed check stand'),
  earlier: z.array(
    z.strictObject({
      why: said,
      line,
      at: when,
      by: said,
      says: said,
      outcome: said,
    }),
  ),
});

const hold = z.strictObject({
  step: said,
  title: said,
  released: z.boolean(),
  line: line.optional(),
  at: when.optional(),
  by: said.optional(),
  pin: z.boolean().optional(),
  rule: said.optional(),
  byChecks: z.boolean().optional().describe('no person releases it: its own checks do'),
  walk: z.number().int().optional().describe('released with others in one walk: how many'),
  cited: said.optional().describe('released at another unit: which one, its line, and how often it is due'),
  evidence: z.array(evidence),
  /** Releases that no longer count: taken back, or the work was redone. */
  earlier: z.array(z.strictObject({ line, at: when, by: said, why: said })),
});

const step = z.strictObject({
  id: z.string(),
  title: said,
  status: z.enum(['waiting', 'ready', 'begun', 'failed', 'held', 'done', 'stale']),
  because: z.array(said),
  checks: z.array(check),
});

const stage = z.strictObject({
  id: z.string(),
  title: said,
  done: z.number().int(),
  of: z.number().int(),
  steps: z.array(step),
});

const snag = z.strictObject({
  number: line,
  at: when,
  by: said,
  step: said.optional(),
  check: said.optional(),
  severity: said,
  cause: said,
  text: said,
  touches: z.array(said),
  containment: said.optional(),
  decided: z
    .strictObject({
      line,
      at: when,
      by: said,
      disposition: said,
      reason: said,
      limit: said.optional(),
      pin: z.boolean(),
    })
    .optional(),
  closed: z.strictObject({ line, at: when, by: said, note: said }).optional(),
  open: z.boolean(),
});

const correction = z.strictObject({
  line,
  at: when,
  by: said,
  what: said,
  was: said,
  now: said,
  reason: said,
});

const rework = z.strictObject({
  line,
  at: when,
  by: said,
  step: said,
  reason: said,
  reopened: z.array(said),
  snag: line.optional(),
});

const drawing = z.strictObject({
  title: said,
  alt: said,
  svg: z.string(),
  text: z.array(z.string()),
});

const light = z.strictObject({
  id: said,
  kind: z.string(),
  sentence: said,
  sight: said,
  sash: said.optional(),
  /** Nothing of a product without glass. */
  glass: said.optional(),
  glassSize: said.optional(),
});

const particularsSchema = z.strictObject({
  maker: z.string(),
  address: z.string(),
  contact: z.string(),
  productType: z.string(),
  intendedUse: z.string(),
  declarationNumber: z.string(),
  standard: z.string(),
  system: z.string(),
  laboratory: z.string(),
  yearAffixed: z.string(),
  classes: z.record(z.string(), z.string()),
  testReport: z.string().optional(),
  keepYears: z.number().int().optional(),
});

const instrumentSchema = z.strictObject({
  id: z.string(),
  kind: z.enum(instrumentKinds),
  title: z.string(),
  measures: z.array(z.enum(QUANTITIES)),
  range: z.strictObject({ from: z.number(), to: z.number() }).optional(),
  steps: z.array(z.number()).optional(),
  resolution: z.number(),
  class: z.enum(['I', 'II', 'III']).optional(),
  maxError: z.number().optional(),
  offset: z.number(),
  calibrated: z.string().optional(),
  due: z.string().optional(),
  certificate: z.string().optional(),
  hook: z.boolean(),
  sends: z.boolean().optional(),
  serial: z.string().optional(),
  repeatability: z.number().optional(),
  unit: z.enum([...FIGURE_UNITS, 'inch']).optional(),
  note: z.string().optional(),
});

/** Facts that the document states and no journal keeps. */
export const toldSchema = z.strictObject({
  maker: z
    .strictObject({
      name: z.string(),
      triangle: z.enum(['apex-at-hinge', 'apex-at-handle']),
      particulars: particularsSchema,
    })
    .optional(),
  people: z
    .array(z.string())
    .optional()
    .describe('names as shown, in the order in which the journal names them'),
  instruments: z.array(instrumentSchema).optional().describe('as listed when it was printed; lengths in mm'),
});

export const recordSchema = z
  .strictObject({
    format: z.literal('pinchrod-record 1'),
    made: madeSchema,
    workshop: said,
    unit: z.strictObject({
      id: said,
      mark: said,
      number: z.number().int(),
      job: said,
      customer: said,
      order: said.optional().describe('title and revision of the order'),
      room: said,
      note: said,
      width: z.number().optional(),
      height: z.number().optional(),
      product: said.optional().describe('what it is, where it is no window'),
      sentence: said,
      mass: z.number().optional(),
      lift: said,
      outsideColour: said,
      insideColour: said,
      profileSet: said,
      invented: z.boolean(),
      procedure: said,
      needs: z.array(said),
      lights: z.array(light),
      replaces: said.optional(),
      replacedBy: said.optional(),
    }),
    verdict: z.strictObject({
      line: said,
      standing: z.string(),
      finished: z.boolean(),
      tone: z.enum(['good', 'bad', 'open']),
    }),
    counts: z.strictObject({
      steps: z.number().int(),
      stepsDone: z.number().int(),
      checks: z.number().int(),
      coarse: z.number().int().optional().describe('passed, with an instrument too coarse for the limit'),
      again: z.number().int().optional().describe('answered more than once'),
      passed: z.number().int(),
      conceded: z.number().int(),
      failed: z.number().int(),
      notProven: z.number().int(),
      open: z.number().int(),
      holds: z.number().int(),
      holdsReleased: z.number().int(),
      snags: z.number().int(),
      snagsOpen: z.number().int(),
      corrections: z.number().int(),
      reworks: z.number().int(),
    }),
    missing: z.array(said),
    remarks: z.array(said),
    builtFrom: z.array(z.strictObject({ what: said, name: said, sha256: z.string() })),
    drawing: drawing.optional(),
    asMeasured: z.array(drawing.extend({ facts: z.array(said) })),
    stages: z.array(stage),
    holds: z.array(hold),
    snags: z.array(snag),
    corrections: z.array(correction),
    reworks: z.array(rework),
    overrides: z.array(z.strictObject({ line, at: when, by: said, text: said, reason: said })),
    revisions: z.array(
      z.strictObject({
        line,
        at: when,
        by: said,
        changed: z.array(said).describe('steps to be done again'),
        because: z.record(z.string(), z.array(said)).optional().describe('why, by step'),
        reason: said,
      }),
    ),
    lots: z.array(
      z.strictObject({
        material: said,
        code: said,
        expires: said.optional(),
        accepted: said.optional(),
        at: when,
        by: said,
        check: said,
      }),
    ),
    instruments: z.array(
      z.strictObject({
        id: said,
        title: said,
        kind: z.string(),
        class: said,
        resolution: said,
        calibrated: said,
        due: said,
        certificate: said,
        overdue: z.array(said),
        error: said.optional().describe('largest error, where it has no class'),
        measures: z.array(z.string()).optional(),
        serial: said.optional(),
        today: z
          .literal(true)
          .optional()
          .describe('as listed when this was printed; not kept when it was used'),
      }),
    ),
    people: z.array(
      z.strictObject({
        name: said,
        did: said,
        id: z.string().optional(),
        level: said.optional().describe('that counted when they did it'),
      }),
    ),
    evidence: z.array(
      evidence.extend({
        at: when,
        by: said,
        of: said,
        small: z.string().optional().describe('of a photograph: a small copy, PNG in base64'),
      }),
    ),
    setups: z
      .array(
        z.strictObject({
          id: said,
          at: when,
          by: said,
          checks: z.array(z.strictObject({ asks: said, says: said, outcome: said })),
          hash: z.string().optional().describe("hash of its line in the set-ups' journal"),
        }),
      )
      .optional()
      .describe('first-offs of the set-ups under which the work was done'),
    supervised: z
      .array(
        z.strictObject({
          line,
          at: when,
          by: said,
          second: said,
          stage: said,
          pin: z.boolean(),
        }),
      )
      .optional()
      .describe('who confirmed standing by for whom, once a stage'),
    timers: z.array(z.strictObject({ text: said, until: when })),
    notes: z.array(z.strictObject({ line, at: when, by: said, text: said })),
    seal: z.strictObject({
      closed: z.boolean(),
      hash: z.string().describe('SHA-256 of the last line of the journal'),
      code: said.describe('short code of the hash with an ISO 7064 MOD 37-36 check character'),
      lines: z.number().int(),
      at: z.string(),
      by: said.optional().describe('who closed the record'),
      unseen: z
        .number()
        .int()
        .optional()
        .describe("lines before the closing one that the shop's server did not have then; 0: evidence alone"),
      unsigned: z
        .strictObject({ by: said, why: said })
        .optional()
        .describe('who let it be closed without a signature, and why the bench could not sign'),
      signature: z
        .strictObject({
          key: z.string().describe('id of the key: its public part is shared/keys/<id>.pem'),
          by: said.describe('the bench whose key it is'),
          value: said.describe('Ed25519 over the 32 bytes of head, base64'),
          head: z.string().describe('hash of the line that closed the record'),
        })
        .optional(),
    }),
    after: z
      .strictObject({
        says: said.describe('how it stands now'),
        tone: z.enum(['good', 'bad', 'open']),
        missing: z.array(said),
        remarks: z.array(said),
        snags: z.number().int().describe('raised after release'),
        entries: z.array(z.strictObject({ line, at: when, by: said, what: said, says: said })),
        lines: z.number().int().describe('lines of the journal, with what came after'),
        hash: z.string().describe('SHA-256 of the last of them'),
        code: said,
        at: z.string(),
      })
      .optional()
      .describe('what came after the record was closed; all else is as it was then'),
    papers: z
      .strictObject({
        number: said.describe('job, unit and number of lines: a later record has a greater last number'),
        supersedes: said,
        testReport: said,
        keepUntil: said,
      })
      .optional()
      .describe('which record it is, and how long it is to be kept'),
    told: toldSchema.optional(),
  })
  .describe('Quality record of one unit');

export type RecordView = z.infer<typeof recordSchema>;
export type CheckView = z.infer<typeof check>;
export type AnswerView = z.infer<typeof answer>;
export type ReadingView = z.infer<typeof reading>;
export type StageView = z.infer<typeof stage>;
export type SnagView = z.infer<typeof snag>;
export type HoldView = z.infer<typeof hold>;
export type CorrectionView = z.infer<typeof correction>;
export type DrawingView = z.infer<typeof drawing>;
export type AsMeasuredView = RecordView['asMeasured'][number];
export type EvidenceView = z.infer<typeof evidence>;

/** Which units a multi-unit document was asked to show: those that match every given field. */
export const askedSchema = z.strictObject({
  job: z.string().optional(),
  since: z.string().optional().describe('worked on this day (UTC) or later'),
  until: z.string().optional().describe('worked on this day (UTC) or earlier'),
  snagged: z.boolean().optional().describe('with a snag, whatever became of it'),
});
export type JobFilter = z.infer<typeof askedSchema>;

/** A multi-unit document: a whole job, or every unit worked on in a period. */
export const collectionSchema = z
  .strictObject({
    format: z.literal('pinchrod-records 1'),
    kind: z.enum(['job', 'period']),
    title: said,
    made: madeSchema,
    workshop: said,
    customer: said,
    asked: askedSchema,
    chosen: said.describe('which units were asked for, in words'),
    notBegun: z.array(said).describe('units that the job lists and that have no journal'),
    verdict: z.strictObject({
      line: said,
      finished: z.boolean(),
      tone: z.enum(['good', 'bad', 'open']),
    }),
    missing: z.array(said),
    remarks: z.array(said),
    seal: z.strictObject({
      hash: z
        .string()
        .describe('SHA-256 over the seals of the units, in order, each followed by a line feed'),
      code: said,
      closed: z.boolean(),
      units: z.number().int(),
    }),
    records: z.array(recordSchema),
  })
  .describe('Quality records of several units');
export type CollectionView = z.infer<typeof collectionSchema>;

// The record as JSON, and the published schema of that format (JSON Schema 2020-12).

/** Indented by two spaces, so that people can read it and `diff` shows what changed. */
export const recordJson = (view: RecordView | CollectionView): string => `${JSON.stringify(view, null, 2)}\n`;

export const recordJsonSchema = () => z.toJSONSchema(recordSchema, { target: 'draft-2020-12' });
export const collectionJsonSchema = () => z.toJSONSchema(collectionSchema, { target: 'draft-2020-12' });
