/** Workshop folders: opened, refused with every problem and its place, made new; people, PINs, sources, evidence. */
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { run } from '../../src/commands/init.js';
import { parseHouse, parsePeople } from '../../src/store/company.js';
import { realDisk } from '../../src/store/disk.js';
import { readWorkshopFile } from '../../src/store/filecollection.js';
import { testLogsFolder } from '../../src/store/files.js';
import { LARGEST_EVIDENCE, pinSources, readEvidence, readSource } from '../../src/store/hashed.js';
import { makeWorkshop, shippedFolder } from '../../src/store/makeworkshop.js';
import { isFileName, journalPlace } from '../../src/store/paths.js';
import { hashPin, pinMatches } from '../../src/store/pins.js';
import { openWorkshop } from '../../src/store/workshop.js';
import { keepEvidence } from './keepevidence.js';

const REPOSITORY = resolve(import.meta.dirname, '../..');
let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  cpSync(join(REPOSITORY, 'shared'), join(root, 'shared'), { recursive: true });
  cpSync(join(REPOSITORY, 'procedures'), join(root, 'procedures'), { recursive: true });
});
afterEach(() => rmSync(root, { recursive: true, force: true }));
const put = (file: string, text: string | Buffer): void => writeFileSync(join(root, file), text);
const shared = (file: string): string => readFileSync(join(root, 'shared', file), 'utf8');

describe('the demonstration workshop', () => {
  it('opens to look back without its set-ups, whatever has become of them', () => {
    put('shared/setups.yaml', 'format: x\n');
    expect(openWorkshop(root, realDisk)).toMatchObject({ ok: false, problems: [{ id: 'file.schema' }, {}] });
    const made = openWorkshop(root, realDisk, { back: true });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    expect(made.value.setups).toBeUndefined();
    expect(made.value.instruments.length).toBeGreaterThan(5);
  });
  it('opens, with its people, rules and instruments', () => {
    const made = openWorkshop(root, realDisk);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const { rules, instruments, jobs, procedures, profileSets } = made.value;
    expect(rules.people.map(({ id }) => id)).toEqual(expect.arrayContaining(['jb', 'ot', 'mv', 'tf', 'ek']));
    expect(rules.people[1]!.levels.all).toBe(5);
    expect(rules.people.find(({ id }) => id === 'tf')!.levels.all).toBe(2);
    expect(rules).toMatchObject({
      decisionRule: { kind: 'simple' },
      units: 'mm',
      soloRelease: { minutes: 15, evidence: true },
    });
    expect(instruments.length).toBeGreaterThan(5);
    expect(rules.people.every(({ pin }) => pin === undefined)).toBe(true);
    expect(jobs.names).toContain('pier-house');
    expect(procedures.names).toContain('casement');
    expect(profileSets.names).toContain('w52');
  });

  it('gives a job, a profile set and a procedure by name, once read', () => {
    const made = openWorkshop(root, realDisk);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const job = made.value.jobs.get('pier-house');
    if (!job.ok) throw new Error(JSON.stringify(job.problems));
    expect(job.value.value.units.length).toBeGreaterThanOrEqual(6);
    expect(job.value.source.text).toBe(shared('jobs/pier-house.yaml'));
    expect(made.value.jobs.get('pier-house')).toBe(job);
    expect(made.value.jobs.get('no-such')).toMatchObject({
      ok: false,
      problems: [{ id: 'workshop.unknown' }],
    });
    expect(made.value.problems()).toEqual([]);
  });
});

describe('a workshop that is not right', () => {
  const problems = (): { id: string; place?: object }[] => {
    const made = openWorkshop(root, realDisk);
    return made.ok ? made.value.problems() : [...made.problems];
  };

  it('names every one of its four files that cannot be used', () => {
    rmSync(join(root, 'shared/limits.yaml'));
    put(
      'shared/people.yaml',
      'format: pinchrod-people 1\npeople:\n  - {id: a, initials: A, name: A, levels: {frame: 3}}\n',
    );
    put('shared/instruments.yaml', 'format: [\n');
    expect(problems()).toMatchObject([
      { id: 'file.schema', place: { file: 'shared/people.yaml', line: 3 } },
      { id: 'workshop.missing', place: { file: 'shared/limits.yaml' } },
      { id: 'file.yaml', place: { file: 'shared/instruments.yaml' } },
    ]);
  });

  it('keeps a broken job from nobody but itself', () => {
    put('shared/jobs/broken.yaml', 'format: pinchrod-job 1\n');
    put('shared/jobs/other-name.yaml', shared('jobs/pier-house.yaml'));
    put('shared/jobs/pier-house.yml', shared('jobs/pier-house.yaml'));
    const made = openWorkshop(root, realDisk);
    expect(made.ok && made.value.jobs.get('pier-house').ok).toBe(true);
    const ids = problems().map(({ id }) => id);
    expect(ids).toContain('file.schema');
    expect(ids).toContain('workshop.name');
    expect(ids).toContain('workshop.twice');
  });

  it('is no workshop at all: says how to get one', () => {
    const made = openWorkshop(join(root, 'no-such'), realDisk);
    expect(made).toMatchObject({ ok: false });
    if (!made.ok) expect(made.problems[0]!.todo).toContain('pinchrod init');
  });
});

describe('a workshop file', () => {
  const id = (file: string): string => {
    const read = readWorkshopFile(realDisk, root, file);
    return read.ok ? 'read' : read.problems[0]!.id;
  };

  it('is refused by size before it is read, and where it is no text', () => {
    put('shared/big.yaml', Buffer.alloc(2_000_001, 0x61));
    put('shared/latin.yaml', Buffer.from([0x61, 0xe9, 0x0a]));
    put('shared/nul.yaml', 'a\0b');
    put('shared/bom.yaml', '\ufeffformat: x\r\n');
    mkdirSync(join(root, 'shared/folder.yaml'));
    expect(['big', 'latin', 'nul', 'folder', 'none'].map((name) => id(`shared/${name}.yaml`))).toEqual([
      'workshop.too-large',
      'workshop.not-text',
      'workshop.not-text',
      'workshop.not-a-file',
      'workshop.missing',
    ]);
    expect(readWorkshopFile(realDisk, root, 'shared/bom.yaml')).toMatchObject({
      ok: true,
      value: { text: 'format: x\r\n' },
    });
  });

  it('is not followed out of the workshop, by link or by dots', () => {
    const outside = mkdtempSync(join(tmpdir(), 'pinchrod-'));
    writeFileSync(join(outside, 'a.yaml'), 'format: x\n');
    symlinkSync(join(outside, 'a.yaml'), join(root, 'shared/link.yaml'));
    symlinkSync(outside, join(root, 'shared/elsewhere'));
    symlinkSync('limits.yaml', join(root, 'shared/inside.yaml'));
    symlinkSync('nowhere', join(root, 'shared/dangling.yaml'));
    expect(id('shared/link.yaml')).toBe('workshop.outside');
    expect(id('shared/elsewhere/a.yaml')).toBe('workshop.outside');
    expect(id('../../../etc/hostname')).toMatch(/outside|missing/);
    expect(id('shared/inside.yaml')).toBe('read');
    expect(id('shared/dangling.yaml')).toBe('disk.gone');
    rmSync(outside, { recursive: true });
  });

  it('names of jobs and units can only be names', () => {
    for (const bad of [
      '',
      '.',
      '..',
      '../x',
      'a/b',
      'a\\b',
      'a..b',
      '-a',
      'a\n',
      'CON',
      'nul.txt',
      'a.',
      'sources',
      'ü',
      'x'.repeat(61),
    ]) {
      expect(isFileName(bad), bad).toBe(false);
      expect(journalPlace(root, 'pier-house', bad).ok).toBe(false);
      expect(journalPlace(root, bad, 'P01-1').ok).toBe(false);
    }
    expect(isFileName('P01-1')).toBe(true);
  });
});

describe('people and house rules', () => {
  const people = (rest: string) =>
    parsePeople({ file: 'people.yaml', text: `format: pinchrod-people 1\npeople:\n${rest}` });
  const JB = '  - {id: jb, initials: JB, name: J, levels: {all: 3}}\n';

  it('refuses a PIN in the clear, a name twice, a level that is none, control characters', () => {
    const ids = (rest: string): unknown => {
      const read = people(rest);
      return read.ok ? 'read' : read.problems.map((each) => [each.id, each.place?.line]);
    };
    expect(ids(JB)).toBe('read');
    expect(ids(JB.replace('name: J', 'name: J, pin: "2705"'))).toEqual([['file.schema', 3]]);
    expect(ids(JB + JB.replace('id: jb', 'id: jc').replace('JB', 'jb'))).toEqual([['workshop.twice', 4]]);
    expect(ids(JB.replace('all: 3', 'all: 6'))).toEqual([['file.schema', 3]]);
    expect(ids(JB.replace('name: J', 'name: "J\\e[2J"'))).toEqual([['file.control', 3]]);
  });

  it('reads a guarded decision rule, and prints empty what is empty', () => {
    const read = parseHouse({
      file: 'workshop.yaml',
      text: 'format: pinchrod-workshop 1\nname: X\nbench: b\ndecisionRule: {guarded: 0.83}\n',
    });
    expect(read.ok && read.value.rules.decisionRule).toEqual({ kind: 'guarded', factor: 0.83 });
    expect(read.ok && read.value.rules.soloRelease).toBeUndefined();
    expect(read.ok && read.value.particulars.declarationNumber).toBe('');
  });

  it('a PIN matches its hash and no other; two hashes of one PIN differ', () => {
    const pin = hashPin('4711');
    expect(pin).toMatch(/^[0-9a-f]{32}:[0-9a-f]{64}$/);
    expect(pinMatches({ pin }, '4711')).toBe(true);
    for (const wrong of ['', '4712', '04711', '4711 ']) expect(pinMatches({ pin }, wrong)).toBe(false);
    expect(pinMatches({ pin: 'x' }, 'x')).toBe(false);
    expect(hashPin('4711')).not.toBe(pin);
  });
});

describe('what is kept by content', () => {
  it('a source is written once, read back against its name, and mended when it is frozen again', () => {
    const first = pinSources(realDisk, root, { limits: 'one\n', job: 'two\n', again: 'one\n' });
    expect(first.limits).toBe(first.again);
    expect(readdirSync(join(root, 'logs/sources')).sort()).toEqual([first.limits, first.job].sort());
    expect(readSource(realDisk, root, first.job!)).toMatchObject({ ok: true, value: 'two\n' });
    put(`logs/sources/${first.job}`, 'three\n');
    expect(readSource(realDisk, root, first.job!)).toMatchObject({
      ok: false,
      problems: [{ id: 'source.changed' }],
    });
    pinSources(realDisk, root, { job: 'two\n' });
    expect(readSource(realDisk, root, first.job!)).toMatchObject({ ok: true, value: 'two\n' });
    rmSync(join(root, 'logs/sources', first.job!));
    expect(readSource(realDisk, root, first.job!)).toMatchObject({ problems: [{ id: 'source.missing' }] });
    expect(readSource(realDisk, root, '../../shared/people.yaml')).toMatchObject({
      problems: [{ id: 'source.missing' }],
    });
  });

  it('evidence is copied, and refused where it is no ordinary file', () => {
    put('a photo.jpg', 'x');
    put('empty.jpg', '');
    symlinkSync('/etc/hostname', join(root, 'link.jpg'));
    const kept = keepEvidence(realDisk, root, 'pier-house', join(root, 'a photo.jpg'));
    if (!kept.ok) throw new Error(JSON.stringify(kept.problems));
    expect(kept.value).toMatchObject({ name: 'a photo.jpg', bytes: 1 });
    expect(readEvidence(realDisk, root, 'pier-house', kept.value)).toMatchObject({ ok: true });
    put(`logs/pier-house/evidence/${kept.value.sha256}`, 'y');
    expect(readEvidence(realDisk, root, 'pier-house', kept.value)).toMatchObject({
      problems: [{ id: 'evidence.changed' }],
    });
    // Kept again, it is mended where it was changed, and not written anew where it is whole.
    const again = () => keepEvidence(realDisk, root, 'pier-house', join(root, 'a photo.jpg'));
    expect(again()).toEqual(kept);
    const whole = readFileSync(join(root, 'logs/pier-house/evidence', kept.value.sha256), 'utf8');
    const { ino } = statSync(join(root, 'logs/pier-house/evidence', kept.value.sha256));
    expect([whole, again().ok]).toEqual(['x', true]);
    expect(statSync(join(root, 'logs/pier-house/evidence', kept.value.sha256)).ino).toBe(ino);
    rmSync(join(root, 'logs/pier-house/evidence', kept.value.sha256));
    expect(readEvidence(realDisk, root, 'pier-house', kept.value)).toMatchObject({
      problems: [{ id: 'evidence.missing' }],
    });
    put('film.mp4', '');
    truncateSync(join(root, 'film.mp4'), LARGEST_EVIDENCE + 1);
    for (const bad of ['empty.jpg', 'link.jpg', 'none.jpg', 'shared', 'film.mp4', 'a\0b'])
      expect(keepEvidence(realDisk, root, 'pier-house', join(root, bad)), bad).toMatchObject({
        problems: [{ id: 'evidence.refused' }],
      });
    expect(keepEvidence(realDisk, root, '../x', join(root, 'a photo.jpg')).ok).toBe(false);
  });

  it('the logs folder is tested and left clean', () => {
    expect(testLogsFolder(realDisk, root)).toBeUndefined();
    expect(readdirSync(join(root, 'logs'))).toEqual([]);
  });
});

describe('a new workshop', () => {
  const init = async (...args: string[]): Promise<{ code: number; text: string }> => {
    const said: string[] = [];
    const say = (text: string): void => void said.push(text);
    return { code: await run(args, { workshop: root, out: say, err: say }), text: said.join('\n') };
  };

  it('is made from the shipped one, opens, and is never made over another', async () => {
    expect(shippedFolder()).toMatchObject({ ok: true, value: REPOSITORY });
    const to = join(root, 'mine');
    expect(await init(to, '--demonstration')).toMatchObject({ code: 0 });
    expect(openWorkshop(to, realDisk).ok).toBe(true);
    expect(existsSync(join(to, 'logs/README.md'))).toBe(true);
    put('mine/shared/people.yaml', 'my own');
    const again = await init(to, '--demonstration');
    expect(again.code).toBe(2);
    expect(again.text).toContain('[init.there]');
    expect(readFileSync(join(to, 'shared/people.yaml'), 'utf8')).toBe('my own');
    expect((await init()).code).toBe(2);
    expect(JSON.parse((await init(join(root, 'other'), '--demonstration', '--json')).text).files).toContain(
      'shared/limits.yaml',
    );
  });

  it('is refused where one of its names is there, before anything is written', () => {
    mkdirSync(join(root, 'half/procedures'), { recursive: true });
    expect(makeWorkshop(realDisk, REPOSITORY, join(root, 'half'))).toMatchObject({
      problems: [{ id: 'init.there' }],
    });
    expect(readdirSync(join(root, 'half'))).toEqual(['procedures']);
    put('file', 'x');
    expect(makeWorkshop(realDisk, REPOSITORY, join(root, 'file'))).toMatchObject({
      problems: [{ id: 'init.there' }],
    });
    expect(makeWorkshop(realDisk, REPOSITORY, join(root, 'no', 'parent'))).toMatchObject({
      problems: [{ id: 'disk.gone' }],
    });
    expect(makeWorkshop(realDisk, join(root, 'half/procedures'), join(root, 'new'))).toMatchObject({
      problems: [{ id: 'init.no-source' }],
    });
  });
});
