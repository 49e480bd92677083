/** PINs stand apart from all that is read or kept; a name is erased, and no journal changes. All data is invented. */
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { hashPin } from '../../src/store/pins.js';
import { openWorkshop } from '../../src/store/workshop.js';
import { command } from '../errors/museum.js';
import { portsOf, remove, startClock, work, workshop } from '../tui/realbench.js';

let root: string;
beforeEach(() => {
  root = workshop();
});
afterEach(() => remove(root));

const people = () => join(root, 'shared/people.yaml');
const pinOf = (id: string): string | undefined => {
  const opened = openWorkshop(root, realDisk);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  return opened.value.rules.people.find((person) => person.id === id)?.pin;
};
const journals = (): string[] =>
  readdirSync(join(root, 'logs'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.jsonl') || name.startsWith('sources/'))
    .sort()
    .map((name) => `${name} ${readFileSync(join(root, 'logs', name), 'utf8')}`);

/** Builds a few steps, so that names are kept. */
function begun(): void {
  const clock = startClock();
  const ports = portsOf(root, clock);
  expect(ports.open('P01-1').kind).toBe('open');
  work(ports, clock, (action) => action.do === 'answer' && action.check.startsWith('stock.kit'));
  ports.close();
}

it('sets a PIN, typed twice, after the one before it or that of somebody who may assess', async () => {
  expect(await command(root, ['person', 'pin', 'tf'], ['2468', '2468'])).toMatchObject({ code: 0 });
  expect(pinOf('tf')).toMatch(/^[0-9a-f]{32}:[0-9a-f]{64}$/);
  expect(statSync(join(root, 'keys/pins.json')).mode & 0o077).toBe(0);
  expect(await command(root, ['person', 'pin', 'tf'], ['1111', '1357', '1357'])).toMatchObject({ code: 1 });
  expect(await command(root, ['person', 'pin', 'tf'], ['2468', '1357', '1357'])).toMatchObject({ code: 0 });
  const given = await command(root, ['person', 'pin', 'tf', '--by', 'ot'], ['2705', '8642', '8642']);
  expect(given).toMatchObject({ code: 0 });
  expect(given.text).not.toMatch(/8642|2705/);
  expect(readFileSync(people(), 'utf8')).not.toMatch(/^ +pin:/m);
});

it('moves the PINs of an older workshop, and all else in the file stays as it was', async () => {
  const before = readFileSync(people(), 'utf8');
  const hash = hashPin('1234');
  const old = before
    .replace('name: Teo Farrant\n', `name: Teo Farrant\n    pin: "${hash}"\n`)
    .replace(/$/, `  - {id: zz, initials: ZZ, name: Zora Zell, levels: {all: 3}, pin: "${hash}"}\n`);
  writeFileSync(people(), old);
  expect(pinOf('tf')).toBe(hash);
  expect((await command(root, ['lint'])).text).toContain('[pins.in-people]');
  expect(await command(root, ['person', 'move-pins'])).toMatchObject({ code: 0 });
  expect(readFileSync(people(), 'utf8')).toBe(
    old.replace(`    pin: "${hash}"\n`, '').replace(`, pin: "${hash}"`, ''),
  );
  expect([pinOf('tf'), pinOf('zz'), pinOf('ot') === undefined]).toEqual([hash, hash, false]);
  expect(await command(root, ['lint'])).toMatchObject({ code: 0 });
});

it('erases the name of somebody who left: the records show the id, verify notes it, no journal changes', async () => {
  begun();
  const printed = (await command(root, ['record', 'P01-1'])).out;
  expect(printed).toContain('Joan Bexley (JB)');
  const file = join(root, '..', 'before.txt');
  writeFileSync(file, `${printed}\n`);
  expect((await command(root, ['person', 'erase', 'jb', '--by', 'ot'], ['2705'])).text).toContain(
    '[person.listed]',
  );
  writeFileSync(people(), readFileSync(people(), 'utf8').replace(/ {2}- id: jb\n(?: {4}.*\n)+/, ''));
  const before = journals();
  expect(await command(root, ['person', 'erase', 'jb', '--by', 'ot'], ['1111'])).toMatchObject({ code: 1 });
  expect(await command(root, ['person', 'erase', 'jb', '--by', 'ot'], ['2705'])).toMatchObject({ code: 0 });
  expect(journals()).toEqual(before);
  for (const format of ['text', 'html', 'json', 'csv']) {
    const { out } = await command(root, ['record', 'P01-1', '--format', format]);
    expect(out, format).toContain('jb (name erased)');
    expect(out, format).not.toContain('Bexley');
  }
  expect(await command(root, ['verify'])).toMatchObject({
    code: 0,
    text: expect.stringContaining('The name of jb was erased on'),
  });
  // A document that was printed before holds the name, and all else of it is looked at.
  const { code, text } = await command(root, ['verify', file]);
  expect({ code, text }).toMatchObject({ code: 0, text: expect.stringContaining('[verify.document-told]') });
  writeFileSync(file, readFileSync(file, 'utf8').replace(/\bpass\b/, 'FAIL'));
  expect(await command(root, ['verify', file])).toMatchObject({ code: 1 });
  expect((await command(root, ['person', 'erase', 'jb', '--by', 'ot'], ['2705'])).text).toContain(
    '[person.unknown]',
  );
  // A name cannot be given to somebody else's id, and nobody else's erasure stands for it.
  writeFileSync(file, printed.replaceAll('Joan Bexley (JB)', 'Mira Volkov (MV)'));
  expect(await command(root, ['verify', file])).toMatchObject({ code: 1 });
  const names = join(root, 'logs/names');
  const kept = readdirSync(names).map((name) => join(names, name));
  const [mira] = kept.filter((name) => readFileSync(name, 'utf8').includes('Mira'));
  const [erased] = kept.filter((name) => readFileSync(name, 'utf8').includes('"erased"'));
  writeFileSync(mira!, readFileSync(erased!));
  expect(await command(root, ['verify'])).toMatchObject({
    code: 1,
    text: expect.stringContaining('[verify.name-changed]'),
  });
});
