/** Writing a document where the person wants it, and never over what the workshop rests on. */
import { mkdirSync } from 'node:fs';
import { dirname, extname, relative, resolve, sep } from 'node:path';
import { bad, good, type Problem, type Result, raiser } from '../base/problem.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import type { Disk } from '../store/disk.js';
import { writeWhole } from '../store/files.js';

const raise = raiser(RECORD_MESSAGES);

/** The whole file or nothing. Throws the disk's own error where it cannot be written. */
export function writeDocument(
  disk: Disk,
  workshop: string,
  file: string,
  content: string | Uint8Array,
): Result<string> {
  const path = resolve(file);
  const [first] = relative(resolve(workshop), path).split(sep);
  if (first === 'logs' || first === 'shared' || first === 'procedures')
    return bad(raise('record.out-place', `${file} is among the workshop's own files.`));
  mkdirSync(dirname(path), { recursive: true });
  writeWhole(disk, path, typeof content === 'string' ? Buffer.from(content, 'utf8') : Buffer.from(content));
  return good(path);
}

/** `pdf` of `P02-1.PDF`; "" where there is none. */
export const endingOf = (file: string | undefined): string =>
  extname(file ?? '')
    .slice(1)
    .toLowerCase();

/** A format that there is not: named, or read off the end of the file's name. */
export const noFormat = (asked: string, byEnding: boolean, formats: readonly string[]): Problem =>
  byEnding
    ? raise(
        'record.option',
        `".${asked}" at the end of --out names no format.`,
        undefined,
        `End it with one of ${formats.map((each) => `.${each}`).join(', ')}, or name one with --format.`,
      )
    : raise(
        'record.option',
        `--format "${asked}" is not known.`,
        undefined,
        `Use one of ${formats.join(', ')}.`,
      );
