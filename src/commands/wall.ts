/** How a command that opens no workshop tells times: as the clock on the wall does, whose zone is read only where there are any. */
import { localTimes } from '../base/wallclock.js';
import { data, type Spoken } from '../base/words.js';
import { realDisk } from '../store/disk.js';
import { readWorkshopFile } from '../store/filecollection.js';
import type { Io } from './io.js';

export async function byTheWall(io: Io, lines: readonly Spoken[]): Promise<readonly Spoken[]> {
  if (!lines.some((text) => text.includes(' UTC'))) return lines;
  const here = await zoneHere(io);
  // Where its file cannot be read, times keep saying that they are in UTC.
  return here ? lines.map((text) => data(localTimes(text, here.zone, Date.now()))) : lines;
}

/** The workshop's zone; undefined where its file cannot be read. */
export async function zoneHere({ workshop }: Io): Promise<{ readonly zone: string | undefined } | undefined> {
  const { parseHouse } = await import('../store/company.js');
  const read = readWorkshopFile(realDisk, workshop, 'shared/workshop.yaml');
  const house = read.ok ? parseHouse(read.value) : read;
  return house.ok ? { zone: house.value.zone } : undefined;
}
