/**
 * Journal events: one JSON object per line. These schemas are the record format; logs/README.md describes them for
 * people without this program. Fields are only ever added; `v` goes up when the meaning of one changes. Version 2: the
 * readings of a set that did not pass stay, so that one of them can be taken again; a lot says how it was accepted; lines
 * name the `basis` that their verdicts rest on.
 */
import * as z from 'zod';
import { RHYTHMS } from '../procedure/rhythm.js';

export const FORMAT_VERSION = 2;
const VERSIONS = [1, 2] as const;

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const outcome = z.enum(['pass', 'fail', 'not-proven']);

/**
 * What verdicts rest on besides the sources: SHA-256 of the texts kept under logs/sources. Each holds from the line that
 * names it until a later line names another.
 */
const basisSchema = z.strictObject({
  /** shared/instruments.yaml. */
  instruments: hash.optional(),
  /** People by id, with the levels that counted; see people.ts. */
  team: hash.optional(),
  /** shared/workshop.yaml: how a reading is judged. Only the first line to name it and revisions change it. */
  rules: hash.optional(),
  /** shared/workshop.yaml: who makes it, as documents print it. */
  maker: hash.optional(),
  /** In which language the steps were read, by which words of the program, and the translation; see `unit/wordsread.ts`. */
  words: hash.optional(),
  /** First-offs by id of the set-up. */
  setups: z.record(z.string(), hash).optional(),
});
export type Basis = z.infer<typeof basisSchema>;

const readingSchema = z.strictObject({
  raw: z.string(),
  value: z.number(),
  instrument: z.string().optional(),
  confirmed: z.boolean().optional(),
});

export const verdictSchema = z.strictObject({
  outcome,
  value: z.number().optional(),
  unit: z.string().optional(),
  uncertainty: z.number().optional(),
  rules: z.array(
    z.strictObject({
      limit: z.string(),
      title: z.string(),
      says: z.string(),
      low: z.number().optional(),
      high: z.number().optional(),
      sourceKind: z.string(),
      source: z.string(),
      outcome,
    }),
  ),
  notes: z.array(z.string()),
});

/** One variant per kind of check. */
const answerSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('tick'), done: z.literal(true) }),
  z.strictObject({ kind: z.literal('go-no-go'), go: z.boolean() }),
  z.strictObject({ kind: z.literal('number'), readings: z.array(readingSchema).min(1) }),
  z.strictObject({
    kind: z.literal('square'),
    /** Any of top, bottom, left, right, bl_tr, br_tl, each with its repeats. */
    readings: z.record(z.string(), z.array(readingSchema)),
  }),
  /** Readings by point, each with its repeats. */
  z.strictObject({ kind: z.literal('points'), readings: z.record(z.string(), z.array(readingSchema)) }),
  z.strictObject({ kind: z.literal('count'), count: z.number().int().nonnegative() }),
  z.strictObject({ kind: z.literal('choice'), choice: z.string() }),
  z.strictObject({ kind: z.literal('text'), text: z.string() }),
]);
export type Answer = z.infer<typeof answerSchema>;

/** Evidence file stored as logs/<job>/evidence/<sha256>. */
const evidenceSchema = z.strictObject({
  sha256: hash,
  name: z.string(),
  bytes: z.number().int(),
  /** What it was decoded as: `jpg`, and its size in pixels. */
  picture: z.strictObject({ kind: z.string(), width: z.number().int(), height: z.number().int() }).optional(),
});
export type Evidence = z.infer<typeof evidenceSchema>;

export const dispositions = ['rework', 'repair', 'concession', 'scrap', 'return'] as const;
export const severities = ['critical', 'major', 'minor'] as const;
export const setupEnds = ['shift-end', 'blade-changed', 'tool-changed', 'knock', 'moved', 'other'] as const;

/** How far the register of a bench had come: its last line. */
export const registerHead = z.strictObject({ bench: z.string(), n: z.number().int().positive(), hash });
export type RegisterHead = z.infer<typeof registerHead>;

/** Who closed the unit though the bench's key could not sign, and why it could not. */
const unsigned = z.strictObject({ by: z.string(), why: z.string() });

/** Asked or released elsewhere, and cited here for as long as it stands there. */
const citedSchema = z.strictObject({
  rhythm: z.enum(RHYTHMS).exclude(['part', 'unit']),
  job: z.string(),
  unit: z.string(),
  /** Number of its event in that unit's journal. */
  n: z.number().int().positive(),
  bench: z.string(),
  at: z.iso.datetime({ precision: 3 }),
  by: z.string(),
  second: z.string().optional(),
  /** What it rests on, where that is not what this unit rests on. */
  basis: basisSchema.optional(),
});
export type Cited = z.infer<typeof citedSchema>;

const body = {
  opened: {
    unit: z.string(),
    job: z.string(),
    /** SHA-256 of each frozen source, stored once as logs/sources/<sha256>. `setout` is the unit's set-out as JSON. */
    sources: z.record(z.string(), hash),
    procedure: z.strictObject({ name: z.string(), version: z.string() }),
    profileSet: z.string(),
    program: z.string(),
    replaces: z.string().optional(),
    register: registerHead.optional(),
  },
  /** An order-check problem waived by a named person. */
  overridden: { problem: z.string(), text: z.string(), reason: z.string() },
  began: { step: z.string(), second: z.string().optional() },
  answered: {
    step: z.string(),
    check: z.string(),
    answer: answerSchema,
    verdict: verdictSchema,
    /** Given with others in one answer, to one look: how many. */
    look: z.number().int().min(2).optional(),
    /** Seconds for which the question stood on the screen, to a tenth. */
    stood: z.number().nonnegative().optional(),
    cited: citedSchema.optional(),
    /** The second person, where the person at the bench may not do this stage alone. */
    second: z.string().optional(),
    lot: z
      .strictObject({
        material: z.string(),
        code: z.string(),
        expires: z.string().optional(),
        /** Accepted here, at goods-in. */
        accepted: z.literal(true).optional(),
        /** Who accepted it on the spot. */
        acceptedBy: z.string().optional(),
        /** The code is the piece's own number. */
        serial: z.literal(true).optional(),
        /** The light or divider it belongs to. */
        item: z.string().optional(),
        /** What was typed or scanned, where the code was taken out of it. */
        raw: z.string().optional(),
      })
      .optional(),
    evidence: z.array(evidenceSchema).optional(),
    /** Who authorised using an overdue instrument. */
    overdueAllowedBy: z.string().optional(),
    /** Answered faster than the work can be done. */
    burst: z.boolean().optional(),
    setup: z.string().optional(),
  },
  /**
   * One reading of an incomplete square set, logged so that a power cut loses nothing the screen has acknowledged. The
   * `answered` event that completes the set repeats all of them; `reworked`, `corrected` and a new set end it.
   */
  read: {
    step: z.string(),
    check: z.string(),
    key: z.string(),
    reading: readingSchema,
    /** It takes the place of that reading of this key, counting from 1. */
    replaces: z.number().int().positive().optional(),
    overdueAllowedBy: z.string().optional(),
  },
  /** The readings of a set are dropped, and it is read anew from the first. */
  'set-begun': { step: z.string(), check: z.string() },
  /** Who stands by for whoever is at the bench in this stage confirmed it, by PIN or by their own code. */
  'second-confirmed': { stage: z.string(), second: z.string(), pin: z.boolean() },
  /** Takes back event `of` (the last answer, reading or release): it stays in the journal but no longer counts. */
  corrected: { of: z.number().int(), reason: z.string() },
  /** The step is redone from here on; `reopens` lists what the fold said it would re-open, for human readers. */
  reworked: {
    step: z.string(),
    reason: z.string(),
    reopens: z.array(z.string()),
    snag: z.number().int().optional(),
  },
  released: {
    step: z.string(),
    hold: z.string(),
    pin: z.boolean(),
    evidence: z.array(evidenceSchema).optional(),
    /** One-person workshop: the rule that allowed the same person to release. */
    rule: z.string().optional(),
    /** Given with others in one walk: how many. */
    walk: z.number().int().min(2).optional(),
    cited: citedSchema.optional(),
  },
  'snag-raised': {
    step: z.string().optional(),
    check: z.string().optional(),
    severity: z.enum(severities),
    cause: z.string(),
    text: z.string(),
    touches: z.strictObject({ unit: z.boolean(), setup: z.string().optional(), lot: z.string().optional() }),
    containment: z.string().optional(),
    /** What another bench gave meanwhile is a branch with this name, and counts for nothing until this is decided. */
    branch: z.string().optional(),
  },
  'snag-decided': {
    snag: z.number().int(),
    disposition: z.enum(dispositions),
    reason: z.string(),
    /** concession: the limit waived. */
    limit: z.string().optional(),
    pin: z.boolean(),
  },
  'snag-closed': { snag: z.number().int(), note: z.string() },
  parked: { reason: z.string() },
  resumed: {},
  noted: { text: z.string(), step: z.string().optional() },
  /** The wall clock went back or jumped; event order never depends on it. */
  'clock-jumped': { from: z.string(), to: z.string() },
  /** The unit is scrapped; only notes may follow. */
  scrapped: {
    reason: z.string(),
    replacement: z.string(),
    unsigned: unsigned.optional(),
    register: registerHead.optional(),
  },
  /** Sources replaced mid-build (job revision): the new hashes. Everything that depends on what changed re-opens. */
  revised: {
    sources: z.record(z.string(), hash),
    /** The procedure whose steps the unit follows from here on. */
    procedure: z.strictObject({ name: z.string(), version: z.string() }).optional(),
    /** Steps that were done and are to be done again, and why. */
    changed: z.array(z.string()),
    /** Steps that are to be checked and released again, though their work stands: the order is another. */
    again: z.array(z.string()).optional(),
    because: z.record(z.string(), z.array(z.string())).optional(),
    reason: z.string(),
  },
  /**
   * Only in the workshop's set-up journal: a set-up was proven (or found wrong) on first-off pieces. Its id is the kind
   * plus the number of this event: `saw-12`; in a bench's own journal, `own`, with that bench: `saw-bench-2-12`.
   */
  'first-off': {
    setup: z.string(),
    checks: z.array(z.strictObject({ check: z.string(), answer: answerSchema, verdict: verdictSchema })),
    passed: z.boolean(),
    note: z.string().optional(),
    own: z.string().optional(),
  },
  /** Only in the set-up journal: the set-up must be proven again from here on. */
  'setup-ended': { setup: z.string(), why: z.enum(setupEnds), note: z.string().optional() },
  finished: {
    steps: z.number().int(),
    checks: z.number().int(),
    /** The shop's server had not so many of the lines before then, or evidence of them, as the shop's rule allows. */
    unseen: z.number().int().nonnegative().optional(),
    unsigned: unsigned.optional(),
    register: registerHead.optional(),
  },
  /**
   * Signature by the bench's key (shared/keys/<key>.pem) over the 32 bytes of `head`, the hash of the line before:
   * Ed25519, base64.
   */
  sealed: { head: hash, key: z.string().regex(/^[0-9a-f]{16}$/), signature: z.string() },
} as const;

export const envelope = {
  v: z.literal(VERSIONS),
  n: z.number().int().positive(),
  /** UTC. */
  at: z.iso.datetime({ precision: 3 }),
  /** Person id, or "nobody" where no name is needed (clock). */
  by: z.string(),
  bench: z.string(),
  basis: basisSchema.optional(),
  prev: hash,
  hash,
} as const;

type Bodies = typeof body;
export type EventKind = keyof Bodies;
type BodyOf<K extends EventKind> = z.infer<z.ZodObject<Bodies[K]>> & {
  readonly kind: K;
  readonly basis?: Basis;
};
/** An event as decided, before the store numbers, dates and chains it. */
export type EventBody = { [K in EventKind]: BodyOf<K> }[EventKind];
export interface Envelope {
  readonly v: (typeof VERSIONS)[number];
  readonly n: number;
  readonly at: string;
  readonly by: string;
  readonly bench: string;
  readonly prev: string;
  readonly hash: string;
}
export type JournalEvent = Envelope & EventBody;

const members = (Object.keys(body) as EventKind[]).map((kind) =>
  z.strictObject({ ...envelope, kind: z.literal(kind), ...body[kind] }),
);
export const eventSchema = z.discriminatedUnion(
  'kind',
  members as never,
) as unknown as z.ZodType<JournalEvent>;

/** JSON Schema (2020-12) of one journal line, for other programs. */
export const eventJsonSchema = (): object => ({
  title: 'pinchrod journal event 2',
  ...z.toJSONSchema(eventSchema),
});

// The frozen sources a unit is built from: those of its first event, updated by each later revision.

export interface Frozen {
  readonly unit: string;
  /** SHA-256 by kind. */
  readonly sources: Readonly<Record<string, string>>;
}

/** Undefined if the unit is not begun. Includes the rules of judging, as kind `rules`, where the unit keeps them. */
export function pinnedSources(events: readonly JournalEvent[]): Frozen | undefined {
  let found: Frozen | undefined;
  for (const event of events) {
    if (event.kind === 'opened') found = { unit: event.unit, sources: event.sources };
    else if (event.kind === 'revised' && found)
      found = { unit: found.unit, sources: { ...found.sources, ...event.sources } };
    const rules = event.basis?.rules;
    if (rules !== undefined && found) found = { unit: found.unit, sources: { ...found.sources, rules } };
  }
  return found;
}

/** What the lines up to here rest on. */
export function basisAfter(basis: Basis, { basis: named }: { readonly basis?: Basis }): Basis {
  if (!named) return basis;
  return {
    ...basis,
    ...named,
    ...(basis.setups || named.setups ? { setups: { ...basis.setups, ...named.setups } } : {}),
  };
}

/** The body with what it rests on. */
export const onBasis = (body: EventBody, basis: Basis): EventBody => ({ ...body, basis }) as EventBody;

/** SHA-256 of each text that a line names. Works on a line of any shape. */
export function textsNamed(event: object): string[] {
  const { sources, basis, cited } = event as { sources?: unknown; basis?: unknown; cited?: unknown };
  const own = (of: unknown) => (of !== null && typeof of === 'object' ? Object.values(of) : []);
  const resting = (of: unknown) => [...own(of), ...own((of as Basis | undefined)?.setups)];
  return [...own(sources), ...resting(basis), ...resting((cited as Cited | undefined)?.basis)].filter(
    (each): each is string => typeof each === 'string',
  );
}

/** How far the wall clock may lag the last event before that counts as a jump, ms. */
export const CLOCK_SLACK = 2000;
