/** PINs of people, never in the clear: scrypt with a salt of its own for each, `salt:hash` in hex. */
import { randomBytes, scryptSync, timingSafeEqual } from 'node:crypto';

const SHAPE = /^([0-9a-f]{32}):([0-9a-f]{64})$/;
const COST = { N: 16384, r: 8, p: 1 } as const;

/** What stands as `pin` in shared/people.yaml. */
export function hashPin(pin: string, salt: Uint8Array = randomBytes(16)): string {
  return `${Buffer.from(salt).toString('hex')}:${scryptSync(pin, salt, 32, COST).toString('hex')}`;
}

/** Whether the PIN is the person's. A person without a PIN has none that matches. */
export function pinMatches(person: { readonly pin?: string }, pin: string): boolean {
  const parts = SHAPE.exec(person.pin ?? '');
  if (!parts) return false;
  const want = Buffer.from(parts[2]!, 'hex');
  return timingSafeEqual(scryptSync(pin, Buffer.from(parts[1]!, 'hex'), 32, COST), want);
}

export const isPinHash = (text: string): boolean => SHAPE.test(text);
