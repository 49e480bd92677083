/** The chain of a journal, and the canonical form that it hashes, against the published vectors of RFC 8785. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canonicalText,
  chainEvent,
  chainHash,
  chainLine,
  checkLine,
  FIRST_PREV,
  verifyChain,
} from '../../src/unit/chain.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { journal, noted, stamp } from './samples.js';

const vectors = JSON.parse(readFileSync(join(import.meta.dirname, '../data/rfc8785.json'), 'utf8'));
const double = (hex: string): number => Buffer.from(hex, 'hex').readDoubleBE();

describe('canonical JSON', () => {
  it('writes the numbers of RFC 8785 appendix B', () => {
    for (const [hex, text] of vectors.numbers) expect(canonicalText(double(hex)), hex).toBe(text);
    for (const hex of vectors.refused) expect(() => canonicalText(double(hex)), hex).toThrow(TypeError);
  });

  it('writes the document of RFC 8785 section 3.2.2, byte for byte', () => {
    const text = canonicalText(JSON.parse(vectors.document.input));
    expect(Buffer.from(text).toString('hex')).toBe(vectors.document.canonicalHex);
  });

  it('sorts by UTF-16 code units as RFC 8785 section 3.2.3', () => {
    const text = canonicalText(JSON.parse(vectors.order.input));
    const values = [...text.matchAll(/":"([^"]+)"/g)].map((match) => match[1]);
    expect(values).toEqual(vectors.order.values);
  });

  it('refuses lone surrogates, in values and in names', () => {
    for (const value of ['\ud800', 'a\udc00b', { '\ud800': 1 }, [['\udfff']]])
      expect(() => canonicalText(value)).toThrow(TypeError);
    expect(canonicalText('😀')).toBe('"😀"');
  });
});

describe('a line', () => {
  it('is its event, and less its hash member it is what was hashed', () => {
    for (const event of journal(5)) {
      const line = chainLine(event);
      expect(JSON.parse(line)).toEqual(event);
      const bare = line.replace(`"hash":"${event.hash}",`, '');
      expect(createHash('sha256').update(bare).digest('hex')).toBe(event.hash);
      expect(chainHash(event)).toBe(event.hash);
      expect(checkLine(line)).toEqual({ whole: true, event });
    }
  });

  it('has no member for what is not there, at any depth', () => {
    const at = stamp();
    const note = noted('seen') as EventBody;
    const [plain, holes] = [chainEvent(note, at), chainEvent({ ...note, step: undefined } as EventBody, at)];
    expect(chainLine(holes)).toBe(chainLine(plain));
    const seal = (body: object) => chainEvent(body as EventBody, at);
    const snag = (touches: object) => ({ kind: 'snag-raised', cause: 'other', text: 'bent', touches });
    const proven = (...checks: object[]) => ({ kind: 'first-off', setup: 'saw', checks, passed: true });
    for (const [inside, clean] of [
      [snag({ unit: true, lot: undefined }), snag({ unit: true })],
      [
        proven({ check: 'a' }, { check: 'b', verdict: { value: undefined } }),
        proven({ check: 'a' }, { check: 'b', verdict: {} }),
      ],
    ] as const) {
      const event = seal(inside);
      expect(chainLine(event)).toBe(chainLine(seal(clean)));
      expect(event.hash).toBe(chainHash(event));
      expect(JSON.parse(chainLine(event))).toStrictEqual(event);
    }
  });

  it('is hashed where its data hold a member that looks like the hash, or like what is put in when it is sealed', () => {
    const data = [FIRST_PREV, 'f'.repeat(64)].flatMap((hash) => [
      { hash },
      { hash, prev: hash, at: '0000-01-01T00:00:00.000Z' },
    ]);
    for (const { hash, ...rest } of data) {
      const body = {
        kind: 'noted',
        text: `"hash":"${hash}",`,
        a: { hash, ...rest, z: [{ hash, y: 1, ...rest }] },
        c: [{ ...rest }, { hash }],
        o: rest,
        z: { hash, z: 0, ...rest },
      };
      const event = chainEvent(body as EventBody, stamp());
      expect(event.hash).toBe(chainHash(event));
      expect(JSON.parse(chainLine(event))).toStrictEqual(event);
    }
  });

  it('is not whole after any change of its text', () => {
    const line = chainLine(journal(4)[3]!);
    for (let at = 0; at < line.length; at++) {
      expect(checkLine(line.slice(0, at) + line.slice(at + 1)).whole, `without ${at}`).toBe(false);
      expect(checkLine(`${line.slice(0, at)} ${line.slice(at)}`).whole, `blank at ${at}`).toBe(false);
      const other = line[at] === '7' ? '8' : '7';
      expect(checkLine(line.slice(0, at) + other + line.slice(at + 1)).whole, `other at ${at}`).toBe(false);
    }
  });

  it('in another spelling is told from a changed one', () => {
    const [event] = journal(1) as [JournalEvent];
    const { v, ...rest } = event;
    expect(checkLine(JSON.stringify({ v, ...rest }))).toMatchObject({ whole: false, why: 'spelling' });
    expect(checkLine(chainLine(event).replace('casement', '\\u0063asement'))).toMatchObject({
      why: 'spelling',
    });
    expect(checkLine(chainLine(event).replace('casement', 'casemint'))).toMatchObject({ why: 'hash' });
    expect(checkLine('{"a":1}')).toMatchObject({ why: 'json' });
  });

  it('in another spelling is not whole by a hash over that spelling either', () => {
    const line = chainLine(journal(4)[3]!);
    const bare = line.replace(/"hash":"[0-9a-f]{64}",/, '');
    const others = [
      bare.replace('{', '{ '),
      bare.replace('"value":900', '"value":9e2'),
      bare.replace('"value":900', '"value":900.0'),
      bare.replace('"v":1,', '').replace('{', '{"v":1,'),
      bare.replace('"kind":', '"kind":"noted","kind":'),
      bare.replace('"frame.square"', '"frame.squ\\u0061re"'),
    ];
    for (const other of others) {
      expect(other).not.toBe(bare);
      const own = createHash('sha256').update(other).digest('hex');
      const forged = other.replace('"kind":"answered"', `"hash":"${own}","kind":"answered"`);
      expect(checkLine(forged), forged).toMatchObject({ whole: false, why: 'hash' });
    }
  });

  it('of any shape never throws', () => {
    const nasty = [
      '',
      'null',
      '[]',
      '{',
      '"',
      '1e999',
      '{"n":1,"prev":5}',
      `${'['.repeat(20000)}`,
      `${'['.repeat(20000)}${']'.repeat(20000)}`,
      '\ud800',
    ];
    for (const text of nasty) expect(checkLine(text).whole).toBe(false);
    const deep = `{"a":${'['.repeat(9000)}${']'.repeat(9000)},"hash":"${'0'.repeat(64)}","n":1,"prev":"${'0'.repeat(64)}","v":1}`;
    expect(checkLine(deep).whole).toBe(false);
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => void checkLine(text)),
      { seed: 1, numRuns: 100 },
    );
    fc.assert(
      fc.property(fc.json(), (text) => void checkLine(text)),
      { seed: 1, numRuns: 100 },
    );
  });
});

describe('a chain', () => {
  const faults = (lines: readonly string[]) =>
    verifyChain(lines.map(checkLine)).map(({ kind, line }) => `${kind} ${line}`);
  const lines = journal(8).map(chainLine);

  it('that is whole has no fault', () => {
    expect(faults(lines)).toEqual([]);
    expect(faults([])).toEqual([]);
  });

  it('names a missing, a repeated, a moved and a changed line by its place', () => {
    expect(faults(lines.toSpliced(3, 1))).toEqual(['missing 4']);
    expect(faults(lines.toSpliced(2, 3))).toEqual(['missing 3']);
    expect(faults(lines.slice(1))).toEqual(['missing 1']);
    expect(faults(lines.toSpliced(4, 0, lines[3]!))).toEqual(['repeated 5']);
    const swapped = lines.slice();
    [swapped[2], swapped[5]] = [swapped[5]!, swapped[2]!];
    expect(faults(swapped)[0]).toBe('re-ordered 3');
    expect(faults(swapped).every((fault) => fault.startsWith('re-ordered'))).toBe(true);
    expect(faults(lines.with(4, lines[4]!.replace('jb', 'ot')))).toEqual(['changed 5']);
    expect(faults(lines.with(7, 'x'))).toEqual(['changed 8']);
  });

  it('shows where a line was written anew with a hash of its own', () => {
    const events = journal(8);
    const forged = chainEvent(noted('kinder'), stamp(4), events[3]);
    expect(faults(lines.with(4, chainLine(forged)))).toEqual(['broken 6']);
  });

  it('rewritten whole from some line on is whole: only a seal kept elsewhere shows that', () => {
    const events = journal(4);
    for (let i = 4; i < 8; i++) events.push(chainEvent(noted('kinder'), stamp(i), events[i - 1]));
    expect(faults(events.map(chainLine))).toEqual([]);
  });
});

it('gives the hash that a shell gives', () => {
  const event = journal(3)[2]!;
  const out = execFileSync('sh', ['-c', `sed 's/"hash":"[0-9a-f]*",//' | tr -d '\\n' | sha256sum`], {
    input: `${chainLine(event)}\n`,
  });
  expect(out.toString().split(' ')[0]).toBe(event.hash);
});
