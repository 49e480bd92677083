/** Looks into a picture before it counts as evidence: its kind, its size, and that its file is whole. */
import { imageSize } from 'image-size';
import { err, ok, problemFactory, type Result } from '../base/problem.js';
import type { Evidence } from '../unit/events.js';
import { BENCH_MESSAGES } from './messages.js';

const raise = problemFactory(BENCH_MESSAGES);

type Picture = NonNullable<Evidence['picture']>;

/** The kinds that cameras and phones write, and how the end of a whole file is known. */
const WHOLE: Readonly<Record<string, (bytes: Buffer) => boolean>> = {
  // Some cameras write a few bytes behind the end of image.
  jpg: (bytes) => bytes.subarray(-64).includes(Buffer.from([0xff, 0xd9])),
  png: (bytes) => bytes.subarray(-12).includes('IEND'),
  webp: (bytes) => bytes.length >= bytes.readUInt32LE(4) + 8,
  heif: boxesEnd,
  heic: boxesEnd,
};

/** @param least longer and shorter side, pixels */
export function pictureIn(bytes: Buffer, name: string, least: readonly [number, number]): Result<Picture> {
  const found = sizeOf(bytes);
  const isWhole = found && WHOLE[found.kind];
  if (!found || !isWhole) return err(raise('evidence.no-picture', { name }));
  if (!isWhole(bytes)) return err(raise('evidence.cut-off', { name }));
  const { width, height } = found;
  if (Math.max(width, height) < least[0] || Math.min(width, height) < least[1])
    return err(raise('evidence.too-small', { name, width, height, least: least[0], least2: least[1] }));
  return ok(found);
}

function sizeOf(bytes: Buffer): Picture | undefined {
  try {
    const { type = '', width, height } = imageSize(bytes);
    return { kind: type, width, height };
  } catch {
    return undefined;
  }
}

/** Boxes of an ISO base media file, one after the other, must end where the file does. */
function boxesEnd(bytes: Buffer): boolean {
  let at = 0;
  while (at + 8 <= bytes.length) {
    const short = bytes.readUInt32BE(at);
    // 0: up to the end of the file; 1: the length follows in eight bytes.
    if (short === 0) return true;
    const length = short === 1 && at + 16 <= bytes.length ? Number(bytes.readBigUInt64BE(at + 8)) : short;
    if (length < 8) return false;
    at += length;
  }
  return at === bytes.length;
}
