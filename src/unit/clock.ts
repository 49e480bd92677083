/**
 * Times as events give them. Order never comes from these: only how long something has cured, and only after jumps of
 * the wall clock that the journal noticed are taken out.
 */
export const ms = (iso: string): number => Date.parse(iso);

export const iso = (time: number): string => new Date(time).toISOString();

/** `2026-11-25T10:42:00.000Z` -> `10:42 UTC`, with the date where it is another day than `now`. */
export function timeText(time: string, now: string): string {
  const clock = `${time.slice(11, 16)} UTC`;
  return time.slice(0, 10) === now.slice(0, 10) ? clock : `${time.slice(0, 10)} ${clock}`;
}

/** How far the wall clock may fall behind the last event before that counts as a jump, ms. */
export const CLOCK_SLACK = 2000;
