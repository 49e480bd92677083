/** What `init` asks at a terminal, one question after the other, as a dialogue on the bench's keys. */
import { LANGUAGES } from '../base/languages.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { name as nameSchema } from '../base/schemas.js';
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { INSTRUMENT_WORDS, type InstrumentWord, type OwnWorkshop } from '../store/ownworkshop.js';
import type { Dialogue } from '../tui/practice.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { type Io, indented, saying } from './io.js';
import { FIRST_PAGE, FIRST_SAYS, NEXT_COMMANDS } from './words/first.js';

const raise = problemFactory(COMMAND_MESSAGES);

type Answers = { -readonly [K in keyof OwnWorkshop]?: OwnWorkshop[K] };

export type FirstQuestions = Dialogue & {
  readonly opening: readonly string[];
  /** Undefined until every question was answered. */
  readonly answers: () => OwnWorkshop | undefined;
};

const QUESTIONS = ['name', 'place', 'people', 'instruments', 'language', 'confirm'] as const;

/** @param given what flags have answered already; the rest is asked */
export function firstQuestions(given: Answers, io: Pick<Io, 'reader'>): FirstQuestions {
  const say = saying(io, FIRST_SAYS);
  const found: Answers = { ...given };
  const people: { id: string; name: string }[] = [];
  const asked = QUESTIONS.filter((each) => each === 'confirm' || given[each] === undefined);
  let at = 0;
  const question = (): readonly string[] => {
    switch (asked[at]) {
      case 'name':
        return [say('first-name')];
      case 'place':
        return [say('first-place')];
      case 'people':
        return [
          people.length === 0
            ? say('first-people')
            : say('first-people-more', {
                n: people.length,
                last: `${people.at(-1)!.id}: ${people.at(-1)!.name}`,
              }),
        ];
      case 'instruments':
        return [
          say('first-instruments'),
          ...INSTRUMENT_WORDS.map((word, i) => say('first-row', { n: i + 1, what: say(`first-${word}`) })),
        ];
      case 'language':
        return [say('first-language', { languages: ['en', ...LANGUAGES] })];
      case 'confirm':
        return [say('first-confirm')];
      default:
        return [say('first-done')];
    }
  };
  const next = (): { readonly says: readonly string[] } => {
    at++;
    return { says: question() };
  };
  return {
    opening: [say('first-hello'), ...question()],
    asks: true,
    get title() {
      return say('first-title');
    },
    get over() {
      return at >= asked.length;
    },
    help: [say('first-help')],
    get prompt() {
      return at >= asked.length ? '' : say('first-of', { n: at + 1, of: asked.length });
    },
    answers: () => (at >= asked.length ? whole({ ...found }) : undefined),
    type(typed) {
      const line = typed.trim();
      if (line === BACK && asked[at] === 'people' && people.length > 0) {
        people.pop();
        return { says: question() };
      }
      if (line === BACK) {
        at = Math.max(0, at - 1);
        return { says: question() };
      }
      switch (asked[at]) {
        case 'name':
          if (line === NOTHING) return { problem: raise('init.name') };
          found.name = line;
          return next();
        case 'place':
          found.place = line === NOTHING ? '' : line;
          return next();
        case 'people': {
          if (line !== END && !(line === NOTHING && people.length > 0)) {
            const read = personIn(line);
            if ('id' in read && people.some(({ id }) => id.toLowerCase() === read.id.toLowerCase()))
              return { problem: raise('init.person/twice', { id: read.id }) };
            if (!('name' in read)) return { problem: read };
            people.push(read);
            return { says: question() };
          }
          if (people.length === 0) return { problem: raise('init.person/none') };
          found.people = [...people];
          return next();
        }
        case 'instruments': {
          const read = drawerIn(line);
          if (!Array.isArray(read)) return { problem: read as Problem };
          found.instruments = read;
          return next();
        }
        case 'confirm':
          return /^(ok|yes)$/i.test(line) ? next() : { says: question() };
        default: {
          const read = languageIn(line);
          if (typeof read !== 'string') return { problem: read };
          if (read !== 'en') found.language = read;
          return next();
        }
      }
    },
  };
}

const BACK = '<';
const END = '.';
const NOTHING = '-';

const whole = ({ name = '', place = '', people = [], instruments = [], language }: Answers): OwnWorkshop => ({
  name,
  place,
  people,
  instruments,
  language,
});

/** "jb Joan Bexley": a code and a name. */
export function personIn(text: string): { readonly id: string; readonly name: string } | Problem {
  const [id = '', ...rest] = text.trim().split(/\s+/);
  return nameSchema.max(20).safeParse(id).success && rest.length > 0
    ? { id, name: rest.join(' ') }
    : raise('init.person', { text });
}

/** "1 3 5", "tape calliper", "all", or "-" for none. */
export function drawerIn(text: string): readonly InstrumentWord[] | Problem {
  const words = text
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word !== '');
  if (words.length === 1 && words[0] === NOTHING) return [];
  if (words.length === 1 && words[0] === 'all') return INSTRUMENT_WORDS;
  const found = words.map(
    (word) => INSTRUMENT_WORDS[Number(word) - 1] ?? INSTRUMENT_WORDS.find((each) => each === word),
  );
  const strange = words.find((_, i) => found[i] === undefined);
  return strange === undefined
    ? (found as InstrumentWord[])
    : raise('init.instrument', { word: strange, known: [...INSTRUMENT_WORDS] });
}

export function languageIn(text: string): string | Problem {
  const language = text.trim().toLowerCase();
  const spoken = ['en', ...LANGUAGES];
  return spoken.includes(language) ? language : raise('init.language', { language: text, spoken });
}

/** What is there now, for whoever asked for it. */
export const madeSaid = (io: Pick<Io, 'reader'>, folder: string, n: number, own: OwnWorkshop): Spoken[] => {
  const say = saying(io, FIRST_SAYS);
  const [first, second] = own.people;
  const commands = [
    [NEXT_COMMANDS.set, say('first-set')],
    [NEXT_COMMANDS.bench, say('first-bench')],
    [`${NEXT_COMMANDS.pin} ${first?.id ?? ''}`, say('first-pin', { name: sanitize(first?.name ?? '') })],
  ] as const;
  return [
    say('first-made', { name: sanitize(own.name), folder, n }),
    say('first-next', { folder }),
    ...commands.map(([command, what]) => indented(data(sanitize(command).padEnd(30) + what))),
    ...(first && second
      ? [say('first-levels', { first: sanitize(first.name), second: sanitize(second.name) })]
      : []),
    say('first-page', { file: FIRST_PAGE }),
  ];
};
