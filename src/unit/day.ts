/** By which day it is decided whether something has run out: a lot, a calibration, a sign-off. */

/** A moment, and the day of the workshop's calendar where that is known. */
export interface Moment {
  /** UTC, ISO 8601. */
  readonly now: string;
  /** `2026-03-09`; that of UTC where absent. */
  readonly today?: string | undefined;
}

export const dayNow = ({ now, today }: Moment): string => today ?? now.slice(0, 10);
