/** `person`: PINs of people, and erasing the name of one who has left. */
import { type Problem, problemFactory } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { localDay } from '../base/wallclock.js';
import { realDisk } from '../store/disk.js';
import { eraseNames } from '../store/names.js';
import { hashPin, PINS_FILE, pinMatches, writePins } from '../store/pins.js';
import { movePins } from '../store/pinsmoved.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { ASSESSES, findPerson, isValid, levelOf } from '../unit/people.js';
import type { Person } from '../unit/types.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions, saying, usageOf } from './io.js';
import { type Secrets, secretsOf } from './secret.js';
import { KEY_SAYS } from './words/keys.js';

const raise = problemFactory(COMMAND_MESSAGES);

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.person, { by: { type: 'string' } }, { least: 1, most: 2 });
  if (typeof read === 'number') return read;
  const [word, code] = read.positionals;
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return fail(io, workshop.problems);
  if (word === 'move-pins' && code === undefined) return moved(io);
  if ((word !== 'pin' && word !== 'erase') || code === undefined) {
    return fail(io, [raise('command.usage/person', { usage: usageOf(HELP.person) })], EXIT.badInput);
  }
  const secrets = secretsOf(io);
  try {
    const { by } = read.values;
    return await (word === 'pin'
      ? setPin(io, workshop.value, secrets, code, by)
      : erase(io, workshop.value, secrets, code, by));
  } finally {
    secrets.close();
  }
}

/** Who has a PIN gives it first, or somebody who may assess gives theirs. */
async function setPin(
  io: Io,
  workshop: Workshop,
  secrets: Secrets,
  code: string,
  by: string | undefined,
): Promise<number> {
  const { rules } = workshop;
  const person = findPerson(rules, code);
  if (!person) return fail(io, [nobody(code)]);
  const say = saying(io, KEY_SAYS);
  const wrong =
    by === undefined ? await pinProblem(person, secrets, io) : await rightProblem(workshop, secrets, by, io);
  if (wrong) return fail(io, [wrong], EXIT.doesNotHold);
  const pin = await secrets.ask(say('pin-new', { name: sanitize(person.name) }));
  const again = await secrets.ask(say('pin-again'));
  if (pin === undefined || !/^\S{4,40}$/.test(pin) || pin !== again)
    return fail(io, [raise('person.pin-form')]);
  const kept = writePins(realDisk, io.workshop, { [person.id]: hashPin(pin) });
  if (!kept.ok) return fail(io, kept.problems);
  io.out(say('pin-set', { name: sanitize(person.name), file: PINS_FILE }));
  return EXIT.done;
}

async function erase(
  io: Io,
  workshop: Workshop,
  secrets: Secrets,
  code: string,
  by: string | undefined,
): Promise<number> {
  const { rules } = workshop;
  if (by === undefined) {
    return fail(io, [raise('command.usage/erase', { usage: usageOf(HELP.person) })], EXIT.badInput);
  }
  if (rules.people.some(({ id }) => id.toLowerCase() === code.toLowerCase()))
    return fail(io, [raise('person.listed', { code })], EXIT.doesNotHold);
  const wrong = await rightProblem(workshop, secrets, by, io);
  if (wrong) return fail(io, [wrong], EXIT.doesNotHold);
  const who = findPerson(rules, by)!;
  const at = new Date().toISOString();
  const erased = eraseNames(realDisk, io.workshop, code, { at, by: who.id });
  if (!erased.ok) return fail(io, erased.problems);
  if (erased.value === 0) return fail(io, [nobody(code)]);
  const pins = writePins(realDisk, io.workshop, { [code]: undefined });
  if (!pins.ok) return fail(io, pins.problems);
  const say = saying(io, KEY_SAYS);
  io.out(say('name-erased', { id: sanitize(code) }));
  io.out(say('name-elsewhere'));
  return EXIT.done;
}

function moved(io: Io): number {
  const made = movePins(realDisk, io.workshop);
  if (!made.ok) return fail(io, made.problems);
  const say = saying(io, KEY_SAYS);
  io.out(made.value === 0 ? say('pins-none') : say('pins-moved', { n: made.value, file: PINS_FILE }));
  return EXIT.done;
}

const nobody = (code: string): Problem => raise('person.unknown', { code });

async function pinProblem(person: Person, secrets: Secrets, io: Io): Promise<Problem | undefined> {
  if (person.pin === undefined) return undefined;
  const typed = await secrets.ask(saying(io, KEY_SAYS)('pin-now', { name: sanitize(person.name) }));
  return typed !== undefined && pinMatches(person, typed)
    ? undefined
    : raise('person.pin-wrong', { person: person.name });
}

async function rightProblem(
  { rules, zone }: Workshop,
  secrets: Secrets,
  code: string,
  io: Io,
): Promise<Problem | undefined> {
  const person = findPerson(rules, code);
  if (!person) return nobody(code);
  const able =
    levelOf(person, 'all') >= ASSESSES && isValid(person, localDay(new Date().toISOString(), zone));
  return able
    ? pinProblem(person, secrets, io)
    : raise('person.right', { person: person.name, assesses: ASSESSES });
}
