/**
 * Frozen means frozen: a record made again at one fixed time is the same, byte for byte, whatever was changed in the
 * workshop since, and a release stays in it whatever came after.
 */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawn, FORMATS, type Format, ofUnit, ofUnits } from '../../src/commands/documents.js';
import { type LoadedUnit, loadUnit } from '../../src/commands/unitload.js';
import { pdfTexts } from '../../src/record/pdfdiffer.js';
import type { RecordView } from '../../src/record/schema.js';
import { proveSetups } from '../../src/session/setups.js';
import { realDisk } from '../../src/store/disk.js';
import { hashPin, writePins } from '../../src/store/pins.js';
import { openWorkshop, type Workshop } from '../../src/store/workshop.js';
import { command } from '../errors/museum.js';
import { buildUnit, eightUnits, JOB, jobFile, portsAt, UNITS } from './eight.js';

const AT = '2026-06-01T12:00:00.000Z';
let model: string;
let before: Map<string, string>;
const folders: string[] = [];

beforeAll(async () => {
  model = eightUnits();
  before = await rendered(model);
}, 300_000);
afterAll(() => {
  for (const folder of [model, ...folders]) rmSync(join(folder, '..'), { recursive: true, force: true });
});

/** A copy of the workshop, to be changed. */
function copy(): string {
  const root = join(mkdtempSync(join(tmpdir(), 'pinchrod-')), 'shop');
  cpSync(model, root, { recursive: true });
  folders.push(root);
  return root;
}

function opened(root: string): Workshop {
  const workshop = openWorkshop(root, realDisk, { back: true });
  if (!workshop.ok) throw new Error(JSON.stringify(workshop.problems));
  return workshop.value;
}

function loaded(workshop: Workshop, unit: string): LoadedUnit {
  const made = loadUnit(realDisk, workshop, { job: JOB, unit }, AT);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

/** Every document of every unit, and the job's, in every format, by "FORMAT UNIT". */
async function rendered(root: string, formats: readonly Format[] = FORMATS): Promise<Map<string, string>> {
  const workshop = opened(root);
  const out = new Map<string, string>();
  const units = UNITS.map((unit) => loaded(workshop, unit));
  const text = async (format: Format, of: Parameters<typeof drawn>[1]) =>
    Buffer.from(await drawn(format, of)).toString('latin1');
  for (const format of formats)
    for (const unit of units)
      out.set(
        `${format} ${unit.unit}`,
        await text(format, ofUnit(workshop, unit, { at: AT, initials: false }, 'unit')),
      );
  out.set('initials', await text('html', ofUnit(workshop, units[1]!, { at: AT, initials: true }, 'unit')));
  out.set(
    'particulars',
    await text('text', ofUnit(workshop, units[1]!, { at: AT, initials: false }, 'particulars')),
  );
  const job = ofUnits(workshop, units, { at: AT, initials: false }, { asked: { job: JOB } });
  out.set('job', await text('text', job));
  return out;
}

function edit(root: string, file: string, change: (text: string) => string): void {
  const path = join(root, file);
  const text = readFileSync(path, 'utf8');
  const changed = change(text);
  expect(changed, file).not.toBe(text);
  writeFileSync(path, changed);
}

const CHANGES: Readonly<Record<string, (root: string) => void>> = {
  'instruments are calibrated anew': (root) =>
    edit(root, 'shared/instruments.yaml', (text) =>
      text
        .replace(/calibrated: 20\d\d/g, 'calibrated: 2028')
        .replace(/due: 20\d\d/g, 'due: 2031')
        .replace(/certificate: C-\d\d/g, 'certificate: C-99')
        .replace(/maxError: 0/g, 'maxError: 1'),
    ),
  'instruments are retired': (root) =>
    edit(root, 'shared/instruments.yaml', (text) => text.replace(/^ {2}- \{id: (T1|R1|F1|C1|E1),.*\n/gm, '')),
  'somebody leaves': (root) =>
    edit(root, 'shared/people.yaml', (text) => text.replace(/ {2}- id: mv\n(?: {4}.*\n)+/, '')),
  'somebody is called otherwise': (root) =>
    edit(root, 'shared/people.yaml', (text) =>
      text.replace('initials: JB\n    name: Joan Bexley', 'initials: JH\n    name: Joan Hartley'),
    ),
  'a PIN is changed': (root) => {
    expect(writePins(realDisk, root, { ot: hashPin('9999') }).ok).toBe(true);
  },
  'a limit is edited': (root) =>
    edit(root, 'shared/limits.yaml', (text) => text.replace(/(most|within): (\d)/g, '$1: 9$2')),
  'the procedure is edited': (root) =>
    edit(root, 'procedures/casement.yaml', (text) =>
      text.replace(/^version: .*$/m, 'version: "99"').replace(/^( +title: .*)$/gm, '$1, otherwise'),
    ),
  'the profile set is edited': (root) =>
    edit(root, 'shared/profile-sets/w52.yaml', (text) => text.replace(/^title: .*$/m, 'title: another set')),
  'the job is edited': (root) =>
    writeFileSync(
      join(root, `shared/jobs/${JOB}.yaml`),
      jobFile({ revision: 'C', customer: 'B. Wren (invented)', width: 810 }),
    ),
  'a set-up is edited, and its journal is lost': (root) => {
    edit(root, 'shared/setups.yaml', (text) => text.replace(/ask: /g, 'ask: Now, '));
    rmSync(join(root, 'logs/setups.jsonl'));
  },
  'the rule of judging and the maker are edited': (root) =>
    edit(root, 'shared/workshop.yaml', (text) =>
      text
        .replace(/decisionRule: .*/, 'decisionRule: {guarded: 1}')
        .replace(/maker: .*/, 'maker: Another Maker (invented)')
        .replace(/openingTriangle: .*/, 'openingTriangle: apex-at-handle'),
    ),
};

describe('a record made again is the same, byte for byte, after', () => {
  it.each(Object.keys(CHANGES))('%s', async (change) => {
    const root = copy();
    CHANGES[change]!(root);
    const after = await rendered(root);
    expect([...after.keys()]).toEqual([...before.keys()]);
    for (const [name, bytes] of after)
      if (bytes !== before.get(name)) {
        const [was, is] = [before.get(name)!, bytes].map((text) => text.split('\n'));
        const line = was!.findIndex((each, i) => each !== is![i]);
        expect(is![line]?.slice(0, 300), `${name}, line ${line + 1}`).toBe(was![line]?.slice(0, 300));
        expect.unreachable(name);
      }
  });
});

/** Snags the unit after its release; what was made is not touched. */
function complain(root: string, unit: string, after: 'nothing' | 'repair' = 'nothing'): void {
  const clock = { ms: Date.UTC(2026, 3, 1, 9) };
  const ports = portsAt(root, clock);
  expect(ports.open(`${JOB}/${unit}`).kind).toBe('open');
  const act = (action: Parameters<typeof ports.act>[0], person = 'jb') => {
    clock.ms += 60_000;
    const acted = ports.act(action, { person });
    expect(acted.kind, JSON.stringify(acted)).toBe('done');
    return acted.kind === 'done' ? acted.events : [];
  };
  const [snag] = act({
    do: 'snag',
    severity: 'minor',
    cause: 'other',
    text: 'The customer complains of a scratch inside.',
  });
  if (after === 'repair') {
    act({ do: 'decide', snag: snag!.n, disposition: 'repair', reason: 'polish it', pin: '2705' }, 'ot');
    const last = ports.world().open!.state.route.steps.at(-1)!.id;
    act({ do: 'rework', step: last, reason: 'unloaded, polished, loaded again' });
    const { length } = ports.world().open!.state.route.steps;
    ports.close();
    buildUnit(root, unit, clock, (done) => done === length);
    expect(ports.open(`${JOB}/${unit}`).kind).toBe('open');
    act({ do: 'close', snag: snag!.n, note: 'polished, looked at' }, 'ot');
  }
  ports.close();
}

const CHAPTER = /\nAFTER RELEASE\n-+\n[\s\S]*$/;
const FIRST_PAGE = /\n[!-] Closed [^\n]*\n(?: {2}[^\n]*\n)*/;
const recordOf = (root: string, unit: string): RecordView =>
  ofUnit(opened(root), loaded(opened(root), unit), { at: AT, initials: false }, 'unit').records[0]!;

describe('after a complaint', () => {
  let root: string;
  let after: Map<string, string>;
  beforeAll(async () => {
    root = copy();
    for (const unit of UNITS) complain(root, unit);
    after = await rendered(root);
  }, 120_000);

  /** The first page says how the unit stands now, too: in its verdict and in the line below. */
  const verdictLess = (text: string) =>
    text.replaceAll('Finished and released; since then NOT SETTLED', 'Finished and released');

  it('a text is the same up to the chapter, but for what its first page says of now', () => {
    for (const unit of UNITS) {
      const [was, is] = [before, after].map((of) => of.get(`text ${unit}`)!);
      expect(is).toMatch(CHAPTER);
      expect(is).toContain('*** Finished and released; since then NOT SETTLED ***');
      expect(verdictLess(is!).replace(CHAPTER, '').replace(FIRST_PAGE, '\n')).toBe(
        was!.replace(CHAPTER, '').replace(FIRST_PAGE, '\n'),
      );
      expect(FIRST_PAGE.exec(is!)![0]).toContain('After release: NOT SETTLED: 1 minor snag open.');
      expect(FIRST_PAGE.exec(was!)![0]).toContain('After release: nothing was recorded.');
    }
  });

  it('HTML is the same up to the chapter, but for that line and what verify reads', () => {
    const less = (html: string) =>
      verdictLess(html)
        .replace('class="verdict open"', 'class="verdict good"')
        .replace(/<meta name="pinchrod-record"[^>]*>/, '')
        .replace(/<p class="[a-z]*">[!-] (<a [^>]*>Closed [^.]*\. After release: )[^<]*/, '$1')
        .replace(/<section[^>]*>\n<h2[^>]*>After release<\/h2>[\s\S]*$/, '');
    for (const unit of UNITS) {
      const [was, is] = [before, after].map((of) => less(of.get(`html ${unit}`)!));
      expect(is!.length).toBeGreaterThan(20_000);
      expect(is).toBe(was);
    }
  });

  it('a PDF is the same, page by page, up to the page of the chapter', () => {
    const chapterless = (pdf: string) => {
      const texts = pdfTexts(Buffer.from(pdf, 'latin1'));
      return texts
        .slice(0, texts.lastIndexOf('After release'))
        .filter((each) => !/^(Closed 2026-.*|[!-])$/.test(each))
        .map(verdictLess);
    };
    for (const unit of UNITS) {
      const [was, is] = [before, after].map((of) => chapterless(of.get(`pdf ${unit}`)!));
      expect(is!.length).toBeGreaterThan(500);
      expect(is).toEqual(was);
    }
  });

  it('a spreadsheet is the same, and JSON but for the members of the chapter', () => {
    for (const unit of UNITS) {
      const rows = (csv: string) => (parse(csv) as string[][]).map((row) => row.slice(0, -2));
      expect(rows(after.get(`csv ${unit}`)!)).toEqual(rows(before.get(`csv ${unit}`)!));
      expect(after.get(`csv ${unit}`)).toContain('NOT SETTLED: 1 minor snag open');
      const [was, is] = [before, after].map((of) => {
        const { after: _a, told: _t, ...rest } = JSON.parse(of.get(`json ${unit}`)!);
        return rest;
      });
      expect(is).toEqual(was);
    }
  });

  it('the record says both: released then, and not settled now, by whom and when', () => {
    const { verdict, seal, after } = recordOf(root, 'M2-1');
    expect(verdict).toMatchObject({ line: 'Finished and released', finished: true });
    expect(seal).toMatchObject({ closed: true, signature: { by: 'bench-f' } });
    expect(after).toMatchObject({
      tone: 'open',
      says: 'NOT SETTLED: 1 minor snag open',
      entries: [
        { what: /^Snag \d+ raised$/ as never, by: 'Joan Bexley (JB)', at: '2026-04-01T09:01:00.000Z' },
      ].map((entry) => ({ ...entry, what: expect.stringMatching(/^Snag \d+ raised$/) })),
    });
  });

  it('the seal of the release verifies, and so does the document printed before the complaint', async () => {
    expect(await command(root, ['verify', JOB])).toMatchObject({ code: 0 });
    const file = join(root, 'before.html');
    writeFileSync(file, Buffer.from(before.get('html M2-1')!, 'latin1'));
    const { code, text } = await command(root, ['verify', file]);
    expect({ code, text }).toMatchObject({ code: 0, text: expect.stringContaining('1 more line') });
  });

  it('a job says that its units are released, and which are not settled', () => {
    const workshop = opened(root);
    const units = UNITS.map((unit) => loaded(workshop, unit));
    const { view } = ofUnits(workshop, units, { at: AT, initials: false }, { asked: { job: JOB } });
    expect(view.verdict).toMatchObject({ tone: 'open', finished: true });
    expect(view.verdict.line).toContain(
      'All 8 units are finished and released; after release, NOT SETTLED: M1-1',
    );
  });

  it('a unit that is scrapped after its release says so first, and its job wants the one in its place', async () => {
    const again = copy();
    const clock = { ms: Date.UTC(2026, 3, 1, 9) };
    const ports = portsAt(again, clock);
    ports.open(`${JOB}/M1-1`);
    const act = (action: Parameters<typeof ports.act>[0]) => {
      const acted = ports.act(action, { person: 'ot' });
      expect(acted.kind, JSON.stringify(acted)).toBe('done');
      return acted.kind === 'done' ? acted.events : [];
    };
    const [snag] = act({ do: 'snag', severity: 'critical', cause: 'glass', text: 'The pane fell out.' });
    expect(recordOf(again, 'M1-1').after!.says).toBe('NOT SETTLED: 1 critical snag open');
    act({ do: 'decide', snag: snag!.n, disposition: 'scrap', reason: 'not worth it', pin: '2705' });
    ports.close();
    const { text } = await command(again, ['record', 'M1-1']);
    expect(text).toContain('*** Finished and released; since then SCRAPPED ***');
    expect(text.replaceAll(/\s+/g, ' ')).toContain('After release: SCRAPPED: not to be delivered.');
    const job = await command(again, ['record', JOB]);
    expect(job.text).toContain('Unit not begun: M1-1R1.');
  });

  it('a repair and a second release stand in the chapter too', async () => {
    const again = copy();
    complain(again, 'M1-1', 'repair');
    const { verdict, seal, after } = recordOf(again, 'M1-1');
    expect(verdict.line).toBe('Finished and released');
    expect(after).toMatchObject({ tone: 'good', missing: [] });
    expect(after!.says).toMatch(/^1 snag; finished and released again 2026-04-0/);
    expect(after!.entries.map(({ what }) => what.replace(/\d+/, 'N'))).toEqual(
      expect.arrayContaining(['Snag N raised', 'Snag N decided', 'Snag N closed', 'Sealed']),
    );
    expect(seal.lines).toBeLessThan(after!.lines);
    const readings = after!.entries.filter(
      ({ says }) => says.startsWith('yes: pass') || says.startsWith('done: pass'),
    );
    expect(readings.length).toBeGreaterThan(0);
    const { code, text } = await command(again, ['record', 'M1-1', '--format', 'csv']);
    expect(code).toBe(0);
    writeFileSync(join(again, 'after.csv'), `${text}\r\n`);
    expect(await command(again, ['verify', join(again, 'after.csv')])).toMatchObject({
      code: 0,
      text: expect.not.stringContaining('more lines'),
    });
    writeFileSync(
      join(again, 'after.csv'),
      `${text.replaceAll('finished and released again', 'nothing came of it')}\r\n`,
    );
    expect(await command(again, ['verify', join(again, 'after.csv')])).toMatchObject({ code: 1 });
    expect(await command(again, ['verify', JOB])).toMatchObject({ code: 0 });
  });
});

it("a record needs none of today's files: not where they are spoilt, and not in an unpacked archive", async () => {
  const root = copy();
  const printed = join(root, 'before.html');
  writeFileSync(printed, Buffer.from(before.get('html M2-1')!, 'latin1'));
  await command(root, ['archive', JOB, '--out', join(root, '..', 'job.zip')]);
  for (const file of ['workshop', 'people', 'limits', 'instruments'])
    writeFileSync(join(root, `shared/${file}.yaml`), 'format: [');
  writeFileSync(join(root, 'keys/pins.json'), '{');
  rmSync(join(root, `shared/jobs/${JOB}.yaml`));
  const record = await command(root, ['record', 'M2-1']);
  expect(record).toMatchObject({ code: 0, text: expect.stringContaining('Joan Bexley (JB)') });
  expect(await command(root, ['verify', printed])).toMatchObject({ code: 0 });
  const unpacked = join(root, '..', 'unpacked');
  for (const [name, bytes] of Object.entries(unzipSync(readFileSync(join(root, '..', 'job.zip'))))) {
    const path = join(unpacked, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
  }
  const there = join(unpacked, JOB);
  expect(await command(there, ['record', 'M2-1'])).toMatchObject({ code: 0 });
  for (const name of readdirSync(join(there, 'documents')).filter((each) => each.includes('.'))) {
    const { code, text } = await command(there, ['verify', join(there, 'documents', name)]);
    expect({ code, text }, name).toMatchObject({ code: 0 });
  }
});

describe('what is kept is looked after', () => {
  it('the archive holds the first-offs that units rest on, their instruments, and people by name', async () => {
    const root = copy();
    const { code } = await command(root, ['archive', JOB, '--out', join(root, '..', 'job.zip')]);
    expect(code).toBe(0);
    rmSync(join(root, 'logs/setups.jsonl'));
    expect(recordOf(root, 'M2-1').setups!.map(({ id }) => id)).toContain('saw-1');
    const { files } = await import('../../src/store/archive.js').then(({ unpackFiles }) => {
      const read = unpackFiles(readFileSync(join(root, '..', 'job.zip')));
      if (!read.ok) throw new Error('damaged');
      return read.value;
    });
    const texts = [...files].filter(([name]) => name.startsWith('logs/sources/'));
    const holding = (what: string) => texts.filter(([, bytes]) => Buffer.from(bytes).includes(what)).length;
    expect(holding('"kind":"first-off"')).toBeGreaterThan(2);
    expect(holding('pinchrod-team 1')).toBe(1);
    expect(holding('pinchrod-instruments 2')).toBe(1);
    expect([...files.keys()].filter((name) => name.startsWith('logs/names/')).length).toBe(6);
    expect([...files.values()].some((bytes) => Buffer.from(bytes).includes('pinchrod-pins'))).toBe(false);
    for (const hash of readdirSync(join(root, 'logs/sources')))
      expect(readFileSync(join(root, 'logs/sources', hash)).includes('Joan'), hash).toBe(false);
  });

  it.each(['instruments', 'team', 'rules', 'maker'] as const)(
    'where the text of its %s is gone or changed, neither record nor verify goes on with other facts',
    async (kind) => {
      const root = copy();
      const file = join(root, 'before.html');
      writeFileSync(file, Buffer.from(before.get('html M2-1')!, 'latin1'));
      const [first] = loaded(opened(root), 'M2-1').state.events;
      const hash = first!.basis![kind]!;
      for (const spoil of [
        () => writeFileSync(join(root, 'logs/sources', hash), 'format: other\n'),
        () => rmSync(join(root, 'logs/sources', hash)),
      ]) {
        spoil();
        for (const args of [
          ['record', 'M2-1'],
          ['verify', file],
        ]) {
          const { code, text } = await command(root, args);
          expect({ code, text }).toMatchObject({ code: 1, text: expect.stringContaining(hash) });
        }
      }
    },
  );

  it('where a name is gone that nobody erased, a record says which', async () => {
    const root = copy();
    for (const name of readdirSync(join(root, 'logs/names')))
      if (readFileSync(join(root, 'logs/names', name), 'utf8').includes('Mira'))
        rmSync(join(root, 'logs/names', name));
    const { code, text } = await command(root, ['record', 'M2-1']);
    expect({ code, text }).toMatchObject({
      code: 1,
      text: expect.stringContaining('The name of mv is not there'),
    });
  });

  it('what lines rest on makes a journal longer by less than a tenth', () => {
    for (const unit of UNITS) {
      const text = readFileSync(join(model, `logs/${JOB}/${unit}.jsonl`), 'utf8');
      const without = text.replace(/"basis":\{(?:[^{}]|\{[^{}]*\})*\},/g, '');
      expect(without.length, unit).toBeLessThan(text.length);
      expect(text.length / without.length, unit).toBeLessThan(1.1);
    }
  });

  it.each<[string, (root: string) => void]>([
    ['removed', (root) => rmSync(join(root, 'logs/setups.jsonl'))],
    ['cut', (root) => edit(root, 'logs/setups.jsonl', (text) => `${text.split('\n')[0]}\n`)],
    [
      'written anew, with a first-off under the id that cuts cite',
      (root) => {
        rmSync(join(root, 'logs/setups.jsonl'));
        const ports = portsAt(root, { ms: Date.UTC(2026, 3, 10, 9) });
        expect(proveSetups(ports)[0]).toMatchObject({ ok: true });
        expect(readFileSync(join(root, 'logs/setups.jsonl'), 'utf8')).toMatch(/"n":1,.*"setup":"saw"/);
        ports.close();
      },
    ],
  ])('the journal of set-ups is found to be %s', async (_, attack) => {
    const root = copy();
    attack(root);
    const { code, text } = await command(root, ['verify']);
    expect(code).toBe(1);
    expect(text).toContain('[verify.setup-gone]');
    expect(await command(root, ['verify', JOB, 'M2-1'])).toMatchObject({ code: 1 });
  });

  it('a level that was raised for one release and put back leaves its trace in the record', async () => {
    const root = copy();
    const clock = { ms: Date.UTC(2026, 4, 4, 8) };
    writeFileSync(
      join(root, 'shared/jobs/mill-row.yaml'),
      `${jobFile()}  - {mark: M9, width: 800, height: 900, room: hall, layout: {light: fixed}}\n`,
    );
    buildUnit(root, 'M9-1', clock, (done) => done >= 3);
    edit(root, 'shared/people.yaml', (text) =>
      text.replace('levels: {all: 2, glaze: 1, dispatch: 1}', 'levels: {all: 5}'),
    );
    buildUnit(root, 'M9-1', clock, (done) => done >= 6);
    edit(root, 'shared/people.yaml', (text) =>
      text.replace(
        'name: Teo Farrant\n    levels: {all: 5}',
        'name: Teo Farrant\n    levels: {all: 2, glaze: 1, dispatch: 1}',
      ),
    );
    buildUnit(root, 'M9-1', clock, (done) => done >= 9);
    const workshop = opened(root);
    const unit = loadUnit(realDisk, workshop, { job: JOB, unit: 'M9-1' }, AT);
    if (!unit.ok) throw new Error('no unit');
    const events = unit.value.state.events.filter(({ basis }) => basis?.team !== undefined);
    expect(events).toHaveLength(3);
    const teams = events.map(({ basis }) => readFileSync(join(root, 'logs/sources', basis!.team!), 'utf8'));
    expect(teams[1]).toContain('{"id":"tf","levels":{"all":5}');
    expect(teams[2]).toBe(teams[0]);
  });
});
