/** The screen's colours and character set. Colour never carries meaning alone: a shape and a word go with it. */

import { data, laid, Message, type Spoken } from '../base/words.js';
import type { Outcome, ReadingUnit } from '../measure/types.js';
import { lengthText } from '../measure/units.js';
import { sourceText } from '../measure/verdict.js';
import type { RouteCheck } from '../procedure/types.js';
import { STANDING_WORDS } from '../unit/board.js';
import type { CheckState, StepStatus } from '../unit/types.js';
import type { Tone } from './state.js';
import type { BenchSay } from './words/told.js';

export interface Theme {
  readonly colours: 'dark' | 'light' | 'none';
  readonly ascii: boolean;
  /** IANA name of the zone in which times are told; of this machine if absent. */
  readonly zone?: string | undefined;
  /** Decimals have a comma. */
  readonly comma?: boolean;
}

export interface ToneProps {
  readonly color?: string;
  readonly bold?: boolean;
  readonly inverse?: boolean;
}

export function toneProps(tone: Tone, { colours }: Theme): ToneProps {
  switch (tone) {
    case 'plain':
    case 'quiet':
      return {};
    case 'strong':
      return { bold: true };
    case 'mark':
      return { inverse: true };
    case 'good':
      return { bold: true, ...paint(colours, 'greenBright', 'green') };
    case 'bad':
      return { bold: true, ...paint(colours, 'redBright', 'red') };
    case 'ask':
      return { bold: true, ...paint(colours, 'yellowBright', 'magenta') };
  }
}

/** The nicer shape for an ASCII sign, if the terminal supports it. */
export const shape = (sign: string, theme: Theme): Spoken =>
  data(theme.ascii ? sign : (SHAPES[sign] ?? sign));

/** Reads NO_COLOR, COLORFGBG, the locale, and PINCHROD_THEME / PINCHROD_ASCII if set. */
export function themeFrom(env: Readonly<Record<string, string | undefined>>, platform: string): Theme {
  return { colours: coloursFrom(env), ascii: asciiFrom(env, platform) };
}

function coloursFrom(env: Readonly<Record<string, string | undefined>>): Theme['colours'] {
  if ((env.NO_COLOR ?? '') !== '' || env.TERM === 'dumb') return 'none';
  const asked = env.PINCHROD_THEME;
  if (asked === 'dark' || asked === 'light' || asked === 'none') return asked;
  // COLORFGBG is "foreground;background": 7 and 9 to 15 are light backgrounds.
  const background = Number(env.COLORFGBG?.split(';').at(-1) ?? '0');
  return background === 7 || background > 8 ? 'light' : 'dark';
}

function asciiFrom(env: Readonly<Record<string, string | undefined>>, platform: string): boolean {
  if (env.PINCHROD_ASCII !== undefined) return env.PINCHROD_ASCII !== '0' && env.PINCHROD_ASCII !== '';
  if (platform === 'win32') return env.WT_SESSION === undefined;
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG || '';
  // No locale set means UTF-8, the default of current terminals; C and POSIX are taken at their word.
  return locale !== '' && !/utf-?8/i.test(locale);
}

function paint(colours: Theme['colours'], dark: string, light: string): { readonly color?: string } {
  if (colours === 'none') return {};
  return { color: colours === 'dark' ? dark : light };
}

// Words and shapes for statuses, so that nothing relies on colour alone. Each shape has an ASCII form.

/** Signs, one ASCII character each; `SHAPES` has the nicer ones. The words stand in the catalogue. */
export const STANDING = STANDING_WORDS;

export const STATUS: Readonly<Record<StepStatus, string>> = {
  waiting: '.',
  ready: 'o',
  begun: '>',
  failed: 'X',
  held: '#',
  done: 'v',
  stale: '@',
};
export const STATUSES = Object.keys(STATUS) as readonly StepStatus[];

const SHAPES: Readonly<Record<string, string>> = {
  '.': '·',
  X: '✕',
  x: '✕',
  '>': '▶',
  '#': '■',
  H: '■',
  '~': '≈',
  '!': '▲',
  '=': '‖',
  v: '✓',
  '*': '✓',
  '-': '–',
  o: '○',
  '@': '↻',
  '?': '?',
};

export const OUTCOME: Readonly<Record<Outcome, { readonly sign: string; readonly tone: Tone }>> = {
  pass: { sign: 'v', tone: 'good' },
  fail: { sign: 'X', tone: 'bad' },
  'not-proven': { sign: '?', tone: 'ask' },
};

/** A verdict, from the fold or from the journal. */
export interface JudgedValue {
  readonly outcome: Outcome;
  readonly value?: number | undefined;
  readonly unit?: string | undefined;
  readonly rules: readonly {
    readonly title: string;
    readonly says: string;
    readonly sourceKind: string;
    readonly source: string;
    readonly outcome: Outcome;
  }[];
}

/** `Mitre gap: 0.2 mm, at most 0.3 mm (house rule: …)` per limit that decided; only the figure if no limit applied. */
export function decidedText(verdict: JudgedValue, { retell }: Pick<BenchSay, 'retell'>): readonly Spoken[] {
  const decided = verdict.rules.filter(({ outcome }) => outcome === verdict.outcome);
  const rules = decided.length > 0 ? decided : verdict.rules;
  if (rules.length > 0)
    return rules.map((used) => laid`${data(used.title)}: ${retell(used.says)} (${retell(sourceText(used))})`);
  // A count has no unit, and the answer already shows it.
  return verdict.value === undefined || verdict.unit === undefined
    ? []
    : [data(`${figureText(verdict.value)} ${verdict.unit}`)];
}

/** What is read in a set: as the procedure says it, or a side or a diagonal by its name. */
export const placeSaid = (text: string | Message, say: Pick<BenchSay, 'tell'>): Spoken =>
  text instanceof Message ? say.tell(text) : data(text);

/** A value in the unit it was read in: lengths as inches and fractions if so read, else mm; other units unchanged. */
export const readText = (value: number, read: ReadingUnit): string =>
  read === 'inch' ? lengthText(value, 'inch') : figureText(value);

/** Rounded to two decimals, with at least one shown. */
export function figureText(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? '0' : Number.isInteger(rounded * 10) ? rounded.toFixed(1) : String(rounded);
}

type Answer = NonNullable<CheckState['answered']>['answer'];
type SetAnswer = Extract<Answer, { readonly kind: 'square' | 'points' }>;
export const isSetAnswer = (answer: Answer): answer is SetAnswer =>
  answer.kind === 'square' || answer.kind === 'points';

/** "6 readings" */
export const readingsTaken = ({ readings }: SetAnswer, say: BenchSay): Spoken =>
  say('done-readings', { n: Object.values(readings).reduce((sum, each) => sum + each.length, 0) });

/** The answer in a few words, with readings in the unit they were read in. */
export function answerText(
  say: BenchSay,
  { answer }: Pick<NonNullable<CheckState['answered']>, 'answer'>,
  read: ReadingUnit = 'mm',
  check: Pick<RouteCheck, 'points' | 'choices'> = {},
): Spoken {
  switch (answer.kind) {
    case 'tick':
      return say('answer-done');
    case 'go-no-go':
      return say(answer.go ? 'answer-go' : 'answer-no-go');
    case 'number':
      return data(answer.readings.map(({ value }) => say.figure(readText(value, read))).join(', '));
    case 'square':
    case 'points':
      return data(
        Object.entries(answer.readings)
          .map(
            ([key, readings]) =>
              `${check.points?.find(({ id }) => id === key)?.text ?? key.replace('_', '-')} ${readings.map(({ value }) => say.figure(readText(value, read))).join(', ')}`,
          )
          .join('  '),
      );
    case 'count':
      return data(String(answer.count));
    case 'choice':
      return data(check.choices?.find(({ id }) => id === answer.choice)?.text ?? answer.choice);
    case 'text':
      return data(answer.text);
  }
}

/** `2 h 58 min`: whole minutes, rounded up. */
export function timeLeft(until: string, now: string, say: BenchSay): Spoken {
  const minutes = Math.max(1, Math.ceil((Date.parse(until) - Date.parse(now)) / 60_000));
  const hours = Math.floor(minutes / 60);
  return hours === 0
    ? say('left-minutes', { minutes: String(minutes) })
    : say('left-hours', { hours: String(hours), minutes: String(minutes % 60) });
}

export const withoutStop = (text: string): Spoken => data(text.replace(/\.$/, ''));
