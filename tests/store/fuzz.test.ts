/** Random damage to real journals: `verify` finds every piece of it, names the line, and is never wrong about a good one. */
import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { type VerifyReport, verifyTree } from '../../src/store/verify.js';
import { memoryDisk } from '../../src/store/verifyarchive.js';
import { JOB, realWorkshop } from './realjournals.js';

const UNITS = ['P01-1', 'P02-1', 'P03-1', 'P05-1'];
const RUNS = 10_000;
/** Most journals are met while the unit is being built, with a random number of its lines; the rest whole, signed and sealed. */
const BUILT = 25;
let workshop: ReturnType<typeof realWorkshop>;

beforeAll(() => {
  workshop = realWorkshop(UNITS);
});

const report = (unit: string, bytes: Uint8Array, closed: boolean): VerifyReport => {
  const files = new Map(workshop.files);
  files.set(`logs/${JOB}/${unit}.jsonl`, bytes);
  // A unit that is being built is of a job without a seal.
  if (!closed) files.delete(`logs/${JOB}/job.seal.json`);
  return verifyTree(memoryDisk('/w', files), '/w', { job: JOB, unit });
};
const bytesOf = (lines: readonly string[]) => Buffer.from(lines.map((line) => `${line}\n`).join(''));
const linesOf = (unit: string, built: number) => workshop.lines.get(unit)!.slice(0, built);

it('finds nothing in journals that nobody touched, whole or at any length', () => {
  expect(verifyTree(memoryDisk('/w', workshop.files), '/w')).toMatchObject({
    holds: true,
    faults: [],
    notes: [],
  });
  for (const unit of UNITS) {
    const all = workshop.lines.get(unit)!;
    expect(all.length).toBeGreaterThan(100);
    for (let n = 1; n < all.length; n += 7)
      expect(report(unit, bytesOf(linesOf(unit, n)), false).faults, `${unit}, ${n} lines`).toEqual([]);
  }
}, 60_000);

/** What is done, in shares of what there is, so that it fits a journal of any length. */
const share = fc.nat(999_999).map((n) => n / 1_000_000);
const change = fc.record({
  kind: fc.constantFrom('byte', 'swap', 'delete', 'cut'),
  unit: fc.constantFrom(...UNITS),
  closed: fc.nat(19).map((n) => n === 0),
  built: fc.integer({ min: 2, max: BUILT }),
  a: share,
  b: share,
  byte: fc.nat(255),
});
type Change = typeof change extends fc.Arbitrary<infer T> ? T : never;

interface Damage {
  readonly bytes: Buffer;
  /** The first line that is not as it was; the number of lines left where only the end is gone. */
  readonly line: number;
  readonly endGone?: boolean;
}

/** Nothing where it comes to no change, or to a journal that is whole and not closed: that one is as it was earlier. */
function damage({ kind, a, b, byte, closed }: Change, lines: readonly string[]): Damage | undefined {
  const good = bytesOf(lines);
  const at = Math.floor(a * good.length);
  const lineAt = (offset: number) => good.subarray(0, offset).toString('latin1').split('\n').length;
  const i = Math.floor(a * lines.length);
  if (kind === 'byte') {
    const bytes = Buffer.from(good);
    bytes[at] = byte;
    return bytes.equals(good) ? undefined : { bytes, line: lineAt(at) };
  }
  if (kind === 'swap') {
    const [low, high] = [i, Math.floor(b * lines.length)].sort((x, y) => x - y) as [number, number];
    if (low === high) return undefined;
    return { bytes: bytesOf(lines.with(low, lines[high]!).with(high, lines[low]!)), line: low + 1 };
  }
  if (kind === 'delete') {
    const last = i === lines.length - 1;
    if (last && !closed) return undefined;
    return { bytes: bytesOf(lines.toSpliced(i, 1)), line: last ? i : i + 1, endGone: last };
  }
  const whole = at === 0 || good[at - 1] === 0x0a;
  if (whole && !closed) return undefined;
  return { bytes: good.subarray(0, at), line: whole ? lineAt(at) - 1 : lineAt(at), endGone: whole };
}

it(`finds ${RUNS} random changed bytes, swapped and deleted lines and cuts, and names the line of each`, () => {
  const found: Record<Change['kind'], number> = { byte: 0, swap: 0, delete: 0, cut: 0 };
  let runs = 0;
  const property = fc.property(fc.noBias(change), (each) => {
    const lines = each.closed ? workshop.lines.get(each.unit)! : linesOf(each.unit, each.built);
    const done = damage(each, lines);
    fc.pre(done !== undefined);
    runs++;
    const { holds, faults } = report(each.unit, done!.bytes, each.closed);
    expect(holds, JSON.stringify(each)).toBe(false);
    const [first] = faults;
    // What is only gone from the end is whole: the seal of the job says how many lines there were.
    if (done!.endGone)
      expect(first).toMatchObject({
        id: 'verify.job-seal',
        text: `${each.unit} had ${lines.length} lines when the job was sealed and has ${done!.line}.`,
      });
    else
      expect(first?.place, JSON.stringify({ each, first })).toEqual({
        file: `logs/${JOB}/${each.unit}.jsonl`,
        line: done!.line,
      });
    found[each.kind]++;
  });
  fc.assert(property, { seed: 8785, numRuns: RUNS, maxSkipsPerRun: 10 });
  expect(runs).toBe(RUNS);
  for (const count of Object.values(found)) expect(count).toBeGreaterThan(2000);
}, 120_000);
