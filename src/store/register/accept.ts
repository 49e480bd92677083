/** A named person takes what a restore has left for what counts: one entry, and nothing is changed but that. */
import { err, ok, type Problem, type Result } from '../../base/problem.js';
import { FIRST_PREV, type Stamp } from '../../unit/chain.js';
import type { RegisterHead } from '../../unit/events.js';
import { type Disk, diskProblem, storeProblem } from '../disk.js';
import type { VerifyReport } from '../verify.js';
import { storeWords } from '../words.js';
import { enter, headNow, noHead, reachedNow } from './enter.js';
import type { BenchBody } from './entries.js';
import { benchFile, benchPlace, KEYS_FILE } from './place.js';
import { hasKeys, signingKey } from './signing.js';
import { readBench } from './whole.js';

/** What a restore explains: files that are older than a register knows, or not there. */
const OF_FILES: ReadonlySet<string> = new Set([
  'verify.journal-gone',
  'verify.journal-emptied',
  'verify.journal-cut',
  'verify.journal-put-back',
  'verify.journal-anew',
  'verify.journal-born-again',
  'verify.seal-gone',
]);
const OF_REGISTERS: ReadonlySet<string> = new Set([
  'verify.register-gone',
  'verify.register-cut',
  'verify.register-anew',
]);
/** Of the bench's own register: what can be read no more is set aside. */
const OF_ITS_CHAIN: ReadonlySet<string> = new Set([
  'verify.changed-line',
  'verify.missing-line',
  'verify.re-ordered-line',
  'verify.repeated-line',
  'verify.broken-chain',
  'verify.unknown-event',
  'verify.torn-end',
  'verify.forged-chain',
  'verify.register-unsigned',
]);

export interface Accepting {
  readonly reason: string;
  readonly pin: boolean;
}

/** What would be accepted; a problem where there is nothing, or where something is wrong that no restore explains. */
export function acceptable(report: VerifyReport, bench: string): Result<readonly Problem[]> {
  const own = benchFile(bench);
  const isOfRestore = ({ id, place }: Problem): boolean =>
    OF_FILES.has(id) || OF_REGISTERS.has(id) || (place?.file === own && OF_ITS_CHAIN.has(id));
  const keysGone = report.faults.find(
    ({ id, place }) => id === 'verify.register-gone' && place?.file === KEYS_FILE,
  );
  if (keysGone) return err(storeProblem('key.register-gone/known', { fault: keysGone.said }, keysGone.place));
  const others = report.faults.filter((problem) => !isOfRestore(problem));
  if (others.length > 0)
    return err(storeProblem('register.not-restored', { count: others.length }), ...others);
  return report.faults.length > 0 ? ok(report.faults) : err(storeProblem('register.nothing'));
}

/** Writes the entry; durable once ok. @param faults as `acceptable` gives them */
export function acceptRestore(
  disk: Disk,
  root: string,
  report: VerifyReport,
  faults: readonly Problem[],
  { reason, pin }: Accepting,
  stamp: Stamp,
): Result<RegisterHead> {
  const { bench } = stamp;
  const key = signingKey(disk, root, bench);
  if (!key.ok) return key;
  if (!key.value && hasKeys(disk, root)) return err(storeProblem('key.nobody-signs/key', { bench }));
  const files = new Set(faults.flatMap(({ id, place }) => (OF_FILES.has(id) && place ? [place.file] : [])));
  const lost = new Map<string, RegisterHead>();
  for (const head of report.lost) if (head.n >= (lost.get(head.bench)?.n ?? 0)) lost.set(head.bench, head);
  try {
    if (faults.some(({ id, place }) => place?.file === benchFile(bench) && OF_ITS_CHAIN.has(id))) {
      const n = setRegisterAside(disk, root, bench);
      if (n > (lost.get(bench)?.n ?? 0)) lost.set(bench, { bench, n, hash: FIRST_PREV });
    }
    const body: BenchBody = {
      kind: 'restore-accepted',
      reason,
      pin,
      heads: [...files].map((file) => headNow(disk, root, file) ?? noHead(file)),
      lost: [...lost.values()],
      seen: reachedNow(disk, root),
    };
    return enter(disk, root, stamp, [body], { accepted: true });
  } catch (error) {
    return err(diskProblem(error, benchFile(bench), storeWords('while-restore-accepted')));
  }
}

/** Keeps it beside the new one, under the first free name. Returns how many lines it has. */
function setRegisterAside(disk: Disk, root: string, bench: string): number {
  const place = benchPlace(root, bench);
  if (!place.ok) return 0;
  const { file, folder } = place.value;
  const lines = readBench(disk, root, bench)?.lines ?? 0;
  for (let n = 1; ; n++) {
    const aside = `${file}.aside-${n}`;
    if (disk.stat(aside) !== undefined) continue;
    disk.rename(file, aside);
    disk.flushFolder(folder);
    return lines;
  }
}
