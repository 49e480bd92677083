/**
 * A released unit's quality record as a W3C Verifiable Credential: data model 2.0 (W3C Recommendation of May 2025), secured by
 * the cryptosuite eddsa-jcs-2022 of Data Integrity EdDSA Cryptosuites 1.0 (of May 2025 too), the issuer named as did:key (a
 * draft of the W3C Credentials Community Group). A verifier needs this document, the context below and the public key,
 * and no network.
 */
import { createHash, createPublicKey, verify } from 'node:crypto';
import { base58 } from '@scure/base';
import * as z from 'zod';
import type { Spoken } from '../base/words.js';
import { canonicalText } from '../unit/chain.js';
import type { Signer } from '../unit/sealing.js';
import { type RecordView, recordSchema } from './schema.js';
import { lastRelease } from './unitblocks.js';

/** Own terms: a name that stays and leads nowhere. */
export const CREDENTIAL_CONTEXT = 'urn:uuid:9bcb67b4-9f4b-4c6c-b429-7e1121a154cb';
const CREDENTIALS_V2 = 'https://www.w3.org/ns/credentials/v2';

const term = (name: string): string => `${CREDENTIAL_CONTEXT}#${name}`;

/** The JSON-LD context of that name, published as shared/schemas/credential-context.json. */
export const credentialContext = () => ({
  '@context': {
    '@version': 1.1,
    '@protected': true,
    QualityRecordCredential: term('QualityRecordCredential'),
    QualityRecord: {
      '@id': term('QualityRecord'),
      '@context': {
        '@version': 1.1,
        '@protected': true,
        ...Object.fromEntries(
          ['unit', 'job', 'order', 'number', 'verdict', 'released', 'by', 'closed'].map((each) => [
            each,
            term(each),
          ]),
        ),
        record: { '@id': term('record'), '@type': '@json' },
      },
    },
  },
});

const proofSchema = z.strictObject({
  type: z.literal('DataIntegrityProof'),
  cryptosuite: z.literal('eddsa-jcs-2022'),
  created: z.string(),
  verificationMethod: z.string(),
  proofPurpose: z.literal('assertionMethod'),
  '@context': z.array(z.string()),
  proofValue: z.string(),
});
const credentialSchema = z.looseObject({
  '@context': z.array(z.string()),
  credentialSubject: z.looseObject({ record: recordSchema }),
  proof: proofSchema,
});
export type Credential = z.infer<typeof credentialSchema>;

/** What it says, without its proof. */
function statedBy(view: RecordView, issuer: string): Record<string, unknown> {
  const { unit, workshop, verdict, seal, papers, made } = view;
  const by = lastRelease(view)?.by ?? seal.by;
  return {
    '@context': [CREDENTIALS_V2, CREDENTIAL_CONTEXT],
    type: ['VerifiableCredential', 'QualityRecordCredential'],
    issuer: { id: issuer, name: workshop },
    validFrom: made.at,
    credentialSubject: {
      type: 'QualityRecord',
      unit: unit.id,
      job: unit.job,
      ...(unit.order === undefined ? {} : { order: unit.order }),
      ...(papers ? { number: papers.number } : {}),
      verdict: verdict.line satisfies Spoken,
      // Whoever released the last hold; the record was closed when its last step was done.
      released: lastRelease(view)?.at ?? seal.at,
      ...(by === undefined ? {} : { by }),
      closed: seal.at,
      // Without members that are there and undefined.
      record: JSON.parse(JSON.stringify(view)) as unknown,
    },
  };
}

/** @param publicPem of the key that signs. Throws if it is no Ed25519 key */
export function credentialOf(view: RecordView, signer: Signer, publicPem: string): Record<string, unknown> {
  const issuer = didOf(publicPem);
  const stated = statedBy(view, issuer);
  const options = {
    type: 'DataIntegrityProof',
    cryptosuite: 'eddsa-jcs-2022',
    created: view.made.at,
    verificationMethod: methodOf(issuer),
    proofPurpose: 'assertionMethod',
    '@context': stated['@context'],
  };
  const signature = Buffer.from(signer.sign(signedBytes(stated, options).toString('hex')), 'base64');
  return { ...stated, proof: { ...options, proofValue: `z${base58.encode(signature)}` } };
}

/** Undefined if the value is none of these. */
export function readCredential(value: unknown): Credential | undefined {
  const read = credentialSchema.safeParse(value);
  return read.success ? read.data : undefined;
}

/** What of it does not hold, by itself; undefined if it is signed by this key and says what its record says. */
export function credentialWrong(
  credential: Credential,
  publicPem: string,
): 'signature' | 'words' | undefined {
  const { proof, ...stated } = credential;
  const { proofValue, ...options } = proof;
  const issuer = didOf(publicPem);
  if (options.verificationMethod !== methodOf(issuer)) return 'signature';
  if (!isSigned(signedBytes(stated, options), proofValue, publicPem)) return 'signature';
  const anew = statedBy(credential.credentialSubject.record, issuer);
  return canonicalText(stated) === canonicalText(anew) ? undefined : 'words';
}

function isSigned(bytes: Buffer, proofValue: string, publicPem: string): boolean {
  try {
    return verify(null, bytes, createPublicKey(publicPem), base58.decode(proofValue.slice(1)));
  } catch {
    return false;
  }
}

/** Hash of the proof without its value, then of the document without its proof; both as RFC 8785 has them. */
const signedBytes = (stated: object, options: object): Buffer =>
  Buffer.concat([options, stated].map((each) => createHash('sha256').update(canonicalText(each)).digest()));

/** did:key of an Ed25519 key: multicodec 0xed 0x01 and its 32 bytes, base58btc. */
export function didOf(publicPem: string): string {
  const der = createPublicKey(publicPem).export({ type: 'spki', format: 'der' });
  return `did:key:z${base58.encode(Buffer.concat([Buffer.from([0xed, 0x01]), der.subarray(-32)]))}`;
}

const methodOf = (did: string): string => `${did}#${did.slice('did:key:'.length)}`;
