/** A named person who does something for the workshop: known, of the level that it takes, and by their PIN. */
import { err, ok, problemFactory, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { localDay } from '../base/wallclock.js';
import type { Message } from '../base/words.js';
import { pinMatches } from '../store/pins.js';
import type { Workshop } from '../store/workshop.js';
import { findPerson, isValid, LEVEL_WORDS, levelOf } from '../unit/people.js';
import type { Level, Person } from '../unit/types.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { type Io, saying, tellOf } from './io.js';
import { secretsOf } from './secret.js';
import { KEY_SAYS } from './words/keys.js';

const raise = problemFactory(COMMAND_MESSAGES);

/** Asks for the PIN, where the person has one. @param before printed first, before anything is asked */
export async function vouchedFor(
  io: Io,
  workshop: Workshop,
  by: string,
  level: Level,
  before: readonly Message[] = [],
): Promise<Result<Person>> {
  const person = findPerson(workshop.rules, by);
  if (!person) return err(raise('person.unknown/nobody', { by }));
  if (levelOf(person, 'all') < level || !isValid(person, localDay(new Date().toISOString(), workshop.zone)))
    return err(raise('person.right/may', { person: person.name, level, levelWords: LEVEL_WORDS[level] }));
  for (const each of before) io.out(sanitize(tellOf(io)(each)));
  if (person.pin === undefined) return ok(person);
  const secrets = secretsOf(io);
  try {
    const typed = await secrets.ask(saying(io, KEY_SAYS)('pin-of', { name: sanitize(person.name) }));
    return typed !== undefined && pinMatches(person, typed)
      ? ok(person)
      : err(raise('person.pin-wrong', { person: person.name }));
  } finally {
    secrets.close();
  }
}
