/** Which record it is, which ones it takes the place of, what type test it rests on, and how long it is to be kept. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import type { Particulars } from './particulars.js';
import type { RecordView } from './schema.js';
import type { DocumentSay } from './telling.js';

type Papers = NonNullable<RecordView['papers']>;

/** @param closed lines of the journal when the record was closed, where more came after @param lines all of them now */
export function papersOf(
  { job, unit, lines, closed, releasedAt }: Numbered,
  { testReport = '', keepYears }: Particulars,
  say: DocumentSay,
): Papers {
  const number = (n: number): Spoken =>
    say('doc-number-is', { job: sanitize(job), unit: sanitize(unit), lines: n });
  return {
    number: number(lines),
    supersedes:
      closed === undefined
        ? say('doc-supersedes-earlier')
        : say('doc-supersedes', { number: number(closed) }),
    testReport: sanitize(testReport),
    keepUntil:
      keepYears === undefined || releasedAt === undefined
        ? data('')
        : say('doc-keep-until', { day: yearsAfter(releasedAt, keepYears), years: keepYears }),
  };
}

interface Numbered {
  readonly job: string;
  readonly unit: string;
  readonly lines: number;
  readonly closed?: number | undefined;
  /** UTC, ISO 8601; undefined while nobody has released it. */
  readonly releasedAt?: string | undefined;
}

/** The same day so many years later; of 29 February, 1 March. */
function yearsAfter(at: string, years: number): Spoken {
  const day = new Date(at);
  day.setUTCFullYear(day.getUTCFullYear() + years);
  return data(day.toISOString().slice(0, 10));
}
