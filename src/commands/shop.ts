/** `shop`: several benches on one server. */
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import {
  err,
  ok,
  type Problem,
  problemFactory,
  problemText,
  problemTold,
  type Result,
  saidAs,
} from '../base/problem.js';
import { sanitize } from '../base/text.js';
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
import { EXIT, exitOf, fail, type Io, readOptions, usageOf } from './io.js';
import { vouchedFor } from './vouched.js';

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

const DEEDS: Readonly<Record<string, (asked: Asked) => Promise<Result<readonly string[]>>>> = {
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
    const text = `${what}: ${percent} % of ${of}`;
    if (of > 100 && text !== at) io.err(text);
    at = text;
  };
}

async function init(asked: Asked): Promise<Result<readonly string[]>> {
  const { io, service } = asked;
  const found = await personOf(asked, ASSESSES);
  if (!found.ok) return found;
  const { workshop, person } = found.value;
  const settings = settingsOf(service ?? workshop.card?.service);
  if (!settings.ok) return settings;
  const made = await onServer(settings.value, (client) => makeShop(client, workshop.rules.name, PROGRAM));
  if (!made.ok) return made;
  const { shop, brought, missing } = made.value;
  const lines = [
    brought
      ? `"${sanitize(shop.name)}" is brought up to date.`
      : `"${sanitize(shop.name)}" is a shop now, on ${whereIs(settings.value)}.`,
    ...(missing.length === 0
      ? []
      : [
          'This user may not make roles. Let the keeper of the server run:',
          ...missing.map((text) => `  ${text}`),
        ]),
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
  return ok([...lines, ...tookPart(took.value), "The workshop's files are published as edition 1."]);
}

const PROGRAM = typeof PINCHROD_VERSION === 'string' ? PINCHROD_VERSION : 'from source';

const whereIs = ({ host, port, database }: Settings): string =>
  `${sanitize(host)}:${port}/${sanitize(database)}`;

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

const tookPart = ({ bench, name }: Card): string[] => [
  `This folder takes part in "${sanitize(name)}" as ${sanitize(bench)}.`,
];

async function join(asked: Asked): Promise<Result<readonly string[]>> {
  const { io, by, service } = asked;
  const card = readCard(realDisk, io.workshop);
  if (!card.ok) return card;
  const settings = settingsOf(service ?? card.value?.service);
  if (!settings.ok) return settings;
  const workshop = openWorkshop(io.workshop, realDisk);
  const bench = asked.bench ?? card.value?.bench ?? (workshop.ok ? workshop.value.bench : undefined);
  if (bench === undefined) return err(shopProblem('shop.bench-name'));
  const took = await takePart(asked, settings.value, bench, by!);
  return took.ok
    ? ok([...tookPart(took.value), 'All that the shop has is here. Open the bench with: pinchrod'])
    : took;
}

async function status({ io, json }: Asked): Promise<Result<readonly string[]>> {
  const here = joined(io);
  if (!here.ok) return here;
  const { card, settings } = here.value;
  const read = await onServer(settings, (client) => readStatus(client, realDisk, io.workshop, card));
  if (!read.ok) return err(...read.problems.map((problem) => withWaiting(problem, io.workshop)));
  return ok(json ? [JSON.stringify(read.value, null, 2)] : statusText(read.value, card, settings));
}

/** Where the server is not reached: what waits for it here, as far as the folder remembers how far it had come. */
function withWaiting(problem: Problem, root: string): Problem {
  if (exitOf([problem]) !== EXIT.resource) return problem;
  const waiting = linesKeptBack(realDisk, root);
  return saidAs(problem, commandWords('lines-wait', { said: problem.said, n: waiting }));
}

function statusText(status: ShopStatus, card: Card, settings: Settings): string[] {
  const { benches, waiting, files, edition, changed, leases, branches, aheadMs, waits } = status;
  const count = (n: number, noun: string) => `${n} ${noun}${n === 1 ? '' : 's'}`;
  return [
    `Shop       ${sanitize(card.name)}, on ${whereIs(settings)}`,
    `Bench      ${sanitize(card.bench)}; clock ${(Math.abs(aheadMs) / 1000).toFixed(1)} s ${aheadMs < 0 ? 'behind' : 'ahead of'} the server`,
    `Benches    ${benches.map(({ name, left }) => `${sanitize(name)}${left ? ' (left)' : ''}`).join(', ')}`,
    waiting === 0 && files === 0
      ? 'Handed over: everything.'
      : `To hand over: ${count(waiting, 'line')}, ${count(files, 'file')}.`,
    edition === undefined
      ? 'Files      nothing is published yet'
      : `Files      edition ${edition.n} of ${edition.at.slice(0, 10)} by ${sanitize(edition.by)} (${sanitize(edition.reason)})${edition.here === edition.n ? '' : `; here is edition ${edition.here}`}`,
    ...(changed.length === 0
      ? []
      : [`           changed here and not published: ${changed.map(sanitize).join(', ')}`]),
    ...(leases.length === 0 ? ['Leases     none'] : []),
    ...leases.map(
      ([bench, units], i) =>
        `${i === 0 ? 'Leases    ' : '          '} ${sanitize(bench)}: ${units.slice(0, 6).map(sanitize).join(', ')}${units.length > 6 ? ` and ${units.length - 6} more` : ''}`,
    ),
    ...(branches.length === 0 ? [] : [`Branches   ${branches.map(sanitize).join(', ')}`]),
    ...(waits === undefined ? [] : [waits]),
    ...status.problems.map(problemText),
  ];
}

async function publishFiles(asked: Asked): Promise<Result<readonly string[]>> {
  const { io, drop, reason } = asked;
  const here = joined(io);
  if (!here.ok) return here;
  const { card, settings } = here.value;
  const found = await personOf(asked, RELEASES);
  if (!found.ok) return found;
  return onServer(settings, async (client) => {
    if (drop) {
      const mine = changedHere(realDisk, io.workshop);
      const taken = await takeEdition(client, realDisk, io.workshop, { drop });
      const kept =
        mine.length === 0 ? '' : ` Yours are kept under shop/dropped: ${mine.map(sanitize).join(', ')}.`;
      return taken.ok ? ok([`The files are as they are published.${kept}`]) : taken;
    }
    const teller = new Teller(client, card.folder, (await newsNow(client)).get(card.folder) ?? 0);
    const how = { by: found.value.person.id, reason: reason! };
    const done = await publish(client, teller, realDisk, io.workshop, how);
    if (!done.ok) return done;
    await client.announce();
    return ok([done.value === undefined ? 'Nothing is new.' : `Published as edition ${done.value}.`]);
  });
}

async function take(asked: Asked): Promise<Result<readonly string[]>> {
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
    return took.ok ? ok([`${sanitize(unit.unit)} is ${sanitize(card.bench)}'s now.`]) : took;
  } finally {
    await agent.stop();
  }
}

async function goOn(asked: Asked): Promise<Result<readonly string[]>> {
  const here = joined(asked.io);
  if (!here.ok) return here;
  const found = await personOf(asked, ASSESSES);
  if (!found.ok) return found;
  const by = found.value.person.id;
  return onServer(here.value.settings, async (client) => {
    const ended = await resumeShop(client, by, asked.reason!);
    return ok([ended === 0 ? 'Nothing waits to be resumed.' : 'Leases are given again.']);
  });
}

async function copy({ io, service, unit: folder }: Asked): Promise<Result<readonly string[]>> {
  const card = readCard(realDisk, io.workshop);
  const settings = settingsOf(service ?? (card.ok ? card.value?.service : undefined));
  if (!settings.ok) return settings;
  const root = resolve(folder!);
  mkdirSync(root, { recursive: true });
  const copied = await onServer(settings.value, (client) => copyShop(client, realDisk, root));
  return copied.ok
    ? ok([
        `${copied.value.journals} journals and ${copied.value.files} files are in ${sanitize(folder!)}: a workshop by itself.`,
      ])
    : copied;
}

async function remove(asked: Asked): Promise<Result<readonly string[]>> {
  const here = joined(asked.io);
  if (!here.ok) return here;
  const found = await personOf(asked, ASSESSES);
  if (!found.ok) return found;
  const job = asked.unit!;
  return onServer(here.value.settings, async (client) => {
    const gone = await removeFromShop(client, job, found.value.person.id, asked.reason!);
    return gone.ok
      ? ok([
          `${gone.value} journals of ${sanitize(job)} are off the server. Each bench still has its own: pinchrod archive ${sanitize(job)} --out FILE --remove takes them away there.`,
        ])
      : gone;
  });
}

async function leave(asked: Asked): Promise<Result<readonly string[]>> {
  const { io, by } = asked;
  const here = joined(io);
  if (!here.ok) return here;
  const { card, settings } = here.value;
  const found = await personOf(asked, RELEASES);
  if (!found.ok) return found;
  const left = await leaveShop(place(io, settings), card, by!);
  return left.ok
    ? ok([
        `Everything is handed over. This folder is a workshop by itself; its bench is that of shared/workshop.yaml.`,
      ])
    : left;
}
