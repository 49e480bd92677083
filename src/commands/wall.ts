/** How a command that opens no workshop tells times: as the clock on the wall does, whose zone is read only where there are any. */
import { localTimes } from '../base/wallclock.js';
import { data, type Spoken } from '../base/words.js';
import { realDisk } from '../store/disk.js';
import { readWorkshopFile } from '../store/filecollection.js';
import type { Io } from './io.js';

export async function byTheWall({ workshop }: Io, lines: readonly Spoken[]): Promise<readonly Spoken[]> {
  if (!lines.some((text) => text.includes(' UTC'))) return lines;
  const { parseHouse } = await import('../store/company.js');
  const read = readWorkshopFile(realDisk, workshop, 'shared/workshop.yaml');
  const house = read.ok ? parseHouse(read.value) : read;
  // Where that file cannot be read, times keep saying that they are in UTC.
  if (!house.ok) return lines;
  const { zone } = house.value;
  return lines.map((text) => data(localTimes(text, zone, Date.now())));
}
