/** `verify --shop`: the server held against this folder. */
import { problemTold } from '../base/problem.js';
import { compareWithServer } from '../server/compare.js';
import { onServer } from '../server/join.js';
import { shopProblem } from '../server/messages.js';
import { readSettings } from '../server/settings.js';
import { sources } from '../session/sources.js';
import { readCard } from '../store/card.js';
import { realDisk } from '../store/disk.js';
import { EXIT, fail, type Io, saying } from './io.js';
import { SHOP_SAYS } from './words/shop.js';

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
  const say = saying(io, SHOP_SAYS);
  const counted = { journals, lines, files };
  if (problems.length > 0) io.out(say('shop-differs', { ...counted, n: problems.length }));
  else {
    const said = say('shop-same', counted);
    io.out(waiting === 0 ? said : say('shop-same-waiting', { said, n: waiting }));
  }
  return problems.length === 0 ? EXIT.done : EXIT.doesNotHold;
}
