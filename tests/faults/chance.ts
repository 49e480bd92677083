/** Chance with a seed, so that a run that failed can be run again. */

/** A small seeded random (mulberry32): numbers from 0 up to, not including, 1. */
export function chance(seed: number): () => number {
  let a = seed | 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export const pick = <T>(from: readonly T[], random: () => number): T =>
  from[Math.floor(random() * from.length)]!;

/** Some turns of this process's loop: a moment that is no time. */
export async function turn(turns: number): Promise<void> {
  for (let i = 0; i < turns; i++) await new Promise((done) => setImmediate(done));
}
