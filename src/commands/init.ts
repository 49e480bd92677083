/** `init DIR`: creates a workshop folder: a shop's own, or the demonstration's. */
import { relative, resolve } from 'node:path';
import { isSpoken } from '../base/languages.js';
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data } from '../base/words.js';
import { realDisk } from '../store/disk.js';
import { makeWorkshop, shippedFolder, takenFolder } from '../store/makeworkshop.js';
import { type InstrumentWord, type OwnWorkshop, ownFiles } from '../store/ownworkshop.js';
import { askAll, canAsk } from './asking.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { drawerIn, firstQuestions, languageIn, madeSaid, personIn } from './firstquestions.js';
import { asJson, EXIT, fail, type Io, parseOptions, saying } from './io.js';
import { FIRST_SAYS } from './words/first.js';
import { MAKING_SAYS } from './words/making.js';

const raise = problemFactory(COMMAND_MESSAGES);

const OPTIONS = {
  json: { type: 'boolean' },
  demonstration: { type: 'boolean' },
  name: { type: 'string' },
  place: { type: 'string' },
  person: { type: 'string', multiple: true },
  instrument: { type: 'string', multiple: true },
  language: { type: 'string' },
} as const;

export async function run(args: string[], io: Io): Promise<number> {
  const read = parseOptions(args, OPTIONS);
  if (typeof read === 'string') return fail(io, [raise('init.usage/option', { fault: read })], EXIT.badInput);
  const { values, positionals } = read;
  const [folder, ...more] = positionals;
  if (folder === undefined || folder === '' || more.length > 0)
    return fail(io, [raise('init.usage')], EXIT.badInput);
  const to = resolve(folder);
  const shown = sanitize(relative(process.cwd(), to) || '.');
  const shipped = shippedFolder();
  if (!shipped.ok) return fail(io, shipped.problems);
  if (values.demonstration) {
    const made = makeWorkshop(realDisk, shipped.value, to);
    if (!made.ok) return failed(io, made.problems);
    const say = saying(io, MAKING_SAYS);
    if (values.json) io.out(asJson({ workshop: to, files: made.value }));
    else
      io.out(
        data(
          [
            say('init-made', { folder: shown, n: made.value.length }),
            say('init-try', { folder: shown }),
          ].join('\n'),
        ),
      );
    return EXIT.done;
  }
  const given = fromFlags(values);
  if (!given.ok) return fail(io, given.problems, EXIT.badInput);
  // Before anything is asked.
  const taken = takenFolder(realDisk, to);
  if (taken) return fail(io, [taken], EXIT.badInput);
  const own = await asked(given.value, io);
  if (own === 'left') {
    io.out(saying(io, FIRST_SAYS)('first-nothing'));
    return EXIT.doesNotHold;
  }
  if ('todo' in own) return fail(io, [own], EXIT.badInput);
  const files = ownFiles(own, (file) => realDisk.read(resolve(shipped.value, file)).toString());
  if (!files.ok) return fail(io, files.problems, EXIT.badInput);
  const made = makeWorkshop(realDisk, shipped.value, to, files.value);
  if (!made.ok) return failed(io, made.problems);
  if (values.json) io.out(asJson({ workshop: to, files: made.value }));
  else for (const line of madeSaid(io, shown, made.value.length, own)) io.out(line);
  return EXIT.done;
}

const failed = (io: Io, problems: readonly Problem[]): number =>
  fail(io, problems, problems.some(({ id }) => id.startsWith('disk.')) ? EXIT.resource : EXIT.badInput);

interface Flags {
  readonly name?: string | undefined;
  readonly place?: string | undefined;
  readonly person?: readonly string[] | undefined;
  readonly instrument?: readonly string[] | undefined;
  readonly language?: string | undefined;
}

function fromFlags({ name, place, person, instrument, language }: Flags): Result<Partial<OwnWorkshop>> {
  const problems: Problem[] = [];
  const people = person?.flatMap((text) => {
    const read = personIn(text);
    if ('name' in read) return [read];
    problems.push(read);
    return [];
  });
  const twice = people?.find(({ id }, i) =>
    people.slice(0, i).some((other) => other.id.toLowerCase() === id.toLowerCase()),
  );
  if (twice) problems.push(raise('init.person/twice', { id: twice.id }));
  const instruments = instrument?.flatMap((text): readonly InstrumentWord[] => {
    const read = drawerIn(text);
    if (Array.isArray(read)) return read;
    problems.push(read as Problem);
    return [];
  });
  const spoken = language === undefined ? undefined : languageIn(language);
  if (spoken !== undefined && typeof spoken !== 'string') problems.push(spoken);
  if (problems.length > 0) return err(...problems);
  return ok({
    ...(name === undefined ? {} : { name }),
    ...(place === undefined ? {} : { place }),
    ...(people === undefined ? {} : { people }),
    ...(instruments === undefined ? {} : { instruments }),
    ...(isSpoken(language) ? { language } : {}),
  });
}

/** What flags leave open is asked at a terminal; elsewhere name and people must be given. */
async function asked(given: Partial<OwnWorkshop>, io: Io): Promise<OwnWorkshop | 'left' | Problem> {
  if (given.name !== undefined && given.people !== undefined)
    return { place: '', instruments: [], ...given, name: given.name, people: given.people };
  if (!canAsk(io)) return raise('init.unasked');
  const talk = firstQuestions(given, io);
  await askAll(talk, io);
  return talk.answers() ?? 'left';
}
