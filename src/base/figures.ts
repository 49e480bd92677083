/** Decimals as the reader's language writes them. What is typed is read either way, see `measure/units.ts`. */

/** Units of figures, as they are written behind them. */
const UNIT = '(?:mm|kg|deg|°|Nm|N|%|C|lx|Pa|bar|µm|m2|min|h)(?![A-Za-z])';
/** Figures in a row have one unit behind the last: "900.5 x 1200.5 mm", "3.2, 3.4 mm". */
const ROW = '(?:\\s?(?:[x×/,;–]|to|bis)\\s?[+-]?\\d+(?:\\.\\d+)?)*';
const FIGURE = new RegExp(`(?<![\\w.])([±+-]?\\s?\\d+)\\.(\\d+)(?=${ROW}\\s?${UNIT})`, 'g');
/** With a sign before it, it is a figure too; a number of a clause or a version has none. */
const SIGNED = /(?<![\w.])([±+-]\s?\d+)\.(\d+)(?![\w.])/g;
/** A figure with nothing beside it. */
const ALONE = /^(\s*\d+)\.(\d+)(\s*)$/;

/** With a comma in each decimal. Numbers of clauses, versions and names are not touched. */
export const withComma = (text: string): string => commaWithin(text.replace(ALONE, '$1,$2$3'));

/** The same, where a figure alone may be no figure: the code of a lot, a version. */
export const commaWithin = (text: string): string =>
  /\d\.\d/.test(text) ? text.replace(FIGURE, '$1,$2').replace(SIGNED, '$1,$2') : text;

/** Whether decimals have a comma in this language. English is known without asking: it loads no number formats. */
export const hasComma = (language: string): boolean =>
  language !== 'en' &&
  new Intl.NumberFormat(language)
    .formatToParts(1.5)
    .some(({ type, value }) => type === 'decimal' && value === ',');
