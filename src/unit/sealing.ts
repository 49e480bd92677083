/**
 * Journal signatures: Ed25519 (RFC 8032) by a bench's key over the 32 bytes of a hash that covers everything before it.
 * The chain shows that no single line was changed; only a signature shows that the tail was not rewritten from some
 * line on. Keys are PEM texts (PKCS #8 and SPKI), so openssl can read them too.
 */
import {
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  sign,
  verify,
} from 'node:crypto';
import type { EventBody, JournalEvent } from './events.js';

/** Holds the key id that journals name; signs the bytes of a hex hash, giving base64. */
export interface Signer {
  readonly id: string;
  readonly sign: (hash: string) => string;
}

export interface KeyPair {
  readonly id: string;
  readonly privatePem: string;
  readonly publicPem: string;
}

export function makeKeyPair(): KeyPair {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519', {
    privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
    publicKeyEncoding: { type: 'spki', format: 'pem' },
  });
  return { id: keyId(publicKey)!, privatePem: privateKey, publicPem: publicKey };
}

/** First 16 hex digits of the fingerprint; undefined if the text is not an Ed25519 key. */
export const keyId = (publicPem: string): string | undefined => fingerprintOf(publicPem)?.slice(0, 16);

/** SHA-256, 64 hex digits, of the public key's SPKI DER; undefined if the text is not an Ed25519 key. */
export function fingerprintOf(publicPem: string): string | undefined {
  try {
    const key = createPublicKey(publicPem);
    if (key.asymmetricKeyType !== 'ed25519') return undefined;
    const der = key.export({ type: 'spki', format: 'der' });
    return createHash('sha256').update(der).digest('hex');
  } catch {
    return undefined;
  }
}

/** A signer for a private key; undefined if the text is not an Ed25519 key. */
export function signerOf(privatePem: string): (Signer & { readonly publicPem: string }) | undefined {
  try {
    const key = createPrivateKey(privatePem);
    if (key.asymmetricKeyType !== 'ed25519') return undefined;
    const publicPem = createPublicKey(key).export({ type: 'spki', format: 'pem' }) as string;
    return {
      id: keyId(publicPem)!,
      publicPem,
      sign: (hash) => sign(null, Buffer.from(hash, 'hex'), key).toString('base64'),
    };
  } catch {
    return undefined;
  }
}

/** `malformed`: not 64 bytes in canonical base64. `other`: a signature, but not by this key over this hash. */
export type SignatureCheck = 'holds' | 'malformed' | 'other';

export function checkSignature(publicPem: string, hash: string, signature: string): SignatureCheck {
  const bytes = Buffer.from(signature, 'base64');
  // Canonical base64 only, so that no byte of the text can change unnoticed.
  if (bytes.length !== 64 || bytes.toString('base64') !== signature) return 'malformed';
  try {
    return verify(null, Buffer.from(hash, 'hex'), createPublicKey(publicPem), bytes) ? 'holds' : 'other';
  } catch {
    return 'other';
  }
}

export type SealedEvent = Extract<JournalEvent, { readonly kind: 'sealed' }>;

/** The seal a bench with a key writes right after the line that closes a unit; undefined without a key. */
export function signatureEvent(last: JournalEvent, signer: Signer | undefined): EventBody | undefined {
  if (!signer || (last.kind !== 'finished' && last.kind !== 'scrapped')) return undefined;
  return sealOn(last, signer);
}

export const sealOn = (last: JournalEvent, signer: Signer): EventBody => ({
  kind: 'sealed',
  head: last.hash,
  key: signer.id,
  signature: signer.sign(last.hash),
});

/**
 * The seal that still covers the journal: its last line apart from notes. Undefined if work continued or it was never
 * signed.
 */
export function sealOf(events: readonly JournalEvent[]): SealedEvent | undefined {
  const last = events.findLast(({ kind }) => kind !== 'noted');
  return last?.kind === 'sealed' ? last : undefined;
}

/** The event that closed the unit if no seal follows it. */
export function unsealedEnd(
  events: readonly JournalEvent[],
): Extract<JournalEvent, { readonly kind: 'finished' | 'scrapped' }> | undefined {
  const last = events.findLast(({ kind }) => kind !== 'noted');
  return last?.kind === 'finished' || last?.kind === 'scrapped' ? last : undefined;
}

/** SHA-256, hex, over the seals, a line feed after each: same as `printf '%s\n' SEAL… | sha256sum`. */
export function sealOver(hashes: readonly string[]): string {
  const sum = createHash('sha256');
  for (const hash of hashes) sum.update(`${hash}\n`);
  return sum.digest('hex');
}
