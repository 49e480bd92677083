/** `person`: PINs of people, and erasing the name of one who has left. */
import { type Problem, problemFactory } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { realDisk } from '../store/disk.js';
import { eraseNames } from '../store/names.js';
import { hashPin, PINS_FILE, pinMatches, writePins } from '../store/pins.js';
import { movePins } from '../store/pinsmoved.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { ASSESSES, findPerson, isValid, levelOf } from '../unit/people.js';
import type { Person } from '../unit/types.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions, usageOf } from './io.js';
import { type Secrets, secretsOf } from './secret.js';

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
  { rules }: Workshop,
  secrets: Secrets,
  code: string,
  by: string | undefined,
): Promise<number> {
  const person = findPerson(rules, code);
  if (!person) return fail(io, [nobody(code)]);
  const wrong = by === undefined ? await pinProblem(person, secrets) : await rightProblem(rules, secrets, by);
  if (wrong) return fail(io, [wrong], EXIT.doesNotHold);
  const pin = await secrets.ask(`New PIN of ${sanitize(person.name)}, four digits or more:`);
  const again = await secrets.ask('The same again:');
  if (pin === undefined || !/^\S{4,40}$/.test(pin) || pin !== again)
    return fail(io, [raise('person.pin-form')]);
  const kept = writePins(realDisk, io.workshop, { [person.id]: hashPin(pin) });
  if (!kept.ok) return fail(io, kept.problems);
  io.out(`The PIN of ${sanitize(person.name)} is set, in ${PINS_FILE}.`);
  return EXIT.done;
}

async function erase(
  io: Io,
  { rules }: Workshop,
  secrets: Secrets,
  code: string,
  by: string | undefined,
): Promise<number> {
  if (by === undefined) {
    return fail(io, [raise('command.usage/erase', { usage: usageOf(HELP.person) })], EXIT.badInput);
  }
  if (rules.people.some(({ id }) => id.toLowerCase() === code.toLowerCase()))
    return fail(io, [raise('person.listed', { code })], EXIT.doesNotHold);
  const wrong = await rightProblem(rules, secrets, by);
  if (wrong) return fail(io, [wrong], EXIT.doesNotHold);
  const who = findPerson(rules, by)!;
  const at = new Date().toISOString();
  const erased = eraseNames(realDisk, io.workshop, code, { at, by: who.id });
  if (!erased.ok) return fail(io, erased.problems);
  if (erased.value === 0) return fail(io, [nobody(code)]);
  const pins = writePins(realDisk, io.workshop, { [code]: undefined });
  if (!pins.ok) return fail(io, pins.problems);
  io.out(
    `The name of ${sanitize(code)} is erased: records show "${sanitize(code)} (name erased)" from now on.`,
  );
  io.out(
    'No journal was changed. Archives, printed records and what people typed into notes may still hold the name.',
  );
  return EXIT.done;
}

function moved(io: Io): number {
  const made = movePins(realDisk, io.workshop);
  if (!made.ok) return fail(io, made.problems);
  io.out(
    made.value === 0
      ? 'No PIN stands in shared/people.yaml.'
      : `${made.value} PINs stand in ${PINS_FILE} now, and no more in shared/people.yaml. Copies of that file still hold them: let their owners choose new ones.`,
  );
  return EXIT.done;
}

const nobody = (code: string): Problem => raise('person.unknown', { code });

async function pinProblem(person: Person, secrets: Secrets): Promise<Problem | undefined> {
  if (person.pin === undefined) return undefined;
  const typed = await secrets.ask(`PIN of ${sanitize(person.name)} now:`);
  return typed !== undefined && pinMatches(person, typed)
    ? undefined
    : raise('person.pin-wrong', { person: person.name });
}

async function rightProblem(
  rules: Workshop['rules'],
  secrets: Secrets,
  code: string,
): Promise<Problem | undefined> {
  const person = findPerson(rules, code);
  if (!person) return nobody(code);
  const able = levelOf(person, 'all') >= ASSESSES && isValid(person, new Date().toISOString());
  return able
    ? pinProblem(person, secrets)
    : raise('person.right', { person: person.name, assesses: ASSESSES });
}
