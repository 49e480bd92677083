/**
 * The record of a unit as data: the single view model behind every document, and the published format of the JSON
 * document. All text is already readable by outsiders; lengths in mm, times in UTC, ISO 8601, but in sentences by
 * the clock of `made.zone`.
 */
import * as z from 'zod';
import { instrumentKinds } from '../measure/instruments.js';
import { QUANTITIES } from '../measure/types.js';
import { FIGURE_UNITS } from '../measure/units.js';

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
});
const line = z.number().int().positive().describe('line number of the event in the journal');
const evidence = z.strictObject({
  name: z.string(),
  bytes: z.number().int(),
  sha256: z.string(),
  /** As it was read when it was kept: `jpg, 4032 x 3024`. */
  picture: z.string().optional(),
});

const reading = z.strictObject({
  /** "top", "bottom left to top right"; "" for a check with a single reading. */
  what: z.string(),
  raw: z.string().describe('exactly as typed or scanned'),
  value: z.number().optional(),
  unit: z.string().optional(),
  instrument: z.string().optional(),
  confirmed: z.boolean().describe('asked about as a likely misread, and stood by'),
});

const rule = z.strictObject({
  limit: z.string(),
  title: z.string(),
  says: z.string(),
  low: z.number().optional(),
  high: z.number().optional(),
  source: z.string(),
  sourceKind: z.string(),
  outcome: z.string(),
});

const answer = z.strictObject({
  line,
  at: when,
  by: z.string(),
  second: z.string().optional(),
  readings: z.array(reading),
  /** The readings, tick, choice or text, in one sentence. */
  says: z.string(),
  outcome: z.enum(['pass', 'fail', 'not-proven']),
  judged: z.strictObject({
    value: z.number().optional(),
    unit: z.string().optional(),
    uncertainty: z.number().optional().describe('expanded, k = 2'),
  }),
  rules: z.array(rule),
  notes: z.array(z.string()),
  lot: z
    .strictObject({
      material: z.string(),
      code: z.string(),
      expires: z.string().optional(),
      /** "at goods-in, here", or who accepted it on the spot. */
      accepted: z.string().optional(),
    })
    .optional(),
  evidence: z.array(evidence),
  burst: z.boolean().describe('answered faster than the work can be done'),
  overdueAllowedBy: z.string().optional(),
  setup: z.string().optional().describe('set-up (its first-off) under which the work was done'),
  cited: z
    .string()
    .optional()
    .describe('asked of another unit: which one, its line, and how often it is due'),
});

const check = z.strictObject({
  id: z.string(),
  asks: z.string(),
  how: z.string().optional(),
  kind: z.string(),
  expect: z.string().optional(),
  safety: z.boolean(),
  /** Current state; open if no answer counts. */
  verdict: z.enum(['pass', 'fail', 'not-proven', 'conceded', 'open']),
  /** Set if an answer exists but no longer counts, or a failed one was accepted. */
  remark: z.string().optional(),
  answer: answer.optional(),
  concession: line.optional().describe('snag whose concession lets the failed check stand'),
  earlier: z.array(
    z.strictObject({
      why: z.string(),
      line,
      at: when,
      by: z.string(),
      says: z.string(),
      outcome: z.string(),
    }),
  ),
});

const hold = z.strictObject({
  step: z.string(),
  title: z.string(),
  released: z.boolean(),
  line: line.optional(),
  at: when.optional(),
  by: z.string().optional(),
  pin: z.boolean().optional(),
  rule: z.string().optional(),
  byChecks: z.boolean().optional().describe('no person releases it: its own checks do'),
  walk: z.number().int().optional().describe('released with others in one walk: how many'),
  cited: z
    .string()
    .optional()
    .describe('released at another unit: which one, its line, and how often it is due'),
  evidence: z.array(evidence),
  /** Releases that no longer count: taken back, or the work was redone. */
  earlier: z.array(z.strictObject({ line, at: when, by: z.string(), why: z.string() })),
});

const step = z.strictObject({
  id: z.string(),
  title: z.string(),
  status: z.enum(['waiting', 'ready', 'begun', 'failed', 'held', 'done', 'stale']),
  because: z.array(z.string()),
  checks: z.array(check),
});

const stage = z.strictObject({
  id: z.string(),
  title: z.string(),
  done: z.number().int(),
  of: z.number().int(),
  steps: z.array(step),
});

const snag = z.strictObject({
  number: line,
  at: when,
  by: z.string(),
  step: z.string().optional(),
  check: z.string().optional(),
  severity: z.string(),
  cause: z.string(),
  text: z.string(),
  touches: z.array(z.string()),
  containment: z.string().optional(),
  decided: z
    .strictObject({
      line,
      at: when,
      by: z.string(),
      disposition: z.string(),
      reason: z.string(),
      limit: z.string().optional(),
      pin: z.boolean(),
    })
    .optional(),
  closed: z.strictObject({ line, at: when, by: z.string(), note: z.string() }).optional(),
  open: z.boolean(),
});

const correction = z.strictObject({
  line,
  at: when,
  by: z.string(),
  what: z.string(),
  was: z.string(),
  now: z.string(),
  reason: z.string(),
});

const rework = z.strictObject({
  line,
  at: when,
  by: z.string(),
  step: z.string(),
  reason: z.string(),
  reopened: z.array(z.string()),
  snag: line.optional(),
});

const drawing = z.strictObject({
  title: z.string(),
  alt: z.string(),
  svg: z.string(),
  text: z.array(z.string()),
});

const light = z.strictObject({
  id: z.string(),
  kind: z.string(),
  sentence: z.string(),
  sight: z.string(),
  sash: z.string().optional(),
  glass: z.string(),
  glassSize: z.string(),
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
    workshop: z.string(),
    unit: z.strictObject({
      id: z.string(),
      mark: z.string(),
      number: z.number().int(),
      job: z.string(),
      customer: z.string(),
      order: z.string().optional().describe('title and revision of the order'),
      room: z.string(),
      note: z.string(),
      width: z.number().optional(),
      height: z.number().optional(),
      sentence: z.string(),
      mass: z.number().optional(),
      lift: z.string(),
      outsideColour: z.string(),
      insideColour: z.string(),
      profileSet: z.string(),
      invented: z.boolean(),
      procedure: z.string(),
      needs: z.array(z.string()),
      lights: z.array(light),
      replaces: z.string().optional(),
      replacedBy: z.string().optional(),
    }),
    verdict: z.strictObject({
      line: z.string(),
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
    missing: z.array(z.string()),
    remarks: z.array(z.string()),
    builtFrom: z.array(z.strictObject({ what: z.string(), name: z.string(), sha256: z.string() })),
    drawing: drawing.optional(),
    asMeasured: z.array(drawing.extend({ facts: z.array(z.string()) })),
    stages: z.array(stage),
    holds: z.array(hold),
    snags: z.array(snag),
    corrections: z.array(correction),
    reworks: z.array(rework),
    overrides: z.array(
      z.strictObject({ line, at: when, by: z.string(), text: z.string(), reason: z.string() }),
    ),
    revisions: z.array(
      z.strictObject({
        line,
        at: when,
        by: z.string(),
        changed: z.array(z.string()).describe('steps to be done again'),
        because: z.record(z.string(), z.array(z.string())).optional().describe('why, by step'),
        reason: z.string(),
      }),
    ),
    lots: z.array(
      z.strictObject({
        material: z.string(),
        code: z.string(),
        expires: z.string().optional(),
        accepted: z.string().optional(),
        at: when,
        by: z.string(),
        check: z.string(),
      }),
    ),
    instruments: z.array(
      z.strictObject({
        id: z.string(),
        title: z.string(),
        kind: z.string(),
        class: z.string(),
        resolution: z.string(),
        calibrated: z.string(),
        due: z.string(),
        certificate: z.string(),
        overdue: z.array(z.string()),
        error: z.string().optional().describe('largest error, where it has no class'),
        measures: z.array(z.string()).optional(),
        serial: z.string().optional(),
        today: z
          .literal(true)
          .optional()
          .describe('as listed when this was printed; not kept when it was used'),
      }),
    ),
    people: z.array(
      z.strictObject({
        name: z.string(),
        did: z.string(),
        id: z.string().optional(),
        level: z.string().optional().describe('that counted when they did it'),
      }),
    ),
    evidence: z.array(evidence.extend({ at: when, by: z.string(), of: z.string() })),
    setups: z
      .array(
        z.strictObject({
          id: z.string(),
          at: when,
          by: z.string(),
          checks: z.array(z.strictObject({ asks: z.string(), says: z.string(), outcome: z.string() })),
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
          by: z.string(),
          second: z.string(),
          stage: z.string(),
          pin: z.boolean(),
        }),
      )
      .optional()
      .describe('who confirmed standing by for whom, once a stage'),
    timers: z.array(z.strictObject({ text: z.string(), until: when })),
    notes: z.array(z.strictObject({ line, at: when, by: z.string(), text: z.string() })),
    seal: z.strictObject({
      closed: z.boolean(),
      hash: z.string().describe('SHA-256 of the last line of the journal'),
      code: z.string().describe('short code of the hash with an ISO 7064 MOD 37-36 check character'),
      lines: z.number().int(),
      at: z.string(),
      by: z.string().optional().describe('who closed the record'),
      unseen: z
        .number()
        .int()
        .optional()
        .describe("lines before the closing one that the shop's server did not have then; 0: evidence alone"),
      unsigned: z
        .strictObject({ by: z.string(), why: z.string() })
        .optional()
        .describe('who let it be closed without a signature, and why the bench could not sign'),
      signature: z
        .strictObject({
          key: z.string().describe('id of the key: its public part is shared/keys/<id>.pem'),
          by: z.string().describe('the bench whose key it is'),
          value: z.string().describe('Ed25519 over the 32 bytes of head, base64'),
          head: z.string().describe('hash of the line that closed the record'),
        })
        .optional(),
    }),
    after: z
      .strictObject({
        says: z.string().describe('how it stands now'),
        tone: z.enum(['good', 'bad', 'open']),
        missing: z.array(z.string()),
        remarks: z.array(z.string()),
        snags: z.number().int().describe('raised after release'),
        entries: z.array(
          z.strictObject({ line, at: when, by: z.string(), what: z.string(), says: z.string() }),
        ),
        lines: z.number().int().describe('lines of the journal, with what came after'),
        hash: z.string().describe('SHA-256 of the last of them'),
        code: z.string(),
        at: z.string(),
      })
      .optional()
      .describe('what came after the record was closed; all else is as it was then'),
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
    title: z.string(),
    made: madeSchema,
    workshop: z.string(),
    customer: z.string(),
    asked: askedSchema,
    chosen: z.string().describe('which units were asked for, in words'),
    notBegun: z.array(z.string()).describe('units that the job lists and that have no journal'),
    verdict: z.strictObject({
      line: z.string(),
      finished: z.boolean(),
      tone: z.enum(['good', 'bad', 'open']),
    }),
    missing: z.array(z.string()),
    remarks: z.array(z.string()),
    seal: z.strictObject({
      hash: z
        .string()
        .describe('SHA-256 over the seals of the units, in order, each followed by a line feed'),
      code: z.string(),
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
