/**
 * The seal of a whole job: which units, how many lines each journal had, the hash of the last of them, and one hash over
 * these in order, signed where the bench has a key. A later seal stands beside the earlier ones, which stay true of the
 * lines that they cover.
 */
import { join } from 'node:path';
import * as z from 'zod';
import { err, ok, type Result } from '../base/problem.js';
import { type Signer, sealOver } from '../unit/sealing.js';
import { type Disk, diskProblem } from './disk.js';
import { makeFolders, writeWhole } from './files.js';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const jobSealSchema = z.strictObject({
  format: z.literal('pinchrod-job-seal 1'),
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

/** The seal of these units, in this order. Pure. */
export function makeJobSeal(
  job: string,
  units: JobSeal['units'],
  by: { readonly at: string; readonly bench: string; readonly signer?: Signer | undefined },
): JobSeal {
  const seal = sealOver(units.map((unit) => unit.hash));
  return {
    format: 'pinchrod-job-seal 1',
    job,
    at: by.at,
    bench: by.bench,
    units,
    seal,
    ...(by.signer ? { key: by.signer.id, signature: by.signer.sign(seal) } : {}),
  };
}

/**
 * Writes the seal as logs/<job>/job.seal.json; one that is there is kept as job.seal.<n>.json. Gives the file's name as
 * problems show it, and whether it is the seal that was there already (same units, same hash, signed as before).
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
    if (before && before.seal === seal.seal && before.key === seal.key)
      return ok({ file: shown, there: true });
    if (disk.stat(file) !== undefined) disk.rename(file, join(folder, freeName(disk.list(folder))));
    writeWhole(disk, file, Buffer.from(`${JSON.stringify(seal, null, 2)}\n`));
    return ok({ file: shown, there: false });
  } catch (error) {
    return err(diskProblem(error, shown, 'the job was sealed'));
  }
}

function freeName(there: readonly string[]): string {
  const numbers = there.map((name) => Number(NAME.exec(name)?.[1] ?? 0));
  return `job.seal.${Math.max(0, ...numbers) + 1}.json`;
}

/** The seal that a file holds; nothing where it holds none. */
export function readJobSeal(bytes: Uint8Array): JobSeal | undefined {
  try {
    const read = jobSealSchema.safeParse(JSON.parse(Buffer.from(bytes).toString('utf8')));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}
