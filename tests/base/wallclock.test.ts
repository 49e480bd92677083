/** Wall clocks: offsets and changes of summer time as the laws that made them say, and every zone against the platform. */
import { describe, expect, it } from 'vitest';
import {
  isZone,
  localTimes,
  minutesAhead,
  momentOf,
  offsetText,
  wallTime,
  zoneOver,
  zoneText,
} from '../../src/base/wallclock.js';
import { whenIn } from '../../src/record/telling.js';

describe('a wall clock', () => {
  // Directive 2000/84/EC, article 2 and 3: summer time begins at 1.00 a.m. GMT on the last Sunday in March and ends at
  // 1.00 a.m. GMT on the last Sunday in October.
  it.each([
    ['2026-03-29T00:59:59.999Z', 60],
    ['2026-03-29T01:00:00.000Z', 120],
    ['2026-10-25T00:59:59.999Z', 120],
    ['2026-10-25T01:00:00.000Z', 60],
  ])('in Berlin at %s is %d minutes ahead', (at, minutes) => {
    expect(minutesAhead(Date.parse(at), 'Europe/Berlin')).toBe(minutes);
  });

  it('finds the moments at which the clock changes, and tells times by them', () => {
    const zone = zoneOver('Europe/Berlin', '2026-03-02T07:00:00.000Z', '2026-12-01T10:00:00.000Z');
    expect(zone.offsets).toEqual([
      { from: '2026-03-02T07:00:00.000Z', minutes: 60 },
      { from: '2026-03-29T01:00:00.000Z', minutes: 120 },
      { from: '2026-10-25T01:00:00.000Z', minutes: 60 },
    ]);
    expect(wallTime('2026-03-29T00:30:00.000Z', zone)).toBe('2026-03-29T01:30:00.000');
    expect(wallTime('2026-03-29T01:30:00.000Z', zone)).toBe('2026-03-29T03:30:00.000');
    expect(wallTime('2026-03-01T07:00:00.000Z', zone)).toBe('2026-03-01T08:00:00.000');
    expect(wallTime('2026-03-01T07:00:00.000Z', undefined)).toBe('2026-03-01T07:00:00.000');
    expect(zoneText(zone)).toBe(
      'Europe/Berlin, UTC+01:00, from 2026-03-29 03:00 UTC+02:00, from 2026-10-25 02:00 UTC+01:00',
    );
  });

  it('says the offset beside a time that it shows twice, and beside no other', () => {
    const zone = zoneOver('Europe/Berlin', '2026-10-01T00:00:00.000Z', '2026-11-01T00:00:00.000Z');
    const when = whenIn(zone);
    expect(
      ['T23:59:59', 'T00:00:00', 'T00:30:00', 'T01:30:00', 'T01:59:59', 'T02:00:00'].map((time, i) =>
        when(`2026-10-${i === 0 ? '24' : '25'}${time}.000Z`),
      ),
    ).toEqual([
      '2026-10-25 01:59:59',
      '2026-10-25 02:00:00 UTC+02:00',
      '2026-10-25 02:30:00 UTC+02:00',
      '2026-10-25 02:30:00 UTC+01:00',
      '2026-10-25 02:59:59 UTC+01:00',
      '2026-10-25 03:00:00',
    ]);
  });

  it('agrees with the platform in every zone it knows, at odd hours of a year', () => {
    for (const zone of Intl.supportedValuesOf('timeZone')) {
      const shown = new Intl.DateTimeFormat('sv-SE', {
        timeZone: zone,
        dateStyle: 'short',
        timeStyle: 'medium',
      });
      for (let month = 0; month < 12; month += 1) {
        const ms = Date.UTC(2026, month, 3 * month + 1, 5 * month, 7 * month, 11);
        const at = new Date(ms).toISOString();
        const own = wallTime(at, zoneOver(zone, at, at))
          .slice(0, 19)
          .replace('T', ' ');
        expect(own, zone).toBe(shown.format(ms));
      }
    }
  });

  it('knows no zone by an offset, or by a name that nobody gave', () => {
    expect(isZone('Asia/Kolkata')).toBe(true);
    for (const name of ['', '+01:00', 'Berlin', 'Europe/Nowhere', 'x'.repeat(300)])
      expect(isZone(name), name).toBe(false);
  });

  it('is not held up by a document that says it began in another age', () => {
    const zone = zoneOver('Europe/Berlin', '0001-01-01T00:00:00.000Z', '2026-12-01T00:00:00.000Z');
    expect(zone.offsets.at(-1)).toEqual({ from: '2026-10-25T01:00:00.000Z', minutes: 60 });
    // Fifty years of days, not two thousand.
    expect(zone.offsets.length).toBeLessThan(110);
  });

  it('says how far it is ahead', () => {
    expect([60, 0, -210, 345].map(offsetText)).toEqual(['UTC+01:00', 'UTC+00:00', 'UTC-03:30', 'UTC+05:45']);
  });
});

const NOW = Date.parse('2026-12-01T00:00:00Z');

describe('times in a text', () => {
  it('are told by the wall, days included, and nothing else is changed', () => {
    const zone = 'Asia/Kolkata';
    expect(localTimes('cures until 2026-12-01 20:15 UTC, or lot 10:00', zone, NOW)).toBe(
      'cures until 2026-12-02 01:45, or lot 10:00',
    );
    expect(localTimes('at 20:15 UTC.', zone, NOW)).toBe('at 01:45.');
    expect(localTimes('at 99:99 UTC; 2026-03-29 03:00 UTC+02:00', zone, NOW)).toBe(
      'at 99:99 UTC; 2026-03-29 03:00 UTC+02:00',
    );
  });
});

describe('a time that a person gives', () => {
  it.each([
    ['2026-11-30', 'Europe/Berlin', '2026-11-29T23:00:00.000Z'],
    ['2026-07-01T06:30', 'Europe/Berlin', '2026-07-01T04:30:00.000Z'],
    ['2026-12-01T12:00', 'Asia/Tokyo', '2026-12-01T03:00:00.000Z'],
    ['2026-12-01T12:00Z', 'Asia/Tokyo', '2026-12-01T12:00:00.000Z'],
    ['2026-12-01T12:00+01:00', 'Asia/Tokyo', '2026-12-01T11:00:00.000Z'],
    // The clock goes forward at 02:00 on that day.
    ['2026-03-29T01:30', 'Europe/Berlin', '2026-03-29T00:30:00.000Z'],
    ['2026-03-29T03:30', 'Europe/Berlin', '2026-03-29T01:30:00.000Z'],
  ])('%s in %s is %s', (text, zone, moment) => {
    expect(new Date(momentOf(text, zone)).toISOString()).toBe(moment);
  });

  it('is none where it is no time', () => expect(momentOf('soon', 'UTC')).toBeNaN());
});
