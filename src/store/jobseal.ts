/**
 * Seal over a whole job: its units, each journal's line count and last hash, and one hash over those in order, signed
 * if the bench has a key. Later seals are added beside earlier ones, which remain valid for the lines they cover.
 */
import { join } from 'node:path';
import * as z from 'zod';
import { err, ok, type Result } from '../base/problem.js';
import { canonicalText, sha256 } from '../unit/chain.js';
import { type Signer, sealOver } from '../unit/sealing.js';
import { type Disk, diskProblem } from './disk.js';
import { makeFolders, writeWhole } from './files.js';
import { storeWords } from './words.js';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const jobSealSchema = z.strictObject({
  /** In format 1 the signature is over `seal` alone. */
  format: z.enum(['pinchrod-job-seal 1', 'pinchrod-job-seal 2']),
  job: z.string(),
  at: z.iso.datetime({ precision: 3 }),
  bench: z.string(),
  units: z.array(z.strictObject({ unit: z.string(), lines: z.number().int().positive(), hash })).min(1),
  seal: hash,
  key: z
    .string()
    .regex(/^[0-9a-f]{16}$/)
    .optional(),
  signature: z.string().optional(),
});
export type JobSeal = z.infer<typeof jobSealSchema>;

export const LARGEST_SEAL = 5_000_000;
const NAME = /^job\.seal(?:\.(\d{1,6}))?\.json$/;
export const isJobSeal = (file: string): boolean => NAME.test(file);

export function makeJobSeal(
  job: string,
  units: JobSeal['units'],
  by: { readonly at: string; readonly bench: string; readonly signer?: Signer | undefined },
): JobSeal {
  const { at, bench, signer } = by;
  const seal: JobSeal = {
    format: 'pinchrod-job-seal 2',
    job,
    at,
    bench,
    units,
    seal: sealOver(units.map((unit) => unit.hash)),
    ...(signer ? { key: signer.id } : {}),
  };
  return signer ? { ...seal, signature: signer.sign(signedHash(seal)) } : seal;
}

/** What the signature is over, as SHA-256 in hex: every member but itself, in canonical form. */
export function signedHash({ signature: _, ...seal }: JobSeal): string {
  return seal.format === 'pinchrod-job-seal 1' ? seal.seal : sha256(canonicalText(seal));
}

/**
 * Writes the seal as logs/<job>/job.seal.json; an existing one is kept as job.seal.<n>.json. Returns the file's display
 * name, and whether that same seal (same units, hash and key) was there already.
 */
export function writeJobSeal(
  disk: Disk,
  root: string,
  seal: JobSeal,
): Result<{ readonly file: string; readonly there: boolean }> {
  const shown = `logs/${seal.job}/job.seal.json`;
  try {
    const folder = makeFolders(disk, root, ['logs', seal.job]);
    const file = join(folder, 'job.seal.json');
    const before = disk.stat(file) === undefined ? undefined : readJobSeal(disk.read(file));
    if (before && before.seal === seal.seal && before.key === seal.key && before.format === seal.format)
      return ok({ file: shown, there: true });
    if (disk.stat(file) !== undefined) disk.rename(file, join(folder, freeName(disk.list(folder))));
    writeWhole(disk, file, Buffer.from(`${JSON.stringify(seal, null, 2)}\n`));
    return ok({ file: shown, there: false });
  } catch (error) {
    return err(diskProblem(error, shown, storeWords('while-job-sealed')));
  }
}

function freeName(there: readonly string[]): string {
  const numbers = there.map((name) => Number(NAME.exec(name)?.[1] ?? 0));
  return `job.seal.${Math.max(0, ...numbers) + 1}.json`;
}

/** Undefined if the bytes are not a job seal. */
export function readJobSeal(bytes: Uint8Array): JobSeal | undefined {
  try {
    const read = jobSealSchema.safeParse(JSON.parse(Buffer.from(bytes).toString('utf8')));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}
