/** `verify --shop`: the server held against this folder. */
import { problemTold } from '../base/problem.js';
import { compareWithServer } from '../server/compare.js';
import { onServer } from '../server/join.js';
import { shopProblem } from '../server/messages.js';
import { readSettings } from '../server/settings.js';
import { sources } from '../session/sources.js';
import { readCard } from '../store/card.js';
import { realDisk } from '../store/disk.js';
import { EXIT, fail, type Io } from './io.js';

/** Returns an exit code: 1 where something does not hold, more where it could not be looked at. */
export async function verifyShop(io: Io): Promise<number> {
  const card = readCard(realDisk, io.workshop);
  if (!card.ok) return fail(io, card.problems);
  const joined = card.value;
  if (!joined) return fail(io, [shopProblem('shop.not-joined')]);
  const settings = readSettings(sources(), joined.service ?? process.env.PGSERVICE);
  if (!settings.ok) return fail(io, settings.problems);
  const compared = await onServer(settings.value, (client) =>
    compareWithServer(client, realDisk, io.workshop, joined),
  );
  if (!compared.ok) return fail(io, compared.problems);
  const { journals, lines, files, waiting, problems } = compared.value;
  for (const problem of problems) io.out(problemTold(problem, io.reader?.tell));
  io.out(
    `On the server: ${journals} journals, ${lines} lines, ${files} files${problems.length === 0 ? `, as they are here.${waiting === 0 ? '' : ` ${waiting} ${waiting === 1 ? 'journal has' : 'journals have'} more here, to be handed over.`}` : `; ${problems.length} ${problems.length === 1 ? 'does' : 'do'} not hold.`}`,
  );
  return problems.length === 0 ? EXIT.done : EXIT.doesNotHold;
}
