/** Files as they come after a bad disk, a bad editor or a bad intention: seeded mutations of good ones. */
import { pick } from './chance.js';

/** What breaks readers, wherever it is put. */
const HAZARDS: readonly string[] = [
  ...[
    '&a x',
    '*a',
    '<<: *a',
    '&a [*a, *a]',
    '!!js/function "f"',
    '!!binary x',
    '%YAML 9.9\n',
    '---\n',
    '...\n',
    '? ',
  ],
  ...[
    '['.repeat(60),
    '{a: '.repeat(60),
    '- '.repeat(200),
    '('.repeat(300),
    '!'.repeat(300),
    '"',
    "'",
    '|',
    '>-',
  ],
  ...[
    '1e999',
    '-1e999',
    '9'.repeat(400),
    '0x1',
    '1_000',
    '.nan',
    '.inf',
    '-0',
    '1e-400',
    'null',
    'true',
    '~',
  ],
  ...[
    '\u0000',
    '\ud800',
    '\udfff',
    '\ufeff',
    '\r\n',
    '\r',
    '\u2028',
    '\u001b[31m',
    '\u009b31m',
    '\u202e',
    '\u200b',
  ],
  ...[
    '<script>alert(1)</script>',
    '=cmd|"/c calc"!A1',
    '../../../etc/passwd',
    'C:\\nul',
    '__proto__',
    'constructor',
  ],
  ...[
    '{{',
    '}}',
    '{{ unit.width }}',
    '{{ 1 / 0 }}',
    '9223372036854775807',
    '\t',
    ',,,,',
    ';',
    ' '.repeat(500),
  ],
];

/** One to four changes: of a character, a piece, a line, a number, or a hazard put in. */
export function mutate(text: string, random: () => number): string {
  let out = text;
  const at = (): number => Math.floor(random() * (out.length + 1));
  for (let change = 1 + Math.floor(random() * 4); change > 0; change--) {
    const from = at();
    const to = Math.min(out.length, from + Math.floor(random() ** 3 * 400));
    const lines = out.split('\n');
    const line = Math.floor(random() * lines.length);
    switch (Math.floor(random() * 8)) {
      case 0:
        out = out.slice(0, from) + out.slice(to);
        break;
      case 1:
        out = out.slice(0, to) + out.slice(from, to).repeat(1 + Math.floor(random() * 5)) + out.slice(to);
        break;
      case 2:
        out = out.slice(0, from) + String.fromCharCode(Math.floor(random() * 256)) + out.slice(from + 1);
        break;
      case 3:
        out = out.slice(0, from) + pick(HAZARDS, random) + out.slice(from);
        break;
      case 4:
        lines.splice(line, 1, ...(random() < 0.5 ? [] : [lines[line]!, lines[line]!]));
        out = lines.join('\n');
        break;
      case 5:
        // The value of a line, whatever it is.
        lines[line] = lines[line]!.replace(
          /([:,]\s*)\S.*$/,
          (_, colon: string) => colon + pick(HAZARDS, random),
        );
        out = lines.join('\n');
        break;
      case 6:
        out = out.replace(/\d+(\.\d+)?/g, (number) => (random() < 0.02 ? pick(HAZARDS, random) : number));
        break;
      default:
        lines[line] = ' '.repeat(Math.floor(random() * 9)) + lines[line]!.trimStart();
        out = lines.join('\n');
    }
  }
  return out;
}
