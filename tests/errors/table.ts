/** TABLE.md: every message, what gives it, with which exit code, and what is said. */
import { allMessages } from '../../src/commands/messages.js';
import { ELSEWHERE } from './elsewhere.js';
import { ids, readCase } from './museum.js';

export function tableText(): string {
  const cases = new Set(ids());
  const rows = allMessages().map(([id, { what, todo }]) => {
    if (!cases.has(id)) {
      const other = ELSEWHERE[id];
      return `| \`${id}\` | ${cell(what)} | ${cell(todo)} | | ${other ? cell(`no case: ${other.why}; see ${other.test}`) : ''} |`;
    }
    const { run, exit, says } = readCase(id);
    return `| [\`${id}\`](${id}/case.yaml) | ${cell(what)} | ${cell(todo)} | ${exit} | \`pinchrod ${code(run.join(' '))}\`: ${cell(says.split('\n')[0]!)} |`;
  });
  return [
    '# Every message',
    '',
    'Made by `MUSEUM_UPDATE=1 npx vitest run tests/errors`; a test holds it current. Each id leads to a case that can be run: a file',
    'laid over a fresh workshop, a command line, or lines for `feed`.',
    '',
    '| id | what is wrong in general | the way out | exit | given by, for example |',
    '|---|---|---|---|---|',
    ...rows,
    '',
  ].join('\n');
}

const cell = (text: string): string => code(text).replaceAll('<', '&lt;');
const code = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');
