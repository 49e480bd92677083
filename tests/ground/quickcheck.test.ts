/** The quick check never takes what the schema refuses, and takes what is ordinary without asking it. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import * as z from 'zod';
import { sealEvent } from '../../src/build/chain.js';
import { type EventBody, eventSchema, surelyEvent } from '../../src/build/events.js';
import { isHash, quickCheck } from '../../src/ground/quickcheck.js';
import { journal, measured, stamp } from '../store/samples.js';

const ordinary = journal(6);

it('takes every ordinary event', () => {
  for (const event of ordinary) expect(surelyEvent(event), event.kind).toBe(true);
});

it('takes nothing that the schema refuses, whatever is changed in an event', () => {
  const values = fc.oneof(
    fc.constantFrom<unknown>(null, undefined, '', 'pass', 0, -1, 1.5, Number.NaN, true, [], {}, [null]),
    fc.jsonValue({ maxDepth: 2 }),
  );
  let refused = 0;
  fc.assert(
    fc.property(fc.nat(5), fc.nat(10_000), fc.nat(10_000), values, (which, where, how, value) => {
      const event = structuredClone(ordinary[which]!) as unknown as Record<string, unknown>;
      const spots = places(event);
      const [holder, key] = spots[where % spots.length]!;
      if (how % 3 === 0) delete holder[key];
      else if (how % 3 === 1) holder[key] = value;
      else holder[`${key}x`] = value;
      const good = eventSchema.safeParse(event).success;
      if (!good) refused++;
      if (surelyEvent(event)) expect(good).toBe(true);
    }),
    { seed: 20, numRuns: 4000 },
  );
  expect(refused).toBeGreaterThan(1000);
});

it('is not in doubt about any kind of event', () => {
  const bodies: EventBody[] = [
    measured(1),
    { kind: 'sealed', head: 'a'.repeat(64), key: 'b'.repeat(16), signature: 'x' },
    { kind: 'finished', steps: 1, checks: 1 },
    { kind: 'revised', sources: { limits: 'a'.repeat(64) }, changed: ['x'], reason: 'y' },
    { kind: 'corrected', of: 3, reason: 'x' },
    { kind: 'snag-raised', severity: 'minor', cause: 'x', text: 'y', touches: { unit: true } },
  ];
  for (const body of bodies) expect(surelyEvent(sealEvent(body, stamp())), body.kind).toBe(true);
});

it('leaves to the schema what it does not understand', () => {
  expect(quickCheck(z.string().refine((text) => text === 'x'))('y')).toBe(false);
  expect(quickCheck(z.string().trim())('y')).toBe(false);
  expect(quickCheck(z.object({ a: z.string() }))({ a: '', b: 1 })).toBe(false);
  expect(quickCheck(z.number().multipleOf(3))(4)).toBe(false);
  expect(quickCheck(z.string().transform(Number))('4')).toBe(false);
  expect(quickCheck(z.string().default('x'))(undefined)).toBe(false);
});

it('knows a hash', () => {
  const hash = /^[0-9a-f]{64}$/;
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(...'0123456789abcdefgA/:`é'), { minLength: 62, maxLength: 66 }),
      (signs) => {
        const text = signs.join('');
        expect(isHash(text)).toBe(hash.test(text));
      },
    ),
    { seed: 64, numRuns: 500 },
  );
  expect(isHash('09af'.repeat(16))).toBe(true);
});

/** Every member of every object in a value: its holder and its name. */
function places(value: unknown): [Record<string, unknown>, string][] {
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => [
    [value as Record<string, unknown>, key] as [Record<string, unknown>, string],
    ...places(inner),
  ]);
}
