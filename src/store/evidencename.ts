/**
 * What evidence is called. A workshop names it by its hash alone; an archive adds an ending, so that whoever unpacks it can
 * open a photograph. Unpacked, an archive is read as a workshop is: by the hash.
 */
import type { Evidence } from '../unit/events.js';

/** Endings that a viewer opens; anything else stays without one. */
const ENDINGS = new Set(['jpg', 'jpeg', 'png', 'webp', 'heic', 'heif', 'pdf', 'txt', 'csv']);

/** @returns `9f86….jpg` */
export function archivedName({ sha256, name, picture }: Evidence): string {
  const ending = picture?.kind ?? /\.([a-z]+)$/i.exec(name)?.[1]?.toLowerCase() ?? '';
  return ENDINGS.has(ending) ? `${sha256}.${ending}` : sha256;
}

/** @returns undefined for a name that no evidence has */
export const hashNamed = (name: string): string | undefined =>
  /^([0-9a-f]{64})(?:\.[a-z]{3,4})?$/.exec(name)?.[1];
