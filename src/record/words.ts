/** The record's wording in one place, so that every format shows the same numbers, times, outcomes and answers. */
import { sanitize } from '../base/text.js';
import { isDoubled, offsetAt, offsetText, wallTime, type Zone } from '../base/wallclock.js';
import { LENGTH_NAMES } from '../measure/misread.js';
import type { SquareKey } from '../measure/types.js';
import type { RouteCheck } from '../procedure/types.js';
import type { Answer, Cited } from '../unit/events.js';
import type { ReadingView, RecordView } from './schema.js';

export const OUTCOME_WORDS: Record<string, string> = {
  pass: 'pass',
  fail: 'FAIL',
  'not-proven': 'NOT PROVEN',
  conceded: 'fail, conceded',
  open: 'NOT DONE',
};

const SOURCE_WORDS: Record<string, string> = {
  published: 'published',
  manual: 'profile manual',
  'house-rule': 'house rule',
  'common-practice': 'common practice',
  memory: 'from memory',
  invented: 'invented',
};
export const sourceWords = (kind: string): string => SOURCE_WORDS[kind] ?? sanitize(kind);

/** Up to three decimals, without trailing zeros. */
export const figureText3 = (value: number): string => String(Math.round(value * 1000) / 1000);
export const withUnit = (value: number, unit: string | undefined): string =>
  unit ? `${figureText3(value)} ${unit}` : figureText3(value);
/** To a tenth: no workshop scale is more precise. */
export const kilograms = (mass: number): string => `${figureText3(Math.round(mass * 10) / 10)} kg`;
export const size = (w: number, h: number): string => `${figureText3(w)} x ${figureText3(h)} mm`;

export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** Tells a time in UTC, ISO 8601: `2026-03-04 09:12:30`. Other text is shown unchanged. */
export type When = (at: string) => string;

/** By the clock of the zone; in UTC where a document has none. A document states once which it is. */
export const whenIn =
  (zone: Zone | undefined): When =>
  (at) => {
    const wall = zone && at.endsWith('Z') && !Number.isNaN(Date.parse(at)) ? wallTime(at, zone) : at;
    const match = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d(?::\d\d)?)/.exec(wall);
    if (!match) return sanitize(at);
    const doubled = zone && isDoubled(at, zone) ? ` ${offsetText(offsetAt(at, zone))}` : '';
    return `${match[1]} ${match[2]}${doubled}`;
  };

/** `2026-03-04 10:12:30, Europe/Berlin, UTC+01:00` */
export const printedAt = ({ at, zone }: RecordView['made']): string =>
  zone ? `${whenIn(zone)(at)}, ${zone.name}, ${offsetText(offsetAt(at, zone))}` : `${whenIn(zone)(at)} UTC`;

/** A step's title, plus its light or divider unless the title already names it. */
export const stepHeading = ({ title, item }: { readonly title: string; readonly item?: string }): string =>
  sanitize(item === undefined || new RegExp(`\\b${item}\\b`).test(title) ? title : `${title} (${item})`);

/** "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

export const sentence = (text: string): string => {
  const trimmed = text.trim();
  return trimmed === '' || /[.!?]$/.test(trimmed) ? trimmed : `${trimmed}.`;
};

/** An answer's individual readings, as typed and as interpreted. */
export function readingsOf(answer: Answer, check: RouteCheck | undefined): ReadingView[] {
  const unit = check?.unit ?? (answer.kind === 'square' ? 'mm' : undefined);
  const one = (
    what: string,
    reading: { raw: string; value: number; instrument?: string | undefined; confirmed?: boolean | undefined },
  ): ReadingView => ({
    what,
    raw: sanitize(reading.raw),
    value: reading.value,
    ...(unit === undefined ? {} : { unit }),
    ...(reading.instrument === undefined ? {} : { instrument: sanitize(reading.instrument) }),
    confirmed: reading.confirmed === true,
  });
  if (answer.kind === 'number') return answer.readings.map((reading) => one('', reading));
  if (answer.kind === 'square') {
    const keys = [...Object.keys(LENGTH_NAMES), ...Object.keys(answer.readings)];
    return [...new Set(keys)].flatMap((key) =>
      (answer.readings[key] ?? []).map((reading) =>
        one(String(LENGTH_NAMES[key as SquareKey] ?? sanitize(key)), reading),
      ),
    );
  }
  if (answer.kind === 'points')
    return Object.entries(answer.readings).flatMap(([id, readings]) => {
      const point = check?.points?.find((each) => each.id === id);
      return readings.map((reading) => one(sanitize(point?.text ?? id), reading));
    });
  return [];
}

/** In one sentence: "1220.5 mm", "top 1000 mm; …", "go", "3". Adds what was typed if different. */
export function answerSays(answer: Answer, check: RouteCheck | undefined): string {
  switch (answer.kind) {
    case 'tick':
      return 'done';
    case 'go-no-go':
      return answer.go ? 'yes' : 'no';
    case 'count':
      return String(answer.count);
    case 'choice':
      return sanitize(check?.choices?.find(({ id }) => id === answer.choice)?.text ?? answer.choice);
    case 'text':
      return sanitize(answer.text);
    default:
      return readingsOf(answer, check)
        .map(
          (r) =>
            `${r.what === '' ? '' : `${r.what} `}${withUnit(r.value!, r.unit)}${typed(r)}${r.confirmed ? ' (asked again, confirmed)' : ''}`,
        )
        .join('; ');
  }
}

function typed(reading: ReadingView): string {
  const meant = Number(reading.raw.trim().replace(',', '.'));
  return meant === reading.value ? '' : ` (typed "${reading.raw}")`;
}

const RHYTHM_WORDS: Readonly<Record<Cited['rhythm'], string>> = {
  batch: 'once for a batch',
  'first-off': 'once for each set-up',
  lot: 'once for each lot',
  shift: 'once a shift',
  job: 'once for the order',
  nth: 'on every nth unit',
};

/** `of P01-1, line 12 (once a shift)`. */
export const citedText = ({ unit, n, rhythm }: Cited): string =>
  `of ${sanitize(unit)}, line ${n} (${RHYTHM_WORDS[rhythm]})`;
