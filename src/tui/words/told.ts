/** The bench's words, and those of the rooms below, in the language of whoever reads the screen. */
import { commaWithin, hasComma, withComma } from '../../base/figures.js';
import type { Language } from '../../base/languages.js';
import type { Problem } from '../../base/problem.js';
import { reteller } from '../../base/retell.js';
import { sanitize } from '../../base/text.js';
import {
  type Catalogue,
  data,
  messagesOf,
  type Say,
  type Spoken,
  sayIn,
  type Tell,
  type Translations,
  teller,
} from '../../base/words.js';
import type { Route } from '../../procedure/types.js';
import { GERMAN, KEPT_WORDS } from '../../session/german.js';
import { canonicalText, sha256 } from '../../unit/chain.js';
import type { WordsRead } from '../../unit/wordsread.js';
import { DE } from './de.js';
import { REASON_WORDS } from './en/reasons.js';
import { BENCH_WORDS } from './en.js';

export interface BenchSay extends Say<typeof BENCH_WORDS> {
  /** What a journal or the board keeps in English. */
  readonly retell: (text: string) => Spoken;
  /** A figure alone, with the decimals of the language. */
  readonly figure: (text: string) => Spoken;
}

/** Whose words: the reader's language, and the unit that is open, whose procedure may be translated. */
interface Reader {
  readonly language?: string | undefined;
  readonly open?: { readonly state: { readonly route: Route }; readonly own?: Route } | undefined;
  readonly more?: { readonly titles?: Titles } | undefined;
}

/** What titles of other units' steps are called in a language. */
type Titles = (language: string) => (title: string) => string | undefined;

const SPOKEN: Readonly<Record<Language, Translations>> = { de: { ...GERMAN, ...DE } };
/** What the bench speaks besides English. */
export const BENCH_TEXTS = new Map<string, Translations>(Object.entries(SPOKEN));
const SAYS = new Map<string, BenchSay>();
/** By the route of the open unit, or by the workshop. */
const made = new WeakMap<object, Map<string, BenchSay>>();

/** English where the bench does not speak the language, or none is named. */
export function told({ language = 'en', open, more }: Reader): BenchSay {
  const titles = more?.titles;
  const by = open?.state.route ?? titles;
  const says = by === undefined ? SAYS : madeFor(by);
  const found = says.get(language);
  if (found) return found;
  const say = sayFor(language, open, titles);
  says.set(language, say);
  return say;
}

function madeFor(by: object): Map<string, BenchSay> {
  const says = made.get(by) ?? new Map<string, BenchSay>();
  made.set(by, says);
  return says;
}

function sayFor(language: string, open: Reader['open'], titles: Titles | undefined): BenchSay {
  const texts = BENCH_TEXTS.get(language);
  const route = open?.state.route;
  const names = route && open?.own ? namesIn(open.own, route) : undefined;
  const own = (text: string) => names?.get(text) ?? titles?.(language)(text);
  const comma = hasComma(language);
  const named = (text: string, isFigure: boolean) =>
    names?.get(text) ?? (comma ? (isFigure ? withComma(text) : commaWithin(text)) : text);
  const tell = tellIn(language, texts ?? {}, route, named);
  const retell = texts === undefined ? data : reteller({ ...KEPT_WORDS, ...REASON_WORDS }, tell, own);
  const figure = (text: string) => data(comma ? withComma(text) : text);
  return Object.assign(sayIn(BENCH_WORDS, tell), { retell, figure });
}

/** What a refusal quotes of the procedure is told as the route says it: in the reader's language where it has one. */
function tellIn(
  language: string,
  texts: Translations,
  route: Route | undefined,
  named: (text: string, isFigure: boolean) => string,
): Tell {
  if (route === undefined) return teller(language, (id) => texts[id], {}, named);
  const quoted = new Map<string, string>();
  for (const { id, title, hold, checks } of route.steps) {
    quoted.set(`step ${id}`, title);
    if (hold) quoted.set(`hold ${hold.id}`, hold.title);
    for (const check of checks) quoted.set(`check ${check.id}`, check.ask);
  }
  return teller(language, (id) => texts[id] ?? quoted.get(id), {}, named);
}

/** Titles, questions and answers of the procedure in its own language, and in the reader's. */
function namesIn(own: Route, route: Route): Map<string, string> {
  const names = new Map<string, string>();
  const told = new Map(route.steps.map((step) => [step.id, step]));
  for (const step of own.steps) {
    const other = told.get(step.id);
    if (!other) continue;
    names.set(step.title, other.title);
    if (step.hold && other.hold) names.set(step.hold.title, other.hold.title);
    for (const [i, { ask, points = [], choices = [] }] of step.checks.entries()) {
      const check = other.checks[i];
      names.set(ask, check?.ask ?? ask);
      for (const [at, { text }] of points.entries()) names.set(text, check?.points?.[at]?.text ?? text);
      for (const [at, { text }] of choices.entries()) names.set(text, check?.choices?.[at]?.text ?? text);
    }
  }
  return names;
}

/** Words of the bench that are told later. */
export const benchWords = messagesOf(BENCH_WORDS);

/** What is wrong, and what to do about it. */
export function problemSaid({ said, wayOut }: Problem, reader: Reader): [text: Spoken, todo: Spoken] {
  const { tell } = told(reader);
  return [sanitize(tell(said)), sanitize(tell(wayOut))];
}

const hashes = new Map<string, string>();

/** By which words a person reads: those of their language, or English beside the procedure as it was written. */
export function wordsRead({ language }: Reader): WordsRead {
  const words = language !== undefined && BENCH_TEXTS.has(language) ? language : 'en';
  return {
    ...(language === undefined ? {} : { language }),
    get catalogue() {
      const hash = hashes.get(words) ?? sha256(canonicalText(textsIn(words)));
      hashes.set(words, hash);
      return hash;
    },
  };
}

const textsIn = (language: string): Translations =>
  BENCH_TEXTS.get(language) ??
  Object.fromEntries(
    Object.entries({ ...KEPT_WORDS, ...BENCH_WORDS } as Catalogue).map(([id, { text }]) => [id, text]),
  );
