/** logs/README.md is true: its table is the code's, every event is in it, and its commands check a real journal. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { eventSchema } from '../../src/build/events.js';
import { realDisk } from '../../src/store/disk.js';
import { Journal } from '../../src/store/journal.js';
import { freezeSources } from '../../src/store/sources.js';
import { verifyTable } from '../../src/store/verifymessages.js';
import { measured, noted, opened, stamp } from './samples.js';

const README = readFileSync(resolve(import.meta.dirname, '../../logs/README.md'), 'utf8');
let root: string;
let file: string;
let last: string;

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  file = join(root, 'logs/pier-house/P01-1.jsonl');
  const sources = freezeSources(realDisk, root, { limits: 'format: x\n' });
  const made = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error('cannot open');
  made.value.append([opened('P01-1', 'pier-house', sources)], stamp());
  made.value.append([noted('a "quoted" \\ note, 日本 😀'), measured(1220.7), noted('"hash":"0",')], stamp(1));
  last = made.value.events.at(-1)!.hash;
  made.value.close();
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** The shell block that begins with the comment `# name`. */
function block(name: string): string {
  const found = new RegExp(`\`\`\`sh\\n# ${name}\\n([\\s\\S]*?)\`\`\``).exec(README);
  if (!found) throw new Error(`no block "${name}"`);
  return found[1]!;
}
const shell = (name: string): string =>
  execFileSync('sh', ['-c', block(name)], { cwd: root, encoding: 'utf8' });

it('holds the table of what verify finds', () => {
  const found = /<!-- verify ids: [^>]*-->\n([\s\S]*?)\n?<!-- \/verify ids -->/.exec(README);
  expect(found?.[1]).toBe(verifyTable());
});

it('names every kind of event and its members', () => {
  const { options } = (
    eventSchema as unknown as {
      def: { options: { shape: Record<string, { def?: { values?: string[] } }> }[] };
    }
  ).def;
  expect(options.length).toBeGreaterThan(10);
  const section = README.slice(README.indexOf('| kind |'), README.indexOf('A reading has'));
  for (const { shape } of options) {
    const kind = shape.kind!.def!.values![0]!;
    const row = section.split('\n').find((each) => each.split('|')[1]?.includes(`\`${kind}\``));
    expect(row, kind).toBeDefined();
    for (const member of Object.keys(shape))
      if (!['v', 'n', 'at', 'by', 'bench', 'kind', 'prev', 'hash'].includes(member))
        expect(row, `${kind}: ${member}`).toContain(`\`${member}\``);
  }
});

it.each(['lines', 'node'])(
  'its command "%s" passes a whole journal and names the line of a changed one',
  (name) => {
    expect(shell(name)).toBe(`4 lines, last hash ${last}\n`);
    const good = readFileSync(file, 'utf8');
    writeFileSync(file, good.replace('1220.7', '1220.6'));
    expect(shell(name)).toContain('line 3 was changed');
    writeFileSync(file, good.split('\n').toSpliced(1, 1).join('\n'));
    expect(shell(name)).toContain('line 2 does not follow');
    writeFileSync(file, good);
  },
);

it('its other commands read the journal, and find a changed source', () => {
  expect(shell('sources')).toBe('');
  const hash = realDisk.list(join(root, 'logs/sources'))[0]!;
  writeFileSync(join(root, 'logs/sources', hash), 'format: y\n');
  expect(shell('sources')).toBe(`logs/sources/${hash} was changed\n`);
  if (!tool('jq')) {
    console.log('jq is not installed: the block "read" was not run');
    return;
  }
  expect(shell('read').split('\n')[0]).toContain('\topened\t');
});

function tool(name: string): boolean {
  try {
    execFileSync(name, ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}
