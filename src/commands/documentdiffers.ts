/** The first thing that a document handed in says otherwise than the one made anew, in words; nothing where they say the same. */
import { pdfDifference } from '../record/pdfdiffer.js';
import { csvRows, type HandedIn } from './documentread.js';

export function differenceOf(given: HandedIn, bytes: Buffer, anew: string | Uint8Array): string | undefined {
  switch (given.format) {
    case 'json':
      return memberDifference(JSON.parse(String(anew)), given.data, '');
    case 'csv':
      return cellDifference(given.data as string[][], csvRows(String(anew)));
    case 'pdf':
      return pdfDifference(bytes, anew as Uint8Array);
    default:
      return lineDifference(bytes.toString('utf8'), String(anew));
  }
}

function lineDifference(given: string, anew: string): string | undefined {
  const [said, wanted] = [given.replaceAll('\r\n', '\n').split('\n'), anew.split('\n')];
  const at = said.findIndex((line, i) => line !== wanted[i]);
  if (at < 0 && said.length === wanted.length) return undefined;
  if (at < 0) return `It ends with line ${said.length}; the journal gives ${wanted.length} lines.`;
  const [x, y] = apart(said[at]!, wanted[at] ?? '');
  return `Line ${at + 1} says ${quoted(x)}; the journal gives ${quoted(y)}.`;
}

const LONGEST = 100;
const quoted = (text: string): string => (text === '' ? 'nothing' : `"${text}"`);

/** Both lines from shortly before where they part, without the marks of a page. */
function apart(a: string, b: string): [string, string] {
  const [x, y] = [a, b].map((line) =>
    line
      .replace(/<[^>]*>/g, ' ')
      .replace(/ +/g, ' ')
      .trim(),
  ) as [string, string];
  if (x === y) return [a.trim().slice(0, LONGEST), b.trim().slice(0, LONGEST)];
  let i = 0;
  while (x[i] === y[i]) i++;
  const from = Math.max(0, x.lastIndexOf(' ', Math.max(0, i - 30)) + 1);
  return [x.slice(from, from + LONGEST), y.slice(from, from + LONGEST)];
}

/** The header's names say which cell; the check's id says of what. */
function cellDifference(given: readonly string[][], anew: readonly string[][]): string | undefined {
  const [head = []] = anew;
  const check = head.indexOf('check');
  for (let row = 0; row < Math.max(given.length, anew.length); row++) {
    const [x, y] = [given[row], anew[row]];
    if (!x || !y) return `It has ${given.length - 1} checks; the journal gives ${anew.length - 1}.`;
    for (let i = 0; i < Math.max(x.length, y.length); i++)
      if (x[i] !== y[i])
        return `Row ${row + 1}, ${y[check] ?? 'check'}, ${head[i] ?? 'one cell more'} is ${quoted(x[i] ?? '')}; the journal gives ${quoted(y[i] ?? '')}.`;
  }
  return undefined;
}

/** The first member, in the order of the format, that is not the same. */
function memberDifference(want: unknown, given: unknown, path: string): string | undefined {
  if (want === given) return undefined;
  if ([want, given].every((each) => each !== null && typeof each === 'object')) {
    const [a, b] = [want, given] as [Record<string, unknown>, Record<string, unknown>];
    for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
      const found = memberDifference(a[key], b[key], path === '' ? key : `${path}.${key}`);
      if (found !== undefined) return found;
    }
    return undefined;
  }
  const shown = (value: unknown) => (value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 120));
  return `${path} is ${shown(given)}; the journal gives ${shown(want)}.`;
}
