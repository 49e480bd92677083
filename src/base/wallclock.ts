/** Time as the clock on the workshop's wall tells it. Files keep UTC. */

/** A zone over the time that a document speaks of, so that it can be made again when the world's zone data have changed. */
export interface Zone {
  /** IANA name: `Europe/Berlin`. */
  readonly name: string;
  /** How far the clock is ahead of UTC, minutes, each from a moment on (UTC, ISO 8601); the first holds before it, too. */
  readonly offsets: readonly { readonly from: string; readonly minutes: number }[];
}

/** Whether this machine knows the zone. */
export function isZone(name: string): boolean {
  try {
    // An offset such as "+01:00" is taken by some versions only, and knows no summer time.
    return /^[A-Za-z]/.test(name) && partsIn(name) !== undefined;
  } catch {
    return false;
  }
}

/** The zone of this machine. */
const ownZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** How far the clock is ahead of UTC then, minutes. @param zone IANA name; of this machine where there is none */
export function minutesAhead(ms: number, zone: string | undefined): number {
  if (zone === undefined) return -new Date(ms).getTimezoneOffset();
  const parts = Object.fromEntries(
    partsIn(zone)
      .formatToParts(ms)
      .map(({ type, value }) => [type, Number(value)]),
  ) as Record<'year' | 'month' | 'day' | 'hour' | 'minute' | 'second', number>;
  const { year, month, day, hour, minute, second } = parts;
  const wall = Date.UTC(year, month - 1, day, hour, minute, second);
  return Math.round((wall - Math.floor(ms / 1000) * 1000) / MINUTE);
}

const MINUTE = 60_000;
const DAY = 86_400_000;
const LONGEST = 50 * 366 * DAY;

const kept = new Map<string, Intl.DateTimeFormat>();

/** Throws RangeError if the zone is not known. */
function partsIn(zone: string): Intl.DateTimeFormat {
  const made =
    kept.get(zone) ??
    new Intl.DateTimeFormat('en-US', {
      timeZone: zone,
      calendar: 'gregory',
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
    });
  kept.set(zone, made);
  return made;
}

/** The day that the calendar on the wall shows: `2026-03-09`. @param zone IANA name; of this machine where there is none */
export const localDay = (at: string, zone: string | undefined): string => {
  const ms = Date.parse(at);
  return new Date(ms + minutesAhead(ms, zone) * MINUTE).toISOString().slice(0, 10);
};

/**
 * The moment that a person means by a day or a time: by the wall where it names no offset. Not a number if it is no time.
 * @param zone IANA name; of this machine where there is none
 */
export function momentOf(text: string, zone: string | undefined): number {
  if (/T.*(?:Z|[+-]\d\d:?\d\d)$/i.test(text)) return Date.parse(text);
  const wall = Date.parse(/T/i.test(text) ? `${text}Z` : text);
  if (Number.isNaN(wall)) return wall;
  const near = wall - minutesAhead(wall, zone) * MINUTE;
  return wall - minutesAhead(near, zone) * MINUTE;
}

/** @param name IANA name; of this machine where there is none. From and to: UTC, ISO 8601 */
export function zoneOver(name: string | undefined, from: string, to: string): Zone {
  const last = Math.max(Date.parse(from), Date.parse(to));
  // A document that says it began in another century is not worth the days in between.
  const first = Math.max(Date.parse(from), last - LONGEST);
  const ahead = (ms: number) => minutesAhead(ms, name);
  const offsets = [{ from, minutes: ahead(first) }];
  for (let before = first; before < last; ) {
    const next = Math.min(last, before + DAY);
    if (ahead(next) !== ahead(before)) {
      const at = changeBetween(before, next, ahead);
      offsets.push({ from: new Date(at).toISOString(), minutes: ahead(at) });
    }
    before = next;
  }
  return { name: name ?? ownZone(), offsets };
}

/** The first millisecond that has the offset of `to`. */
function changeBetween(from: number, to: number, ahead: (ms: number) => number): number {
  let [low, high] = [from, to];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (ahead(middle) === ahead(to)) high = middle;
    else low = middle;
  }
  return high;
}

/** `2026-03-04T10:12:30.000` as the clock shows it, for a time in UTC, ISO 8601. */
const shifted = (at: string, minutes: number): string =>
  new Date(Date.parse(at) + minutes * MINUTE).toISOString().slice(0, -1);

/** The same over a document's zone; in UTC where it has none. */
export function wallTime(at: string, zone: Zone | undefined): string {
  return shifted(at, zone ? offsetAt(at, zone) : 0);
}

/** Whether the clock shows this time twice, because it was put back meanwhile. */
export const isDoubled = (at: string, { offsets }: Zone): boolean =>
  offsets.some(({ from, minutes }, i) => {
    const back = i === 0 ? 0 : offsets[i - 1]!.minutes - minutes;
    return back > 0 && Math.abs(Date.parse(at) - Date.parse(from) + 1) <= back * MINUTE;
  });

/** How far its clock is ahead of UTC then, minutes. */
export const offsetAt = (at: string, { offsets }: Zone): number =>
  (offsets.findLast(({ from }) => from <= at) ?? offsets[0]!).minutes;

/** `UTC+01:00` */
export function offsetText(minutes: number): string {
  const two = (figure: number) => String(figure).padStart(2, '0');
  const size = Math.abs(minutes);
  return `UTC${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** Whether it is UTC under one of its names. */
export const isUtc = ({ name }: Zone): boolean =>
  /^(Etc\/)?(UTC|UCT|GMT|Greenwich|Universal|Zulu)$/.test(name);

/** `Europe/Berlin, UTC+01:00, from 2026-03-29 03:00 UTC+02:00` */
export function zoneText(zone: Zone): string {
  const [first, ...later] = zone.offsets;
  const changes = later.map(
    ({ from, minutes }) =>
      `from ${shifted(from, minutes).slice(0, 16).replace('T', ' ')} ${offsetText(minutes)}`,
  );
  return [zone.name, offsetText(first!.minutes), ...changes].join(', ');
}

/** `2026-03-04 09:12 UTC`: the form that `localTimes` finds. */
export const utcText = (at: string): string => `${at.slice(0, 16).replace('T', ' ')} UTC`;

/** Source of a pattern for such a time, with its day or without. */
export const UTC_PATTERN = String.raw`(?:(\d{4}-\d\d-\d\d) )?(\d\d:\d\d) UTC(?![+-])`;
const UTC_TIME = new RegExp(UTC_PATTERN, 'g');

/**
 * Times in a text that say UTC, as the clock on the wall shows them; one without its day is of today.
 * @param zone IANA name; of this machine where there is none @param now ms
 */
export function localTimes(text: string, zone: string | undefined, now: number): string {
  if (!text.includes(' UTC')) return text;
  return text.replace(UTC_TIME, (said, day: string | undefined, clock: string) => {
    const at = `${day ?? new Date(now).toISOString().slice(0, 10)}T${clock}:00.000Z`;
    const ms = Date.parse(at);
    if (Number.isNaN(ms)) return said;
    const local = shifted(at, minutesAhead(ms, zone)).slice(0, 16).replace('T', ' ');
    return day === undefined ? local.slice(11) : local;
  });
}
