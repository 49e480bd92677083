/** Normal numbers from a seed: the same ones every time. */

/** @returns standard normal, independent (Box and Muller over a 32-bit generator, Steele and others' SplitMix) */
export function normals(count: number, seed: number): number[] {
  const next = uniform(seed);
  const out: number[] = [];
  while (out.length < count) {
    const radius = Math.sqrt(-2 * Math.log(1 - next()));
    const angle = 2 * Math.PI * next();
    out.push(radius * Math.cos(angle), radius * Math.sin(angle));
  }
  return out.slice(0, count);
}

/** Numbers from 0 up to 1, without it. */
function uniform(seed: number): () => number {
  // Neighbouring seeds must not give the same numbers, one later.
  let state = mixed(Math.imul(mixed(seed + 1), 0x27d4eb2f));
  return () => {
    state = (state + 0x9e3779b9) | 0;
    return (mixed(state) >>> 0) / 4_294_967_296;
  };
}

function mixed(state: number): number {
  let z = state;
  z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
  z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
  return z ^ (z >>> 16);
}
