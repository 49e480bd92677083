/** Appends to a register, under its lock: the last line is read, the new ones follow from it, and are durable on return. */
import { err, ok, type Problem, type Result } from '../../base/problem.js';
import { canonicalText, chainEvent, type Stamp } from '../../unit/chain.js';
import type { Envelope } from '../../unit/events.js';
import type { Signer } from '../../unit/sealing.js';
import { appendWhole } from '../appended.js';
import { type Disk, diskProblem, storeProblem } from '../disk.js';
import { makeFolders } from '../files.js';
import { cutTail, setAside } from '../journalrepair.js';
import { type Lock, takeLock, thisProcess } from '../lock.js';
import type { JournalPlace } from '../paths.js';
import { storeWords } from '../words.js';
import { signedWith } from './entries.js';
import { LARGEST_REGISTER, type RegisterEnd, readEnd } from './place.js';

/** Another process of this bench holds the lock for some milliseconds. */
const TRIES = 50;
const PAUSE_MS = 20;

export interface Appending {
  readonly place: JournalPlace;
  /** Folders of it under the workshop. */
  readonly folders: readonly string[];
  readonly wrongWith: (entry: unknown) => string | undefined;
  readonly stamp: Stamp;
  readonly signer: Signer | undefined;
}

/** Registers whose names this process made durable: whoever made them may have died before doing so. */
const named = new WeakMap<Disk, ReadonlySet<string>>();
const isNamed = (disk: Disk, { file }: JournalPlace): boolean => named.get(disk)?.has(file) === true;

/** The number and hash of the last line. @param bodies what follows the end that is there now; nothing: nothing is written */
export function appendToRegister(
  disk: Disk,
  root: string,
  how: Appending,
  bodies: (end: RegisterEnd | undefined) => readonly object[],
): Result<Pick<Envelope, 'n' | 'hash'> | undefined> {
  const { place, stamp } = how;
  try {
    if (!isNamed(disk, place) || disk.stat(place.folder) === undefined) makeFolders(disk, root, how.folders);
    const lock = patiently(() => takeLock(disk, place, thisProcess(), { bench: stamp.bench, who: stamp.by }));
    if (!lock.ok) return err(lockedProblem(lock.problems[0]!, place));
    try {
      return write(disk, how, bodies);
    } finally {
      lock.value.release();
    }
  } catch (error) {
    return err(diskProblem(error, place.shown, storeWords('while-register-written')));
  }
}

function patiently(take: () => Result<Lock>): Result<Lock> {
  for (let tries = 1; ; tries++) {
    const taken = take();
    if (taken.ok || tries >= TRIES) return taken;
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PAUSE_MS);
  }
}

const lockedProblem = ({ said }: Problem, { shown }: JournalPlace): Problem =>
  storeProblem(
    'register.locked',
    { text: said },
    {
      file: shown.replace(/jsonl$/, 'lock'),
    },
  );

function write(
  disk: Disk,
  { place, wrongWith, stamp, signer }: Appending,
  bodies: Parameters<typeof appendToRegister>[3],
): Result<Pick<Envelope, 'n' | 'hash'> | undefined> {
  const read = readEnd(disk, place);
  if (!read.ok) return read;
  const end = read.value;
  let last = end?.hash === undefined ? undefined : { n: end.n, hash: end.hash };
  let text = '';
  for (const body of bodies(end)) {
    const plain = chainEvent(signer ? { ...body, signedBy: signer.id } : body, stamp, last);
    const entry = signer ? chainEvent({ ...body, ...signedWith(plain, signer) }, stamp, last) : plain;
    const wrong = wrongWith(entry);
    if (wrong !== undefined)
      return err(storeProblem('journal.cannot-hold/entry', { wrong }, { file: place.shown }));
    text += `${canonicalText(entry)}\n`;
    last = entry;
  }
  if (end?.torn) {
    setAside(disk, place, end.torn);
    cutTail(disk, place.file, end.bytes);
  }
  if (text === '') return ok(last);
  const bytes = Buffer.from(text);
  if ((end?.bytes ?? 0) + bytes.length > LARGEST_REGISTER)
    return err(storeProblem('journal.too-large/register', {}, { file: place.shown }));
  appendWhole(disk, place, bytes, end?.bytes, () => {
    if (end === undefined || !isNamed(disk, place)) disk.flushFolder(place.folder);
    named.set(disk, new Set([...(named.get(disk) ?? []), place.file]));
  });
  return ok(last);
}
