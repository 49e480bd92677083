/** Signatures over hashes: the published vectors of the algorithm, and what must never pass. */
import { createPrivateKey, createPublicKey, generateKeyPairSync, sign, verify } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asIfWritten } from '../../src/unit/aswritten.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import {
  checkSignature,
  keyId,
  makeKeyPair,
  sealOf,
  signatureEvent,
  signerOf,
  unsealedEnd,
} from '../../src/unit/sealing.js';
import { context } from './routes.js';

/**
 * RFC 8032 "Edwards-Curve Digital Signature Algorithm (EdDSA)", section 7.1, tests 1, 2, 3 and SHA(abc): secret key,
 * public key, message, signature.
 */
const RFC_8032 = [
  [
    '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    '',
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  ],
  [
    '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    '72',
    '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  ],
  [
    'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    'af82',
    '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  ],
  [
    '833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42',
    'ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf2',
    'ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f',
    'dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704',
  ],
] as const;

// The DER frames of RFC 8410, section 4 (SubjectPublicKeyInfo) and 7 (PKCS #8) around the 32 raw bytes.
const privateOf = (raw: string) =>
  createPrivateKey({
    key: Buffer.from(`302e020100300506032b657004220420${raw}`, 'hex'),
    format: 'der',
    type: 'pkcs8',
  });
const publicOf = (raw: string) =>
  createPublicKey({ key: Buffer.from(`302a300506032b6570032100${raw}`, 'hex'), format: 'der', type: 'spki' });
const pem = (key: ReturnType<typeof publicOf>) => key.export({ type: 'spki', format: 'pem' }) as string;

describe('Ed25519 by RFC 8032, section 7.1', () => {
  it.each(RFC_8032)('secret %s', (secret, open, message, signature) => {
    const bytes = Buffer.from(message, 'hex');
    expect(sign(null, bytes, privateOf(secret)).toString('hex')).toBe(signature);
    expect(verify(null, bytes, publicOf(open), Buffer.from(signature, 'hex'))).toBe(true);
    // The same through what the program uses: its messages are hex, its signatures base64, its keys PEM.
    const signer = signerOf(privateOf(secret).export({ type: 'pkcs8', format: 'pem' }) as string)!;
    expect(signer.publicPem).toBe(pem(publicOf(open)));
    expect(Buffer.from(signer.sign(message), 'base64').toString('hex')).toBe(signature);
    expect(checkSignature(signer.publicPem, message, signer.sign(message))).toBe('holds');
  });
});

describe('a signature over a hash', () => {
  const { id, privatePem, publicPem } = makeKeyPair();
  const signer = signerOf(privatePem)!;
  const hex = fc.uint8Array({ minLength: 32, maxLength: 32 }).map((b) => Buffer.from(b).toString('hex'));

  it('holds for that hash and no other, for that key and no other, and in that spelling only', () => {
    const other = makeKeyPair();
    fc.assert(
      fc.property(hex, hex, fc.nat(63), fc.integer({ min: 1, max: 255 }), (hash, wrong, at, by) => {
        fc.pre(hash !== wrong);
        const signature = signer.sign(hash);
        expect(checkSignature(publicPem, hash, signature)).toBe('holds');
        expect(checkSignature(publicPem, wrong, signature)).toBe('other');
        expect(checkSignature(other.publicPem, hash, signature)).toBe('other');
        const bytes = Buffer.from(signature, 'base64');
        bytes[at]! ^= by;
        expect(checkSignature(publicPem, hash, bytes.toString('base64'))).toBe('other');
        expect(checkSignature(publicPem, hash, signature.replace(/=+$/, ''))).toBe('malformed');
        expect(checkSignature(publicPem, hash, ` ${signature}`)).toBe('malformed');
        expect(checkSignature(publicPem, hash, signature.slice(0, -8))).toBe('malformed');
        expect(checkSignature('no key', hash, signature)).toBe('other');
      }),
      { seed: 8032, numRuns: 100 },
    );
  });

  it('names its key by the hash of the public part', () => {
    expect(id).toMatch(/^[0-9a-f]{16}$/);
    expect(signer.id).toBe(id);
    expect(keyId(publicPem)).toBe(id);
    expect(keyId('nonsense')).toBeUndefined();
    expect(signerOf('nonsense')).toBeUndefined();
    expect(signerOf(publicPem)).toBeUndefined();
  });
});

it.each(['x25519', 'ed448'] as const)('a key of another kind (%s) neither signs nor has a name', (kind) => {
  const { privateKey, publicKey } = generateKeyPairSync(kind as 'x25519', {
    privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
    publicKeyEncoding: { type: 'spki', format: 'pem' },
  });
  expect(signerOf(privateKey)).toBeUndefined();
  expect(keyId(publicKey)).toBeUndefined();
});

describe('a bench with a key', () => {
  const signer = signerOf(makeKeyPair().privatePem)!;
  const last = (body: EventBody): JournalEvent => asIfWritten({ events: [] }, [body], 'mk', context(1))[0]!;
  it.each<[EventBody, boolean]>([
    [{ kind: 'finished', steps: 1, checks: 1 }, true],
    [{ kind: 'scrapped', reason: 'bent', replacement: 'T01-1R1' }, true],
    [{ kind: 'noted', text: 'seen' }, false],
    [{ kind: 'resumed' } as EventBody, false],
  ])('after %o seals: %s', (body, seals) => {
    const event = last(body);
    expect(signatureEvent(event, undefined)).toBeUndefined();
    const seal = signatureEvent(event, signer);
    expect(seal !== undefined).toBe(seals);
    if (seal?.kind === 'sealed')
      expect(checkSignature(signer.publicPem, event.hash, seal.signature)).toBe('holds');
  });
});

it.each<[string, boolean, boolean]>([
  ['', false, false],
  ['noted', false, false],
  ['answered', false, false],
  ['finished', true, false],
  ['finished noted', true, false],
  ['scrapped noted', true, false],
  ['finished sealed', false, true],
  ['finished sealed noted noted', false, true],
  ['finished sealed reworked', false, false],
  ['finished sealed reworked finished', true, false],
])('a journal that ends "%s" wants a seal: %s, has one: %s', (kinds, wants, has) => {
  const events = kinds
    .split(' ')
    .flatMap((kind, i) => (kind === '' ? [] : [{ n: i + 1, kind } as JournalEvent]));
  const last = events.findLast(({ kind }) => kind !== 'noted');
  expect(unsealedEnd(events)).toBe(wants ? last : undefined);
  expect(sealOf(events)).toBe(has ? last : undefined);
});
