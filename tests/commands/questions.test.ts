/**
 * What an auditor asks of a shop, each question with the command that answers it, over a workshop in which every answer is
 * known. First-pass yield and capability are figures over units and stand with those.
 */
import { Readable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import * as daybook from '../../src/commands/daybook.js';
import * as ledger from '../../src/commands/ledger.js';
import * as record from '../../src/commands/record.js';
import * as verify from '../../src/commands/verify.js';
import { ran } from './built.js';
import { type Troubled, troubledWorkshop } from './troubled.js';

vi.mock('node:os', async (real) => ({
  ...(await real<typeof import('node:os')>()),
  uptime: () => Date.now() / 1000,
}));

let shop: Troubled;
type Row = Readonly<Record<string, string>>;

async function written(pin: string, ...args: string[]): Promise<void> {
  const err: string[] = [];
  const io = {
    workshop: shop.root,
    out: () => undefined,
    err: (text: string) => void err.push(text),
    input: Readable.from([`${pin}\n`]),
  };
  expect(await daybook.run(args, io as never), err.join('\n')).toBe(0);
}

async function rows(name: string, ...args: string[]): Promise<Row[]> {
  const { code, out, err } = await ran(ledger, shop.root, name, '--format', 'json', ...args);
  expect(code, err).toBe(0);
  return (JSON.parse(out) as { rows: Row[] }).rows;
}

/** By instrument, the day of the calibration that the record states. */
async function recordOf(unit: string): Promise<Map<string, string>> {
  const { code, out, err } = await ran(record, shop.root, unit, '--format', 'json');
  expect(code, err).toBe(0);
  const { instruments } = JSON.parse(out) as { instruments: { id: string; calibrated: string }[] };
  return new Map(instruments.map(({ id, calibrated }) => [id, calibrated]));
}

beforeAll(async () => {
  shop = troubledWorkshop();
  const { conceded } = shop.first;
  await written(
    '4168',
    'received',
    '--supplier',
    'Harbour Extrusions',
    '--note',
    '4711',
    '--lot',
    'PROFILE-2601',
    '--certificate',
    '3.1 no. 88',
    '--on',
    '2026-03-01',
    '--by',
    'mv',
  );
  await written(
    '4168',
    'sent',
    'quay-end/Q1-1',
    '--customer',
    'N. Crowe',
    '--note',
    '77',
    '--on',
    '2026-03-09',
    '--by',
    'mv',
  );
  await written(
    '2705',
    'agreed',
    'Q1-1',
    '--snag',
    String(conceded),
    '--customer',
    'N. Crowe',
    '--how',
    'letter of 3 March',
    '--on',
    '2026-03-03',
    '--by',
    'ot',
  );
  await written(
    '2705',
    'action',
    '--against',
    'saw stop',
    '--what',
    'stop re-set',
    '--on',
    '2026-03-20',
    '--by',
    'ot',
  );
  await written('2705', 'limits', '--reason', 'new reference square', '--by', 'ot');
}, 120_000);
afterAll(() => {
  vi.useRealTimers();
});

describe('an auditor asks', () => {
  it('1: under which calibration was this measured?', async () => {
    expect((await recordOf('Q1-1')).get('T1')).toBe('2026-01-12');
    expect((await recordOf('Q2-1')).get('T1')).toBe('2026-03-20');
  });
  it('2: which calibrations has this instrument had?', async () => {
    const of = (await rows('instruments')).filter(({ id }) => id === 'T1');
    expect(of.map(({ calibrated }) => calibrated).sort()).toEqual(['2026-01-12', '2026-03-20']);
  });
  it('3: which units were measured since its last good calibration?', async () => {
    const last = (await rows('instruments')).find(
      ({ id, calibrated }) => id === 'T1' && calibrated === '2026-03-20',
    );
    expect(last?.units).toBe('quay-end: Q2-1');
  });
  it('4: what failed more than once, and why?', async () => {
    const of = await rows('nonconformities');
    expect(of.find(({ kind }) => kind === 'Snags')?.cause).toBe('saw stop');
    const [once, twice] = of.filter(({ cause }) => cause === shop.first.failed);
    expect(once).toMatchObject({ unit: 'Q1-1', repeat: '' });
    expect(twice).toMatchObject({ unit: 'Q2-1', repeat: 'Q1-1 E3' });
  });
  it('5: which nonconformities have there been over all units?', async () => {
    const kinds = (await rows('nonconformities')).map(({ kind }) => kind);
    expect(kinds).toEqual(['Conceded', 'Snags', 'Failed first, passed later', 'Failed first, passed later']);
  });
  it('6: what were the readings of the first-off behind this cut?', async () => {
    const saws = (await rows('set-ups')).filter(({ id }) => id?.startsWith('saw-'));
    expect(saws.map(({ units }) => units)).toEqual(['quay-end: Q1-1', 'quay-end: Q2-1']);
    for (const { checks } of saws) expect(checks).toMatch(/\d/);
  });
  it('7: which revision of the order was built?', async () => {
    const of = await rows('releases');
    expect(of.map(({ order }) => order)).toEqual(Array(2).fill('Quay End, revision C, N. Crowe (invented)'));
  });
  it("8: what was this person's level on that day?", async () => {
    const of = await rows('people', '--from', '2026-03-02', '--to', '2026-03-02');
    expect(of.find(({ by }) => by?.startsWith('Mira Volkov'))?.level).toMatch(/release/);
  });
  it('9: was it found in production, or did the customer complain?', async () => {
    const [complaint, ...none] = await rows('complaints');
    expect(complaint).toMatchObject({
      unit: 'Q1-1',
      decision: expect.stringContaining('scratch on the sill'),
    });
    expect(none).toEqual([]);
  });
  it('10: with which delivery note did it leave?', async () => {
    const out = (await rows('deliveries')).find(({ way }) => way === 'out');
    expect(out).toMatchObject({ note: '77', goods: 'quay-end: Q1-1', on: '2026-03-09' });
    expect((await rows('releases'))[0]?.sent).toContain('delivery note 77');
  });
  it('11: from whom is this lot, and with which certificate?', async () => {
    const lot = (await rows('lots')).find((each) => each.lot === 'PROFILE-2601');
    expect(lot?.supplier).toContain('Harbour Extrusions, delivery note 4711');
    expect(lot?.certificate).toBe('3.1 no. 88');
    expect(lot?.units).toBe('quay-end: Q1-1, Q2-1');
  });
  it('12: on which type test does it rest?', async () => {
    for (const each of await rows('releases')) expect(each['test-report']).toMatch(/report/i);
  });
  it('13: who changed a limit, when and why?', async () => {
    const [, changed] = await rows('limits');
    expect(changed).toMatchObject({
      limit: 'cut.plane',
      was: expect.stringContaining('at most 0.2 mm'),
      now: expect.stringContaining('at most 0.15 mm'),
      reason: 'new reference square',
      by: expect.stringContaining('Osei Tanner'),
      units: 'quay-end: Q2-1',
    });
  });
  it('14: did the customer agree to the concession?', async () => {
    const conceded = (await rows('nonconformities')).find(({ kind }) => kind === 'Conceded');
    expect(conceded?.agreed).toContain('N. Crowe, letter of 3 March, 2026-03-03');
  });
  it('15: what was done about it, and did that work?', async () => {
    const [action] = await rows('actions');
    expect(action).toMatchObject({
      against: 'saw stop',
      what: 'stop re-set',
      before: '1 in 1 unit',
      after: '0 in 1 unit',
    });
    expect(action?.worked).toContain('not once since');
  });
  it('and the day book is checked with all else', async () => {
    const { code, out, err } = await ran(verify, shop.root);
    expect(code, `${out}${err}`).toBe(0);
  });
});

describe('the day book', () => {
  it('refuses what nothing is known of', async () => {
    const { code, err } = await ran(
      daybook,
      shop.root,
      'agreed',
      'Q1-1',
      '--snag',
      '1',
      '--customer',
      'N',
      '--how',
      'x',
      '--by',
      'ot',
    );
    expect(code).not.toBe(0);
    expect(err).toContain('daybook.snag');
  });
  it('asks for the PIN of who has one, and says that it was typed', async () => {
    for (const typed of ['9999', '']) {
      const io = {
        workshop: shop.root,
        out: () => undefined,
        err: () => undefined,
        input: Readable.from([`${typed}\n`]),
      };
      const args = ['action', '--against', 'saw stop', '--what', 'forged', '--by', 'ot'];
      expect(await daybook.run(args, io as never), typed).toBe(1);
    }
    const { out } = await ran(daybook, shop.root, '--json');
    expect(out).not.toContain('forged');
    for (const { pin } of (JSON.parse(out) as { entries: { pin: boolean }[] }).entries)
      expect(pin).toBe(true);
  });
  it('knows no day to come', async () => {
    const args = [
      'received',
      '--supplier',
      'x',
      '--note',
      '1',
      '--lot',
      'L',
      '--on',
      '2199-01-01',
      '--by',
      'mv',
    ];
    const { code, err } = await ran(daybook, shop.root, ...args);
    expect(code).not.toBe(0);
    expect(err).toContain('has not come yet');
  });
  it('a lot that no unit holds yet is found', async () => {
    await written(
      '4168',
      'received',
      '--supplier',
      'Quay Seals',
      '--note',
      '12',
      '--lot',
      'SEAL-9',
      '--by',
      'mv',
    );
    expect((await rows('lots')).find(({ lot }) => lot === 'SEAL-9')?.units).toBe('in no unit yet');
  });
  it('cut or taken away, it is neither read nor written on', async () => {
    const { readFileSync, rmSync, writeFileSync } = await import('node:fs');
    const file = `${shop.root}/logs/daybook.jsonl`;
    const text = readFileSync(file, 'utf8');
    const lines = text.split('\n');
    for (const cut of [() => writeFileSync(file, `${lines.slice(0, 2).join('\n')}\n`), () => rmSync(file)]) {
      cut();
      expect((await ran(ledger, shop.root, 'deliveries')).code).toBe(1);
      expect((await ran(daybook, shop.root)).code).toBe(1);
      const args = ['sent', 'Q1-1', '--customer', 'x', '--note', '1', '--by', 'mv'];
      expect((await ran(daybook, shop.root, ...args)).code).toBe(1);
    }
    writeFileSync(file, text);
    expect((await ran(ledger, shop.root, 'deliveries')).code).toBe(0);
  });
  it('takes no second word for the same limits', async () => {
    const { code, err } = await ran(daybook, shop.root, 'limits', '--reason', 'x', '--by', 'ot');
    expect(code).not.toBe(0);
    expect(err).toContain('daybook.same-limits');
  });
  it('strikes out what was wrong, and keeps it', async () => {
    await written('4168', 'received', '--supplier', 'Wrong', '--note', '1', '--lot', 'X', '--by', 'mv');
    const { out } = await ran(daybook, shop.root);
    const mark = /^(\S+) .*Wrong/m.exec(out)![1]!;
    await written('2705', 'strike', mark, '--reason', 'another shop', '--by', 'ot');
    expect((await rows('deliveries')).map(({ partner }) => partner)).not.toContain('Wrong');
    expect((await ran(daybook, shop.root)).out).toMatch(/\(struck out\) .*Wrong/);
  });
  it('a changed line is found by verify', async () => {
    const { readFileSync, writeFileSync } = await import('node:fs');
    const file = `${shop.root}/logs/daybook.jsonl`;
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace('letter of 3 March', 'letter of 4 March'));
    const { code, out, err } = await ran(verify, shop.root);
    expect(code).toBe(1);
    expect(out + err).toContain('daybook.jsonl');
    writeFileSync(file, text);
  });
});
