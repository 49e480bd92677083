/** A process of its own for the lock tests: claims a unit and does as its argument says. Answers on standard output. */
import { realDisk } from '../../src/store/disk.js';
import { lockUnit } from '../../src/store/unitlock.js';
import { noted, opened, stamp } from './samples.js';

const [root, task, count] = process.argv.slice(2) as [string, string, string?];
const claim = () => lockUnit(realDisk, root, 'pier-house', 'P01-1', { bench: 'bench-2', who: 'ot' });

if (task === 'hold' || task === 'exit') {
  const made = claim();
  process.stdout.write(`${made.ok ? 'have it' : made.problems[0]!.id}\n`);
  if (task === 'hold') setInterval(() => undefined, 1000);
} else {
  // Takes the unit, writes one event, lets it go, again and again; others do the same at the same time.
  let written = 0;
  while (written < Number(count)) {
    const made = claim();
    if (!made.ok) {
      if (made.problems[0]!.id !== 'lock.held') throw new Error(JSON.stringify(made.problems));
      continue;
    }
    const { journal, release } = made.value;
    journal.append([journal.events.length === 0 ? opened() : noted(`${process.pid}`)], stamp());
    written++;
    release();
  }
  process.stdout.write(`${written}\n`);
}
