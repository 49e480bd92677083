/** `shop`: several benches on one server. */
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { err, ok, type Problem, problemFactory, problemTold, type Result, saidAs } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import type { Spoken } from '../base/words.js';
import { Agent } from '../server/agent.js';
import { copyShop } from '../server/copy.js';
import { changedHere, publish, takeEdition } from '../server/editions.js';
import { makeShop } from '../server/gate.js';
import { type JoinPlace, joinShop, leaveShop, onServer } from '../server/join.js';
import { shopProblem } from '../server/messages.js';
import { newsNow, Teller } from '../server/news.js';
import { removeFromShop } from '../server/removal.js';
import { resumeShop } from '../server/setback.js';
import { readSettings, type Settings } from '../server/settings.js';
import { linesKeptBack, readStatus, type ShopStatus } from '../server/status.js';
import { sources } from '../session/sources.js';
import { realPorts } from '../session/workshopports.js';
import { type Card, readCard } from '../store/card.js';
import { realDisk } from '../store/disk.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { ASSESSES, RELEASES } from '../unit/people.js';
import type { Level, Person } from '../unit/types.js';
import { COMMAND_MESSAGES, commandWords } from './catalogue.js';
import { HELP } from './help.js';
import {
  asJson,
  EXIT,
  exitOf,
  fail,
  type Io,
  indented,
  readOptions,
  retold,
  saying,
  tellOf,
  usageOf,
} from './io.js';
import { vouchedFor } from './vouched.js';
import { BOARD_SAYS } from './words/board.js';
import { SHOP_SAYS } from './words/shop.js';

const raise = problemFactory(COMMAND_MESSAGES);

const OPTIONS = {
  by: { type: 'string' },
  reason: { type: 'string' },
  bench: { type: 'string' },
  service: { type: 'string' },
  drop: { type: 'boolean' },
  moved: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

interface Asked {
  readonly io: Io;
  readonly by: string | undefined;
  readonly reason: string | undefined;
  readonly bench: string | undefined;
  readonly service: string | undefined;
  readonly drop: boolean;
  readonly moved: boolean;
  readonly json: boolean;
  /** The word behind the deed. */
  readonly unit: string | undefined;
}

const DEEDS: Readonly<Record<string, (asked: Asked) => Promise<Result<readonly Spoken[]>>>> = {
  init,
  join,
  status,
  publish: publishFiles,
  take,
  resume: goOn,
  leave,
  copy,
  remove,
};

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.shop, OPTIONS, { least: 1, most: 2 });
  if (typeof read === 'number') return read;
  const { values, positionals } = read;
  const [word = '', unit] = positionals;
  const deed = Object.hasOwn(DEEDS, word) ? DEEDS[word] : undefined;
  if (!deed || (unit !== undefined) !== TAKES_A_WORD.has(word))
    return wrong(io, raise('command.usage/shop', { usage: usageOf(HELP.shop) }));
  const { by, reason, bench, service, drop = false, moved = false, json = false } = values;
  if (NEEDS_BY.has(word) && by === undefined)
    return wrong(io, raise('command.usage/by', { verb: word, usage: usageOf(HELP.shop) }));
  if (NEEDS_REASON.has(word) && !drop && (reason ?? '').trim() === '')
    return wrong(io, raise('command.usage/reason', { verb: word, usage: usageOf(HELP.shop) }));
  const done = await deed({ io, by, reason: reason?.trim(), bench, service, drop, moved, json, unit });
  if (!done.ok) return fail(io, done.problems, exitOfShop(done.problems));
  for (const line of done.value) io.out(line);
  for (const problem of done.warnings) io.err(problemTold(problem, io.reader?.tell));
  return done.warnings.length > 0 ? exitOf(done.warnings) : EXIT.done;
}

const TAKES_A_WORD = new Set(['take', 'copy', 'remove']);
const NEEDS_BY = new Set(['init', 'join', 'publish', 'take', 'resume', 'leave', 'remove']);
const NEEDS_REASON = new Set(['publish', 'take', 'resume', 'remove']);

/** What a person may not do, or a bench does not get, is no bad input. */
const exitOfShop = (problems: readonly Problem[]): number =>
  problems.some(({ id }) => ['person.right', 'person.pin-wrong', 'shop.leased', 'shop.setback'].includes(id))
    ? EXIT.doesNotHold
    : exitOf(problems);

const wrong = (io: Io, problem: Problem): number => fail(io, [problem], EXIT.badInput);

const place = (io: Io, settings: Settings): JoinPlace => ({
  disk: realDisk,
  root: io.workshop,
  settings,
  clock: Date.now,
});

/** The folder's card, and how its server is reached. */
function joined(io: Io): Result<{ readonly card: Card; readonly settings: Settings }> {
  const card = readCard(realDisk, io.workshop);
  if (!card.ok) return card;
  if (!card.value) return err(shopProblem('shop.not-joined'));
  const settings = settingsOf(card.value.service);
  return settings.ok ? ok({ card: card.value, settings: settings.value }) : settings;
}

const settingsOf = (service: string | undefined): Result<Settings> =>
  readSettings(sources(), service ?? process.env.PGSERVICE);

/** The person, where the workshop's own files are here and say who may. */
async function personOf(
  { io, by }: Asked,
  level: Level,
): Promise<Result<{ readonly workshop: Workshop; readonly person: Person }>> {
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return workshop;
  const person = await vouchedFor(io, workshop.value, by!, level);
  return person.ok ? ok({ workshop: workshop.value, person: person.value }) : person;
}

function progressOn(io: Io) {
  let at = '';
  return (what: 'journals' | 'files', done: number, of: number): void => {
    const percent = of === 0 ? 100 : Math.floor((done / of) * 10) * 10;
    const say = saying(io, SHOP_SAYS);
    const text = say('shop-progress', { what: say(`shop-what-${what}`), percent, of });
    if (of > 100 && text !== at) io.err(text);
    at = text;
  };
}

async function init(asked: Asked): Promise<Result<readonly Spoken[]>> {
  const { io, service } = asked;
  const found = await personOf(asked, ASSESSES);
  if (!found.ok) return found;
  const { workshop, person } = found.value;
  const settings = settingsOf(service ?? workshop.card?.service);
  if (!settings.ok) return settings;
  const made = await onServer(settings.value, (client) => makeShop(client, workshop.rules.name, PROGRAM));
  if (!made.ok) return made;
  const { shop, brought, missing } = made.value;
  const say = saying(io, SHOP_SAYS);
  const lines = [
    brought
      ? say('shop-brought', { shop: sanitize(shop.name) })
      : say('shop-made', { shop: sanitize(shop.name), server: whereIs(settings.value) }),
    ...(missing.length === 0 ? [] : [say('shop-roles'), ...missing.map((text) => indented(sanitize(text)))]),
  ];
  if (workshop.card) return ok(lines);
  const took = await takePart(asked, settings.value, asked.bench ?? workshop.bench, person.id);
  if (!took.ok) return took;
  const published = await onServer(settings.value, async (client) => {
    const card = took.value;
    const teller = new Teller(client, card.folder, (await newsNow(client)).get(card.folder) ?? 0);
    return publish(client, teller, realDisk, io.workshop, { by: person.id, reason: 'the shop was made' });
  });
  if (!published.ok) return published;
  return ok([...lines, tookPart(took.value, io), say('shop-first-edition')]);
}

const PROGRAM = typeof PINCHROD_VERSION === 'string' ? PINCHROD_VERSION : 'from source';

const whereIs = ({ host, port, database }: Settings): Spoken => sanitize(`${host}:${port}/${database}`);

const takePart = (
  { io, service, moved }: Asked,
  settings: Settings,
  bench: string,
  by: string,
): Promise<Result<Card>> => {
  mkdirSync(io.workshop, { recursive: true });
  const how = { bench, by, moved, ...(service === undefined ? {} : { service }), progress: progressOn(io) };
  return joinShop(place(io, settings), how);
};

const tookPart = ({ bench, name }: Card, io: Io): Spoken =>
  saying(io, SHOP_SAYS)('shop-part', { shop: sanitize(name), bench: sanitize(bench) });

async function join(asked: Asked): Promise<Result<readonly Spoken[]>> {
  const { io, by, service } = asked;
  const card = readCard(realDisk, io.workshop);
  if (!card.ok) return card;
  const settings = settingsOf(service ?? card.value?.service);
  if (!settings.ok) return settings;
  const workshop = openWorkshop(io.workshop, realDisk);
  const bench = asked.bench ?? card.value?.bench ?? (workshop.ok ? workshop.value.bench : undefined);
  if (bench === undefined) return err(shopProblem('shop.bench-name'));
  const took = await takePart(asked, settings.value, bench, by!);
  return took.ok ? ok([tookPart(took.value, io), saying(io, SHOP_SAYS)('shop-all-here')]) : took;
}

async function status({ io, json }: Asked): Promise<Result<readonly Spoken[]>> {
  const here = joined(io);
  if (!here.ok) return here;
  const { card, settings } = here.value;
  const read = await onServer(settings, (client) => readStatus(client, realDisk, io.workshop, card));
  if (!read.ok) return err(...read.problems.map((problem) => withWaiting(problem, io.workshop)));
  return ok(json ? [asJson(read.value, 2)] : statusText(read.value, card, settings, io));
}

/** Where the server is not reached: what waits for it here, as far as the folder remembers how far it had come. */
function withWaiting(problem: Problem, root: string): Problem {
  if (exitOf([problem]) !== EXIT.resource) return problem;
  const waiting = linesKeptBack(realDisk, root);
  return saidAs(problem, commandWords('lines-wait', { said: problem.said, n: waiting }));
}

function statusText(status: ShopStatus, card: Card, settings: Settings, io: Io): Spoken[] {
  const say = saying(io, SHOP_SAYS);
  const { benches, waiting, files, edition, changed, leases, branches, aheadMs, waits } = status;
  const bench = sanitize(card.bench);
  const seconds = (Math.abs(aheadMs) / 1000).toFixed(1);
  return [
    say('shop-row-shop', { shop: sanitize(card.name), server: whereIs(settings) }),
    say(aheadMs < 0 ? 'shop-row-behind' : 'shop-row-ahead', { bench, seconds }),
    say('shop-row-benches', {
      benches: benches.map(({ name, left }) => {
        const shown = sanitize(name);
        return left ? say('shop-left', { bench: shown }) : shown;
      }),
    }),
    waiting === 0 && files === 0
      ? say('shop-row-handed')
      : say('shop-row-waiting', { lines: waiting, files }),
    ...(edition === undefined ? [say('shop-row-no-files')] : [editionText(edition, io)]),
    ...(changed.length === 0 ? [] : [say('shop-row-changed', { files: changed.map(sanitize) })]),
    ...(leases.length === 0 ? [say('shop-row-no-leases')] : []),
    ...leases.map(([holder, all], i) => {
      const shown = all.slice(0, 6).map(sanitize);
      const more = all.length - shown.length;
      const units = more > 0 ? saying(io, BOARD_SAYS)('board-more', { units: shown, n: more }) : shown;
      return say(i === 0 ? 'shop-row-leases' : 'shop-row-leases-also', { bench: sanitize(holder), units });
    }),
    ...(branches.length === 0 ? [] : [say('shop-row-branches', { branches: branches.map(sanitize) })]),
    ...(waits === undefined ? [] : [retold(io, waits)]),
    ...status.problems.map((problem) => problemTold(problem, tellOf(io))),
  ];
}

function editionText({ n, at, by, reason, here }: NonNullable<ShopStatus['edition']>, io: Io): Spoken {
  const say = saying(io, SHOP_SAYS);
  const row = say('shop-row-files', {
    n,
    day: at.slice(0, 10),
    by: sanitize(by),
    reason: sanitize(reason),
  });
  return here === n ? row : say('shop-row-files-other', { row, n: here ?? 0 });
}

async function publishFiles(asked: Asked): Promise<Result<readonly Spoken[]>> {
  const { io, drop, reason } = asked;
  const here = joined(io);
  if (!here.ok) return here;
  const { card, settings } = here.value;
  const found = await personOf(asked, RELEASES);
  if (!found.ok) return found;
  const say = saying(io, SHOP_SAYS);
  return onServer(settings, async (client) => {
    if (drop) {
      const mine = changedHere(realDisk, io.workshop);
      const taken = await takeEdition(client, realDisk, io.workshop, { drop });
      if (!taken.ok) return taken;
      return ok([
        mine.length === 0
          ? say('shop-as-published')
          : say('shop-as-published-kept', { files: mine.map(sanitize) }),
      ]);
    }
    const teller = new Teller(client, card.folder, (await newsNow(client)).get(card.folder) ?? 0);
    const how = { by: found.value.person.id, reason: reason! };
    const done = await publish(client, teller, realDisk, io.workshop, how);
    if (!done.ok) return done;
    await client.announce();
    return ok([done.value === undefined ? say('shop-nothing-new') : say('shop-edition', { n: done.value })]);
  });
}

async function take(asked: Asked): Promise<Result<readonly Spoken[]>> {
  const { io, reason } = asked;
  const here = joined(io);
  if (!here.ok) return here;
  const { card, settings } = here.value;
  const found = await personOf(asked, RELEASES);
  if (!found.ok) return found;
  const ports = realPorts({ workshop: io.workshop });
  if (!ports.ok) return ports;
  const unit = ports.value.find(asked.unit!);
  if (!unit) return err(shopProblem('shop.no-unit', { unit: asked.unit! }));
  const agent = new Agent({
    disk: realDisk,
    root: io.workshop,
    card,
    settings: () => ok(settings),
    clock: Date.now,
    isInUse: () => true,
    ahead: () => ({ units: [], most: 0 }),
  });
  agent.start();
  try {
    await agent.firstAnswer();
    const took = await agent.takeOver(unit.job, unit.unit, {
      by: found.value.person.id,
      reason: reason!,
      body: (from) => ({ kind: 'noted', text: `Taken over from ${from}: ${reason}` }),
    });
    if (!took.ok) return took;
    const given = { unit: sanitize(unit.unit), bench: sanitize(card.bench) };
    return ok([saying(io, SHOP_SAYS)('shop-taken', given)]);
  } finally {
    await agent.stop();
  }
}

async function goOn(asked: Asked): Promise<Result<readonly Spoken[]>> {
  const here = joined(asked.io);
  if (!here.ok) return here;
  const found = await personOf(asked, ASSESSES);
  if (!found.ok) return found;
  const by = found.value.person.id;
  return onServer(here.value.settings, async (client) => {
    const ended = await resumeShop(client, by, asked.reason!);
    return ok([saying(asked.io, SHOP_SAYS)(ended === 0 ? 'shop-no-wait' : 'shop-leases-again')]);
  });
}

async function copy({ io, service, unit: folder }: Asked): Promise<Result<readonly Spoken[]>> {
  const card = readCard(realDisk, io.workshop);
  const settings = settingsOf(service ?? (card.ok ? card.value?.service : undefined));
  if (!settings.ok) return settings;
  const root = resolve(folder!);
  mkdirSync(root, { recursive: true });
  const copied = await onServer(settings.value, (client) => copyShop(client, realDisk, root));
  return copied.ok
    ? ok([saying(io, SHOP_SAYS)('shop-copied', { ...copied.value, folder: sanitize(folder!) })])
    : copied;
}

async function remove(asked: Asked): Promise<Result<readonly Spoken[]>> {
  const here = joined(asked.io);
  if (!here.ok) return here;
  const found = await personOf(asked, ASSESSES);
  if (!found.ok) return found;
  const job = asked.unit!;
  return onServer(here.value.settings, async (client) => {
    const gone = await removeFromShop(client, job, found.value.person.id, asked.reason!);
    return gone.ok
      ? ok([saying(asked.io, SHOP_SAYS)('shop-removed', { n: gone.value, job: sanitize(job) })])
      : gone;
  });
}

async function leave(asked: Asked): Promise<Result<readonly Spoken[]>> {
  const { io, by } = asked;
  const here = joined(io);
  if (!here.ok) return here;
  const { card, settings } = here.value;
  const found = await personOf(asked, RELEASES);
  if (!found.ok) return found;
  const left = await leaveShop(place(io, settings), card, by!);
  return left.ok ? ok([saying(io, SHOP_SAYS)('shop-left-all')]) : left;
}
