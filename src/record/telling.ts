/** How documents tell: in whose words, by whose clock, with which figures; so that every format shows the same. */
import { sanitize } from '../base/text.js';
import { isDoubled, offsetAt, offsetText, wallTime, type Zone } from '../base/wallclock.js';
import {
  type Catalogue,
  data,
  ENGLISH,
  type Message,
  type Say,
  type Spoken,
  sayIn,
  type Tell,
  teller,
} from '../base/words.js';
import { LENGTH_NAMES } from '../measure/misread.js';
import type { SquareKey } from '../measure/types.js';
import { MEASURE_WORDS } from '../measure/words.js';
import type { RouteCheck } from '../procedure/types.js';
import { canonicalText, sha256 } from '../unit/chain.js';
import type { Answer, Cited } from '../unit/events.js';
import { UNIT_WORDS } from '../unit/words.js';
import type { ReadingView, RecordView } from './schema.js';
import { DOCUMENT_WORDS } from './words/en.js';
import { FORMER_WORDS, NO_HASH } from './words/former.js';

export type DocumentSay = Say<typeof DOCUMENT_WORDS> & {
  /** What a journal keeps in English: sentences of a verdict, what a step waits for. */
  readonly retell: (text: string) => Spoken;
  /** BCP 47. */
  readonly language: string;
};

export const documentSay = (
  language: string,
  tell: Tell,
  retell: (text: string) => Spoken = sanitize,
): DocumentSay =>
  Object.assign(sayIn(DOCUMENT_WORDS, tell), {
    retell: (text: string) => sanitize(retell(text)),
    language,
  });

export interface Telling {
  readonly say: DocumentSay;
  /** A time. Other text is shown unchanged. */
  readonly when: When;
}

/** Everything that documents are told in: their own words, and other rooms' for lengths, pictures and levels. */
const TEXTS: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries({ ...DOCUMENT_WORDS, ...MEASURE_WORDS, ...UNIT_WORDS } satisfies Catalogue)
    .filter(([id]) => /^(?:doc|length|picture|level)-/.test(id))
    .map(([id, { text }]) => [id, text]),
);

/** In which documents are told where no other language is asked for. */
export const DOCUMENT_LANGUAGE = 'en';

/** A language that documents can be told in. */
export interface Tongue {
  /** By id, in that language; what it lacks is told in English. */
  readonly texts: (id: string) => string | undefined;
  readonly tell: Tell;
  readonly retell: (text: string) => Spoken;
}

interface Spoke extends Tongue {
  readonly hash: string;
}

/** Those that were asked for: a language is loaded before documents are told in it. */
const tongues = new Map<string, Spoke>([
  [
    DOCUMENT_LANGUAGE,
    {
      texts: () => undefined,
      tell: ENGLISH,
      retell: sanitize,
      hash: hashOf(() => undefined),
    },
  ],
]);

function hashOf(texts: Tongue['texts']): string {
  return sha256(
    canonicalText(Object.fromEntries(Object.entries(TEXTS).map(([id, text]) => [id, texts(id) ?? text]))),
  );
}

/** From now on documents can be told in it. */
export function learn(language: string, tongue: Tongue): void {
  tongues.set(language, { ...tongue, hash: hashOf(tongue.texts) });
}

export const isLearnt = (language: string): boolean => tongues.has(language);

/** By which words a document is told, so that it can be told again when some of them have changed. */
export const wordsHash = (language: string = DOCUMENT_LANGUAGE): string => tongues.get(language)!.hash;

/** By which words a document may have been told; the first are those of now. */
export const knownWords = (language: string = DOCUMENT_LANGUAGE): readonly string[] =>
  language === DOCUMENT_LANGUAGE ? [wordsHash(), ...FORMER_WORDS.keys()] : [wordsHash(language)];

const says = new Map<string, DocumentSay>();

function sayBy(language: string, words: string): DocumentSay {
  const key = `${language} ${words}`;
  const found = says.get(key);
  if (found) return found;
  const { tell, retell } = tongues.get(language) ?? tongues.get(DOCUMENT_LANGUAGE)!;
  const former = language === DOCUMENT_LANGUAGE ? FORMER_WORDS.get(words) : undefined;
  const made = documentSay(language, former ? teller(language, (id) => former[id]) : tell, retell);
  says.set(key, made);
  return made;
}

/**
 * By the clock of its zone; in UTC where a document has none. A document states once which it is, and in which language and by
 * which words it is told.
 */
export const tellingOf = ({
  zone,
  language = DOCUMENT_LANGUAGE,
  words = NO_HASH,
}: {
  readonly zone?: Zone | undefined;
  readonly language?: string | undefined;
  readonly words?: string | undefined;
}): Telling => ({
  say: sayBy(language, words),
  when: whenIn(zone),
});

/** Words for what is counted or classed: an id that the catalogue does not know is shown as it is. */
const wordFor =
  (prefix: string) =>
  (say: DocumentSay, id: string): Spoken =>
    `${prefix}-${id}` in DOCUMENT_WORDS ? say(`${prefix}-${id}` as 'doc-outcome-pass') : sanitize(id);

export const outcomeWords = wordFor('doc-outcome');
export const sourceWords = wordFor('doc-source');
export const fileWords = wordFor('doc-file');
export const severityWords = wordFor('doc-severity');
export const dispositionWords = wordFor('doc-disposition');
const rhythmWords: (say: DocumentSay, id: Cited['rhythm']) => Spoken = wordFor('doc-rhythm');

/** Up to three decimals, without trailing zeros. */
export const figureText3 = (value: number): Spoken => data(String(Math.round(value * 1000) / 1000));
export const withUnit = (value: number, unit: string | undefined): Spoken =>
  unit ? data(`${figureText3(value)} ${sanitize(unit)}`) : figureText3(value);
/** To a tenth: no workshop scale is more precise. */
export const kilograms = (mass: number): Spoken => data(`${figureText3(Math.round(mass * 10) / 10)} kg`);
export const size = (w: number, h: number): Spoken => data(`${figureText3(w)} x ${figureText3(h)} mm`);

export const sizeOf = ({ width, height }: RecordView['unit']): Spoken =>
  width === undefined ? data('') : size(width, height ?? 0);

export const massOf = ({ mass }: RecordView['unit']): Spoken =>
  mass === undefined ? data('') : kilograms(mass);

/** Several clauses or facts in one line, between signs that no language changes. */
export const joined = (parts: readonly Spoken[], between: ', ' | '; ' | ': ' | '. ' | ' '): Spoken =>
  data(parts.filter((part) => part !== '').join(between));

/** Tells a time in UTC, ISO 8601: `2026-03-04 09:12:30`. Other text is shown unchanged. */
export type When = (at: string) => Spoken;

export const whenIn =
  (zone: Zone | undefined): When =>
  (at) => {
    const wall = zone && at.endsWith('Z') && !Number.isNaN(Date.parse(at)) ? wallTime(at, zone) : at;
    const match = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d(?::\d\d)?)/.exec(wall);
    if (!match) return sanitize(at);
    const doubled = zone && isDoubled(at, zone) ? ` ${offsetText(offsetAt(at, zone))}` : '';
    return data(`${match[1]} ${match[2]}${doubled}`);
  };

/** To the minute, for tables that are read at a glance: the line of the journal has the second. */
export const toMinute = (told: Spoken): Spoken => data(told.replace(/( \d\d:\d\d):\d\d/, '$1'));

/** `2026-03-04 10:12:30, Europe/Berlin, UTC+01:00` */
export const printedAt = ({ at, zone }: RecordView['made']): Spoken =>
  data(
    zone ? `${whenIn(zone)(at)}, ${zone.name}, ${offsetText(offsetAt(at, zone))}` : `${whenIn(zone)(at)} UTC`,
  );

/** In whose words, where a document names them. */
export const wordsSay = (say: DocumentSay, { words }: RecordView['made']): Spoken =>
  words === undefined
    ? data('')
    : say('doc-words', { language: say('doc-language'), hash: words.slice(0, 8) });

/** A step's title, plus its light or divider unless the title already names it. */
export const stepHeading = ({ title, item }: { readonly title: string; readonly item?: string }): Spoken =>
  sanitize(item === undefined || new RegExp(`\\b${item}\\b`).test(title) ? title : `${title} (${item})`);

/** "a, b and c". */
export function listed(say: DocumentSay, items: readonly Spoken[]): Spoken {
  if (items.length < 2) return items[0] ?? data('');
  return say('doc-and', { most: items.slice(0, -1), last: items.at(-1)! });
}

/** With a full stop, where it has no end. */
export const sentence = (text: string): Spoken => {
  const trimmed = text.trim();
  return data(trimmed === '' || /[.!?]$/.test(trimmed) ? trimmed : `${trimmed}.`);
};

/** Words of another room, made safe to show: they may quote what a file says. */
export const toldSafely = (say: DocumentSay, message: Message): Spoken => sanitize(say.tell(message));

export const sealSays = (
  say: DocumentSay,
  { closed, code }: { readonly closed: boolean; readonly code: Spoken },
): Spoken => say(closed ? 'doc-foot-seal' : 'doc-foot-state', { code: code || say('doc-none') });

export const finishedSays = (say: DocumentSay, { finished }: { readonly finished: boolean }): Spoken =>
  say(finished ? 'doc-foot-finished' : 'doc-foot-open');

/** An answer's individual readings, as typed and as interpreted. */
export function readingsOf(say: DocumentSay, answer: Answer, check: RouteCheck | undefined): ReadingView[] {
  const unit = check?.unit ?? (answer.kind === 'square' ? 'mm' : undefined);
  const one = (
    what: Spoken,
    reading: { raw: string; value: number; instrument?: string | undefined; confirmed?: boolean | undefined },
  ): ReadingView => ({
    what,
    raw: sanitize(reading.raw),
    value: reading.value,
    ...(unit === undefined ? {} : { unit }),
    ...(reading.instrument === undefined ? {} : { instrument: sanitize(reading.instrument) }),
    confirmed: reading.confirmed === true,
  });
  if (answer.kind === 'number') return answer.readings.map((reading) => one(data(''), reading));
  if (answer.kind === 'square') {
    const keys = [...Object.keys(LENGTH_NAMES), ...Object.keys(answer.readings)];
    const name = (key: string) => LENGTH_NAMES[key as SquareKey] as Message | undefined;
    return [...new Set(keys)].flatMap((key) =>
      (answer.readings[key] ?? []).map((reading) => {
        const length = name(key);
        return one(length ? say.tell(length) : sanitize(key), reading);
      }),
    );
  }
  if (answer.kind === 'points')
    return Object.entries(answer.readings).flatMap(([id, readings]) => {
      const point = check?.points?.find((each) => each.id === id);
      return readings.map((reading) => one(sanitize(point?.text ?? id), reading));
    });
  return [];
}

/** In one sentence: "1220.5 mm", "top 1000 mm; …", "yes", "3". Adds what was typed if different. */
export function answerSays(say: DocumentSay, answer: Answer, check: RouteCheck | undefined): Spoken {
  switch (answer.kind) {
    case 'tick':
      return say('doc-says-done');
    case 'go-no-go':
      return say(answer.go ? 'doc-says-yes' : 'doc-says-no');
    case 'count':
      return data(String(answer.count));
    case 'choice':
      return sanitize(check?.choices?.find(({ id }) => id === answer.choice)?.text ?? answer.choice);
    case 'text':
      return sanitize(answer.text);
    default:
      return joined(
        readingsOf(say, answer, check).map((reading) => readingSays(say, reading)),
        '; ',
      );
  }
}

function readingSays(say: DocumentSay, { what, value, unit, raw, confirmed }: ReadingView): Spoken {
  const figure = withUnit(value!, unit);
  const read = what === '' ? figure : say('doc-says-of', { what, value: figure });
  const typed =
    Number(raw.trim().replace(',', '.')) === value ? read : say('doc-says-typed', { says: read, raw });
  return confirmed ? say('doc-says-confirmed', { says: typed }) : typed;
}

/** `of P01-1, line 12 (once a shift)`. */
export const citedText = (say: DocumentSay, { unit, n, rhythm }: Cited): Spoken =>
  say('doc-cited', { unit: sanitize(unit), n, rhythm: rhythmWords(say, rhythm) });
