/** Any disk, with its n-th call made to fail, to write short, or to be the last one before or after which the program dies. */
import type { Disk } from '../../src/store/disk.js';

export type Fault =
  | { readonly kind: 'error'; readonly code: string }
  | { readonly kind: 'short' }
  | { readonly kind: 'crash-before' }
  | { readonly kind: 'crash-after' };

/** What a call of a dead program throws: no errno, so nothing can take it for a file error. */
export class Crash extends Error {}

export interface FaultyDisk extends Disk {
  /** Whether the n-th call was reached. */
  readonly struck: () => boolean;
  readonly log: readonly string[];
}

/** Calls count from 1. `only` counts only the calls named. Errors strike once, a crash for good. */
export function faulty(disk: Disk, nth: number, fault: Fault, only?: ReadonlySet<string>): FaultyDisk {
  let calls = 0;
  let struck = false;
  let dead = false;
  const log: string[] = [];
  return new Proxy(disk, {
    get(target, name: string) {
      if (name === 'struck') return () => struck;
      if (name === 'log') return log;
      const call = Reflect.get(target, name, target) as unknown;
      if (typeof call !== 'function') return call;
      return (...args: unknown[]) => {
        if (dead) throw new Crash('the program is dead');
        if (only && !only.has(name)) return call.apply(target, args);
        log.push(name);
        calls++;
        if (calls !== nth) return call.apply(target, args);
        struck = true;
        switch (fault.kind) {
          case 'error':
            throw Object.assign(new Error(`${fault.code}: injected in ${name}`), { code: fault.code });
          case 'short': {
            if (name !== 'write') return call.apply(target, args);
            const [handle, bytes, from] = args as [number, Uint8Array, number];
            const half = from + Math.floor((bytes.length - from) / 2);
            return call.apply(target, [handle, bytes.subarray(0, half), from]);
          }
          case 'crash-before':
            dead = true;
            throw new Crash('the program died');
          case 'crash-after':
            call.apply(target, args);
            dead = true;
            throw new Crash('the program died');
        }
      };
    },
  }) as FaultyDisk;
}
