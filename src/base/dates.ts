/** Calendar dates as they are printed on goods: ISO 8601, or the form that the workshop uses. */

export const DATE_FORMS = ['YYYY-MM-DD', 'DD.MM.YYYY', 'DD/MM/YYYY', 'MM/DD/YYYY'] as const;
export type DateForm = (typeof DATE_FORMS)[number];

/**
 * An ISO date (`2027-03-31`), or undefined. Reads ISO 8601 (`2027-03-31`, `20270331`, and `2027-03`, which ends with its
 * month) and the given form with its separator, also without its day (`03.2027`).
 */
export function readDate(text: string, form: DateForm): string | undefined {
  const iso = /^(\d{4})-?(\d\d)-?(\d\d)$/.exec(text) ?? /^(\d{4})-(\d\d)$/.exec(text);
  if (iso)
    return dateOf(
      Number(iso[1]),
      Number(iso[2]),
      iso[3] === undefined ? 0 : Number(iso[3]),
      iso[3] === undefined,
    );
  if (form === 'YYYY-MM-DD') return undefined;
  const mark = form.includes('.') ? '.' : '/';
  const parts = text.split(mark);
  if (!parts.every((part) => /^\d{1,4}$/.test(part))) return undefined;
  const figures = parts.map(Number);
  if (parts.length === 2 && parts[1]!.length === 4) return dateOf(figures[1]!, figures[0]!, 0, true);
  if (parts.length !== 3 || parts[2]!.length !== 4) return undefined;
  const [day, month] = form.startsWith('MM') ? [figures[1]!, figures[0]!] : [figures[0]!, figures[1]!];
  return dateOf(figures[2]!, month, day, false);
}

/** Whether a text is meant as a date, readable or not: groups of digits with the separators of dates. */
export const looksLikeDate = (text: string): boolean =>
  /^\d{1,4}([./-])\d{1,2}\1\d{1,4}$/.test(text) || /^(\d{1,2}[./]\d{4}|\d{4}-\d{2})$/.test(text);

/** @param wholeMonth the last day of the month, whatever `day` is */
export function dateOf(year: number, month: number, day: number, wholeMonth: boolean): string | undefined {
  if (month < 1 || month > 12) return undefined;
  const last = new Date(Date.UTC(year, month, 0)).getUTCDate();
  const on = wholeMonth ? last : day;
  if (on < 1 || on > last) return undefined;
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(on).padStart(2, '0')}`;
}

/** ISO 8601, and a day that there is: `2026-03-09`. */
export const isDay = (text: string): boolean => readDate(text, 'YYYY-MM-DD') === text;
