/** logs/README.md is true: its table is the code's, every event is in it, and its commands check a real journal. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { makeJobSeal, writeJobSeal } from '../../src/store/jobseal.js';
import { Journal } from '../../src/store/journal.js';
import { benchKey, newBenchKey } from '../../src/store/key.js';
import { enter } from '../../src/store/register/enter.js';
import { verifyTable } from '../../src/store/verifymessages.js';
import { canonicalText, chainHash } from '../../src/unit/chain.js';
import { eventSchema } from '../../src/unit/events.js';
import { sealOn } from '../../src/unit/sealing.js';
import { withoutRegister } from '../registerless.js';
import { measured, noted, opened, stamp } from './samples.js';

const README = readFileSync(resolve(import.meta.dirname, '../../logs/README.md'), 'utf8');
let root: string;
let file: string;
let last: string;

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  file = join(root, 'logs/pier-house/P01-1.jsonl');
  const sources = pinSources(realDisk, root, { limits: 'format: x\n' });
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
      if (!['v', 'n', 'at', 'by', 'bench', 'kind', 'basis', 'prev', 'hash'].includes(member))
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

it('its command "register" names a line that a register knows otherwise', ({ skip }) => {
  if (!tool('jq')) skip('jq is not installed');
  const heads = [{ file: 'logs/pier-house/P01-1.jsonl', events: 4, hash: last }];
  const entered = enter(realDisk, root, stamp(4), [{ kind: 'heads', on: 'left', heads }]);
  expect(entered.ok).toBe(true);
  expect(shell('register')).toBe('');
  const good = readFileSync(file, 'utf8');
  writeFileSync(file, good.split('\n').slice(0, 3).join('\n'));
  expect(shell('register')).toContain('line 4 of logs/pier-house/P01-1.jsonl is not the one');
  writeFileSync(file, good);
  withoutRegister(root);
});

describe('its commands for seals', () => {
  const wanting = ['jq', 'xxd', 'base64', 'openssl'].filter((name) => !tool(name));
  let id: string;
  beforeAll(() => {
    const made = newBenchKey(realDisk, root, 'bench-1');
    const key = benchKey(realDisk, root, 'bench-1');
    const journal = Journal.open(realDisk, root, 'pier-house', 'P01-1');
    if (!made.ok || !key.ok || !key.value || !journal.ok) throw new Error('cannot sign');
    id = made.value.id;
    const signer = key.value;
    journal.value.append([{ kind: 'finished', steps: 1, checks: 2 }], stamp(2), (end) => sealOn(end, signer));
    const end = journal.value.events.at(-1)!;
    journal.value.close();
    const units = [{ unit: 'P01-1', lines: end.n, hash: end.hash }];
    writeJobSeal(realDisk, root, makeJobSeal('pier-house', units, { ...stamp(3), signer }));
  });

  it('pass what was signed, and name what was not', ({ skip }) => {
    if (wanting.length > 0) skip(`not on this machine: ${wanting.join(', ')}`);
    expect(shell('signature')).toBe(`line 6: signed with key ${id}\n`);
    expect(shell('job')).toBe('job signed\n');
    const good = readFileSync(file, 'utf8');
    // Written anew from line 2 on: every hash follows, only the signature does not.
    let prev = '';
    const forged = good
      .trimEnd()
      .split('\n')
      .map((line, i) => {
        const event = JSON.parse(line) as Record<string, string>;
        if (i > 1) event.prev = prev;
        if (i === 1) event.text = 'kinder';
        if (event.kind === 'sealed') event.head = prev;
        event.hash = chainHash(event);
        prev = event.hash;
        return `${canonicalText(event)}\n`;
      })
      .join('');
    writeFileSync(file, forged);
    expect(shell('lines')).toBe(`6 lines, last hash ${prev}\n`);
    expect(shell('signature')).toBe(`line 6: NOT signed by key ${id}\n`);
    expect(shell('job')).toContain('P01-1 is not as it was sealed');
    writeFileSync(file, good);
  });
});

function tool(name: string): boolean {
  try {
    execFileSync('sh', ['-c', `command -v ${name}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}
