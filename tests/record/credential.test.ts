/**
 * The credential of a unit, verified by implementations that are not ours: the Data Integrity libraries of Digital Bazaar
 * (BSD-3-Clause), with the context https://www.w3.org/ns/credentials/v2 as @digitalbazaar/credentials-context has it
 * (W3C Recommendation "Verifiable Credentials Data Model v2.0" of May 2025). Nothing is fetched.
 */

import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { contexts } from '@digitalbazaar/credentials-context';
import { DataIntegrityProof } from '@digitalbazaar/data-integrity';
import { createVerifyCryptosuite } from '@digitalbazaar/eddsa-jcs-2022-cryptosuite';
import jsonld from 'jsonld';
import jsigs from 'jsonld-signatures';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as record from '../../src/commands/record.js';
import * as verify from '../../src/commands/verify.js';
import { CREDENTIAL_CONTEXT, credentialContext } from '../../src/record/credential.js';
import { builtWorkshop, ran } from '../commands/built.js';

type Json = Record<string, unknown>;
let root: string;
let text: string;

/** What a stranger has: the two contexts, and the key that was handed over. */
async function documentLoader(url: string): Promise<{ documentUrl: string; document: unknown }> {
  const found = contexts.get(url) ?? (url === CREDENTIAL_CONTEXT ? credentialContext() : undefined);
  if (found) return { documentUrl: url, document: structuredClone(found) };
  if (url.startsWith('did:key:')) {
    const [did = '', multibase = did.slice('did:key:'.length)] = url.split('#');
    const method = {
      '@context': 'https://w3id.org/security/multikey/v1',
      id: `${did}#${multibase}`,
      type: 'Multikey',
      controller: did,
      publicKeyMultibase: multibase,
    };
    if (url.includes('#')) return { documentUrl: url, document: method };
    return {
      documentUrl: url,
      document: {
        '@context': ['https://www.w3.org/ns/did/v1', 'https://w3id.org/security/multikey/v1'],
        id: did,
        verificationMethod: [method],
        assertionMethod: [method.id],
      },
    };
  }
  throw new Error(`nothing is fetched: ${url}`);
}

async function holds(credential: unknown): Promise<boolean> {
  const result = await jsigs.verify(structuredClone(credential), {
    suite: new DataIntegrityProof({ cryptosuite: createVerifyCryptosuite() }),
    purpose: new jsigs.purposes.AssertionProofPurpose(),
    documentLoader,
  });
  return result.verified;
}

beforeAll(async () => {
  root = builtWorkshop(true);
  process.env.PINCHROD_BENCH = 'bench-t';
  const made = await ran(record, root, 'Q1-1', '--credential');
  expect(made.code, made.err).toBe(0);
  text = made.out;
}, 60_000);
afterAll(() => {
  delete process.env.PINCHROD_BENCH;
  rmSync(resolve(root, '..'), { recursive: true, force: true });
});

describe('verified by the others', () => {
  it('as it was written, and indented anew', async () => {
    expect(await holds(JSON.parse(text))).toBe(true);
    expect(await holds(JSON.parse(JSON.stringify(JSON.parse(text), null, 7)))).toBe(true);
  });
  it('every term has a meaning', async () => {
    const [expanded] = (await jsonld.expand(JSON.parse(text), { documentLoader, safe: true })) as Json[];
    const subject = (expanded!['https://www.w3.org/2018/credentials#credentialSubject'] as Json[])[0]!;
    expect(subject[`${CREDENTIAL_CONTEXT}#unit`]).toEqual([{ '@value': 'Q1-1' }]);
    expect(subject[`${CREDENTIAL_CONTEXT}#record`]).toBeDefined();
  });
  it('refused after any value or name of it was changed', async () => {
    const paths = leaves(JSON.parse(text));
    // Each of the credential's own, and some hundred of the record.
    const own = paths.filter((path) => path[1] !== 'record');
    const few = paths.filter((path) => path[1] === 'record').filter((_, i) => i % 37 === 0);
    expect(own.length).toBeGreaterThan(15);
    expect(few.length).toBeGreaterThan(50);
    for (const path of [...own, ...few]) {
      expect(await holds(changed(JSON.parse(text), path, 'value')), `value of ${path.join('.')}`).toBe(false);
      if (typeof path.at(-1) === 'string')
        expect(await holds(changed(JSON.parse(text), path, 'name')), `name of ${path.join('.')}`).toBe(false);
    }
  }, 60_000);
});

describe('verified here', () => {
  async function checked(content: string): Promise<{ code: number; out: string }> {
    const file = join(root, 'q1.vc.json');
    writeFileSync(file, content);
    return ran(verify, root, file);
  }
  it('as it was written, and indented anew', async () => {
    expect((await checked(text)).out).toContain('says what the journal gives');
    expect((await checked(JSON.stringify(JSON.parse(text)))).code).toBe(0);
  });
  it('refused where its words, its record or its issuer are others', async () => {
    const words = JSON.parse(text) as { credentialSubject: Json };
    words.credentialSubject.verdict = 'Finished and released, without a fault';
    expect((await checked(JSON.stringify(words))).out).toContain('verify.credential');
    const inside = JSON.parse(text) as { credentialSubject: { record: { unit: Json } } };
    inside.credentialSubject.record.unit.room = 'attic';
    const found = await checked(JSON.stringify(inside));
    expect(found.code).toBe(1);
    expect(found.out).toContain('verify.credential');
    const other = builtWorkshop(true);
    const theirs = await ran(record, other, 'Q1-1', '--credential');
    expect((await checked(theirs.out)).out).toMatch(/whose key does not count here/);
    rmSync(resolve(other, '..'), { recursive: true, force: true });
  }, 60_000);
});

it('names only initials where they are wanted', async () => {
  const { out } = await ran(record, root, 'Q1-1', '--credential', '--initials');
  expect(out).not.toContain('Joan Bexley');
  expect(await holds(JSON.parse(out))).toBe(true);
});

it('is refused without a key', async () => {
  process.env.PINCHROD_BENCH = 'bench-none';
  const { code, err } = await ran(record, root, 'Q1-1', '--credential');
  process.env.PINCHROD_BENCH = 'bench-t';
  expect(code).not.toBe(0);
  expect(err).toContain('record.credential');
});

it('its context is published as it is', () => {
  const file = resolve(import.meta.dirname, '../../shared/schemas/credential-context.json');
  expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(credentialContext());
});

/** Paths of all values that are no objects. */
function leaves(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (value === null || typeof value !== 'object') return [path];
  return Object.entries(value).flatMap(([name, each]) =>
    leaves(each, [...path, Array.isArray(value) ? Number(name) : name]),
  );
}

function changed(value: Json, path: readonly (string | number)[], what: 'value' | 'name'): Json {
  const name = path.at(-1)!;
  const holder = path.slice(0, -1).reduce<unknown>((at, each) => (at as Json)[each], value) as Json;
  const was = holder[name];
  if (what === 'name') {
    delete holder[name];
    holder[`${name}x`] = was;
  } else holder[name] = typeof was === 'number' ? was + 1 : typeof was === 'boolean' ? !was : `${was}x`;
  return value;
}
