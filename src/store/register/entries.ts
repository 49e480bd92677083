/**
 * What the registers hold, under register/: of each bench (benches/<bench>.jsonl) how far every journal had come, and of
 * the workshop (keys.jsonl) which keys count. Chained lines like a journal's; where the bench's key counts, each is signed.
 */
import * as z from 'zod';
import { canonicalText, sha256 } from '../../unit/chain.js';
import { type Envelope, envelope, registerHead } from '../../unit/events.js';
import { checkSignature, type Signer } from '../../unit/sealing.js';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const keyId = z.string().regex(/^[0-9a-f]{16}$/);
/** Both or neither: the key, and its signature over the line without `hash` and `signature`. */
const signed = { signedBy: keyId.optional(), signature: z.string().optional() };
const { basis: _, ...line } = envelope;

/** A file under the workshop by its path with `/`, its number of lines and the hash of the last; none: 0 and zeros. */
const headSchema = z.strictObject({ file: z.string(), events: z.number().int().nonnegative(), hash });
export type Head = z.infer<typeof headSchema>;

/** A key that the workshop had before it had a register. */
const namedKey = z.strictObject({ key: keyId, fingerprint: hash });
export type NamedKey = z.infer<typeof namedKey>;

/** How many entries a bench's register has. */
const reached = z.strictObject({ bench: z.string(), n: z.number().int().nonnegative() });
export type Reached = z.infer<typeof reached>;

/** What brought an entry about. */
const OCCASIONS = [
  'begun',
  'opened',
  'held',
  'left',
  'closed',
  'sealed',
  'worked',
  'set-up',
  'practice',
  'signed-off',
  'daybook',
] as const;
export type Occasion = (typeof OCCASIONS)[number];

const benchEntries = {
  /** Always first. */
  'register-begun': { of: z.string(), program: z.string(), before: z.array(namedKey) },
  heads: {
    on: z.enum(OCCASIONS),
    heads: z.array(headSchema),
    /** Whole files that stay as they are: seals of jobs. */
    files: z.array(z.strictObject({ file: z.string(), sha256: hash })).optional(),
  },
  /** Journals that were archived are no longer there. */
  removed: { files: z.array(z.string()), archive: hash, seen: z.array(reached) },
  /** A named person takes what is there for what counts from here on, where a copy was put back. */
  'restore-accepted': {
    reason: z.string(),
    pin: z.boolean(),
    heads: z.array(headSchema),
    /** Heads of registers that are known from elsewhere and are not there any more. */
    lost: z.array(registerHead),
    /** The registers as they stood then, this one too. */
    seen: z.array(reached),
  },
  /**
   * Another bench had taken the unit over: what was given here is a branch from line `common` on, and the journal is the
   * shop's. What was entered of the journal before counts no more.
   */
  branched: {
    file: z.string(),
    branch: z.string(),
    common: z.number().int().nonnegative(),
    heads: z.array(headSchema),
    /** The registers as they stood then, this one too. */
    seen: z.array(reached),
  },
} as const;

const keyEntries = {
  /** Always first: the key by which all others count. */
  'first-key': {
    key: keyId,
    fingerprint: hash,
    of: z.string(),
    /** Keys that the workshop had before it had a register. */
    before: z.array(namedKey),
    since: z.number().int().nonnegative(),
    /** How far the registers had come, unsigned as they were. */
    seen: z.array(registerHead),
  },
  'key-counts': {
    key: keyId,
    fingerprint: hash,
    /** Bench. */
    of: z.string(),
    /** That bench's register had so many entries then: from there on they are signed. */
    since: z.number().int().nonnegative(),
    /** Its last, unsigned as it was. */
    seen: z.array(registerHead),
  },
  /** What it signed up to there counts, and nothing after. */
  'key-withdrawn': { key: keyId, why: z.enum(['replaced', 'lost', 'exposed']), upTo: reached },
} as const;

type Kinds = Readonly<Record<string, z.ZodRawShape>>;
const union = (kinds: Kinds) =>
  z.discriminatedUnion(
    'kind',
    Object.entries(kinds).map(([kind, body]) =>
      z.strictObject({ ...line, ...signed, kind: z.literal(kind), ...body }),
    ) as never,
  );

type Signed = { readonly signedBy?: string; readonly signature?: string };
type EntriesOf<K extends Kinds> = {
  [kind in keyof K]: z.infer<z.ZodObject<K[kind]>> & { readonly kind: kind };
}[keyof K];
export type BenchBody = EntriesOf<typeof benchEntries>;
export type KeyBody = EntriesOf<typeof keyEntries>;
export type BenchEntry = Envelope & Signed & BenchBody;
export type KeyEntry = Envelope & Signed & KeyBody;

const benchSchema = union(benchEntries);
const keySchema = union(keyEntries);

/** Why a value is no entry of this version; undefined if it is one. */
export const benchEntryWrong = (value: unknown): string | undefined => wrongBy(benchSchema, value);
export const keyEntryWrong = (value: unknown): string | undefined => wrongBy(keySchema, value);

function wrongBy(schema: z.ZodType, value: unknown): string | undefined {
  const parsed = schema.safeParse(value);
  if (parsed.success) return undefined;
  const issue = parsed.error.issues[0]!;
  return `${issue.path.map(String).join('.') || 'kind'}: ${issue.message}`;
}

/** What a signature is over, as SHA-256 in hex: the whole line but `hash` and `signature`, in canonical form. */
function signedHashOf(entry: object): string {
  const { hash: _h, signature: _s, ...rest } = entry as { hash?: unknown; signature?: unknown };
  return sha256(canonicalText(rest));
}

/** The members that a line gets before it is chained. */
export const signedWith = (entry: object, signer: Signer) => ({
  signedBy: signer.id,
  signature: signer.sign(signedHashOf({ ...entry, signedBy: signer.id })),
});

/** Whether the key of this PEM signed the entry. */
export const isSignedBy = (entry: Signed & object, pem: string): boolean =>
  entry.signature !== undefined && checkSignature(pem, signedHashOf(entry), entry.signature) === 'holds';
