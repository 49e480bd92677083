/** Set-ups, lots, snags, sign-offs, revisions and two terminals: real workshops on disk, through the bench's own ports. */

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { run as board } from '../../src/commands/board.js';
import { run as revise } from '../../src/commands/revise.js';
import { run as setup } from '../../src/commands/setup.js';
import { proveSetups } from '../../src/session/setups.js';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { readEvents } from '../../src/store/journal.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { verifyTree } from '../../src/store/verify.js';
import type { Action } from '../../src/unit/actions.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { sha256 } from '../../src/unit/chain.js';
import { nextCheck } from '../../src/unit/next.js';
import { newPicture } from '../picture.js';

const PINS = { ot: '2705', mv: '4168' };
const folders: string[] = [];
let root: string;
let clock: number;

beforeEach(() => {
  const parent = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  folders.push(parent);
  root = join(parent, 'shop');
  const made = makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), root);
  if (!made.ok) throw new Error(made.problems[0]!.text);
  newPicture(join(root, 'photo.jpg'));
  clock = Date.now();
});
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

function ports(): RealPorts {
  const made = realPorts({ workshop: root, clock: () => clock, bench: 'bench-t' });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  return made.value;
}

/** Works on until the check is asked that `until` names; gives the hand then, or what was refused. */
function work(on: RealPorts, unit: string, until: (check: string) => boolean, lots = {}) {
  expect(on.open(unit)).toEqual({ kind: 'open' });
  let person: string | undefined;
  let inHand: string | undefined;
  for (let i = 0; i < 600; i += 1) {
    clock += 30_000;
    const world = on.world();
    const { state } = world.open!;
    const at = nextCheck(state)?.check;
    if (at !== undefined && until(at)) return { hand: { person, inHand } };
    const { now, bench, rules, instruments } = world;
    const context = { now, bench, person, inHand, workshop: rules, instruments };
    const move = nextMove(state, context, { pins: PINS, evidence: 'photo.jpg', lots });
    if (move.kind !== 'act') throw new Error(JSON.stringify(move));
    const { action } = move;
    if (action.do === 'person') person = action.person;
    else if (action.do === 'instrument') {
      const tool = instruments.find(({ id }) => id === action.instrument)!;
      inHand = tool.id;
    } else {
      if ('evidence' in action && action.evidence) newPicture(join(root, 'photo.jpg'));
      const acted = on.act(action, { person, inHand });
      if (acted.kind === 'refused') return { hand: { person, inHand }, problem: acted.problem, action };
      if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
    }
  }
  throw new Error('too long');
}

async function said(run: typeof board, ...args: string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const io = { out: (text: string) => void out.push(text), err: (text: string) => void err.push(text) };
  const code = await run(args, { ...io, workshop: root, input: Readable.from(['2705\n']) } as never);
  return { code, out: out.join('\n'), err: err.join('\n') };
}

const never = () => false;
const FIRST_OFF = [
  'first-off',
  'saw',
  '--person',
  'jb',
  '--instrument',
  'F1',
  '--instrument',
  'R1',
  '--instrument',
  'A1',
];
const values = (gap: string) =>
  [
    'guards=yes',
    'clamps=yes',
    'stop=yes',
    'extraction=yes',
    'supports=yes',
    'blade=yes',
    'tight=yes',
    `mitre=${gap}`,
    'plane=0.05',
    'angle=45',
    'length=500',
  ].flatMap((v) => ['--value', v]);

describe('set-ups', () => {
  it('stop a cutting step until a first-off holds, and again once it ended', async () => {
    const one = ports();
    const stopped = work(one, 'P01-1', never);
    expect(stopped.problem?.id).toBe('build.no-setup');
    expect(stopped.problem?.todo).toContain('pinchrod setup first-off saw');
    expect((await said(setup, ...FIRST_OFF, ...values('0.05'))).code).toBe(0);
    expect(one.act(stopped.action as Action, stopped.hand).kind).toBe('done');
    expect((await said(setup, 'end', 'saw', 'knock', '--person', 'jb')).out).toContain('it was knocked');
    expect(work(one, 'P01-1', never).problem?.id).toBe('build.no-setup');
    one.close();
  });

  it('list what is in doubt when a later first-off fails, and raise a snag on it', async () => {
    const one = ports();
    proveSetups(one);
    work(one, 'P01-1', (check) => check.startsWith('cut.frame/labels'));
    one.close();
    const failed = await said(setup, ...FIRST_OFF, ...values('0.3'), '--json', '--snag');
    expect(failed.code).toBe(1);
    const told = JSON.parse(failed.out);
    expect(told).toMatchObject({ ok: false, inDoubt: { units: ['P01-1'], lastGood: 'saw-1' } });
    expect(told.snags).toEqual([{ job: 'pier-house', unit: 'P01-1' }]);
    expect(JSON.parse((await said(board, '--json')).out).units[0].standing).toBe('snagged');
  });

  it('are verified: a changed first-off is found', () => {
    const one = ports();
    proveSetups(one);
    expect(verifyTree(realDisk, root)).toMatchObject({ holds: true, journals: 1, events: 4 });
    const file = join(root, 'logs/setups.jsonl');
    writeFileSync(file, readFileSync(file, 'utf8').replace('"passed":true', '"passed":false'));
    expect(verifyTree(realDisk, root).faults.map(({ id }) => id)).toContain('verify.changed-line');
    // Damage stops what rests on a set-up, and says so.
    expect(work(one, 'P01-1', never).problem).toMatchObject({
      id: 'journal.damaged',
      place: { file: 'logs/setups.jsonl' },
    });
    one.close();
  });

  it('are not asked for without the file', () => {
    rmSync(join(root, 'shared/setups.yaml'));
    const one = ports();
    expect(one.setups()).toBeUndefined();
    expect(work(one, 'P01-1', (check) => check.startsWith('cut.frame/labels')).problem).toBeUndefined();
    one.close();
  });
});

describe('lots and snags of other units', () => {
  it('a lot that a snag of one unit touches stops another unit', () => {
    const one = ports();
    proveSetups(one);
    const lots = { profile: 'PR-77' };
    const { hand } = work(one, 'P01-1', (check) => check.startsWith('saw.first-off/'), lots);
    const snag: Action = { do: 'snag', cause: 'material', text: 'bowed bars', lot: 'PR-77' };
    expect(one.act(snag, hand).kind).toBe('done');
    one.close();
    const other = ports();
    const stopped = work(other, 'P02-1', never, lots);
    expect(stopped.problem?.id).toBe('build.lot-snagged');
    other.close();
  });
});

describe('sign-offs', () => {
  it('a damaged journal of sign-offs keeps the bench shut with its problem', () => {
    realDisk.mkdir(join(root, 'practice'));
    writeFileSync(join(root, 'practice/signoff.jsonl'), '{"n":1}\n');
    const made = realPorts({ workshop: root });
    expect(made.ok).toBe(false);
    expect(!made.ok && made.problems[0]!.id).toBe('journal.damaged');
  });
});

describe('a revision under way', () => {
  it('is told on the board, taken over with a reason, and re-opens what it changes', async () => {
    const one = ports();
    proveSetups(one);
    work(one, 'P01-1', (check) => check.startsWith('cut.frame/labels'));
    one.close();
    const file = join(root, 'shared/jobs/pier-house.yaml');
    writeFileSync(file, readFileSync(file, 'utf8').replace('width: 900', 'width: 910'));
    const rows = async () => JSON.parse((await said(board, '--json')).out).units;
    expect((await rows())[0].differs).toEqual(['job']);
    const shown = JSON.parse((await said(revise, 'P01-1', '--json')).out);
    expect(shown).toMatchObject({ ok: true, written: false });
    expect((await rows())[0].differs).toEqual(['job']);
    expect((await said(revise, 'P01-1', '--person', 'tf', '--reason', 'C', '--yes')).err).toContain(
      'build.no-right',
    );
    const done = await said(revise, 'P01-1', '--person', 'ot', '--reason', 'revision C', '--json', '--yes');
    expect(JSON.parse(done.out)).toEqual({ ...shown, written: true });
    const changed = shown.changed as { step: string; reasons: string[] }[];
    expect(changed.map(({ step }) => step)).toContain('cut.frame');
    for (const { step, reasons } of changed) expect(reasons.length, step).toBeGreaterThan(0);
    expect(shown.reopens).toEqual(expect.arrayContaining(changed.map(({ step }) => step)));
    expect((await rows())[0].differs).toBeUndefined();
    expect((await said(revise, 'P01-1')).err).toContain('same-sources');
    expect(verifyTree(realDisk, root).holds).toBe(true);
  });
});

describe('a revision of what is judged', () => {
  const edit = (name: string, was: RegExp, is: string): void => {
    const file = join(root, name);
    const text = readFileSync(file, 'utf8');
    expect(text).toMatch(was);
    writeFileSync(file, text.replace(was, is));
  };
  const effect = async () => JSON.parse((await said(revise, 'P01-1', '--json')).out);
  beforeEach(() => {
    const one = ports();
    proveSetups(one);
    work(one, 'P01-1', (check) => check.startsWith('cut.frame/labels'));
    one.close();
  });

  it('re-opens nothing for a word', async () => {
    edit('procedures/casement.yaml', /Cut two short pieces/, 'Saw 2 short pieces');
    expect(await effect()).toMatchObject({ changed: [], reopens: [] });
  });

  it('re-opens what a tightened limit judges, says so before, and the journal says why', async () => {
    edit('shared/limits.yaml', /(cut\.length:[^#]*?within: )0\.5/, '$10.4');
    const { changed, reopens } = await effect();
    expect(changed.map(({ step }: { step: string }) => step)).toEqual(['cut.frame']);
    for (const reason of changed[0].reasons)
      expect(reason).toMatch(/: within ±0\.4 mm, was within ±0\.5 mm \(Cut piece, length\)$/);
    expect(reopens).toContain('cut.frame');
    const { out } = await said(revise, 'P01-1', '--person', 'ot', '--reason', 'tighter', '--yes');
    expect(out).toContain('was within ±0.5 mm');
    const events = readEvents(realDisk, root, 'pier-house', 'P01-1');
    expect(events.ok && events.value.at(-1)).toMatchObject({
      kind: 'revised',
      changed: ['cut.frame'],
      because: { 'cut.frame': changed[0].reasons },
    });
  });

  it('re-opens what is measured where the rule of judging is another, which counts from then on', async () => {
    edit('shared/workshop.yaml', /decisionRule: simple/, 'decisionRule: {guarded: 1}');
    const one = ports();
    one.open('pier-house/P01-1');
    expect(one.world().rules.decisionRule).toEqual({ kind: 'simple' });
    one.close();
    const { changed } = await effect();
    expect(changed.map(({ step }: { step: string }) => step)).toContain('cut.frame');
    await said(revise, 'P01-1', '--person', 'ot', '--reason', 'guarded', '--yes');
    const again = ports();
    again.open('pier-house/P01-1');
    expect(again.world().rules.decisionRule).toEqual({ kind: 'guarded', factor: 1 });
    again.close();
  });
});

describe('the board', () => {
  it('says the same with its index, without it, and with a spoilt one', async () => {
    const one = ports();
    proveSetups(one);
    work(one, 'P01-1', (check) => check.startsWith('cut.frame/labels'));
    one.close();
    const index = join(root, 'logs/index/board.json');
    const first = (await said(board)).out;
    expect(first).toContain('under way');
    expect((await said(board)).out).toBe(first);
    const [mark = '', own = ''] = readFileSync(index, 'utf8').split('\n');
    const forged = own.replaceAll('"standing":"under-way"', '"standing":"finished"');
    expect(forged).not.toBe(own);
    for (const text of [
      // Of a state no index is believed that this account did not write.
      `${mark}\n${forged}`,
      `${sha256(forged)}\n${forged}`,
      forged,
      '',
      '{',
      '{"format":"pinchrod-board-index 3","program":"source","units":{"pier-house/P01-1":7}}',
    ]) {
      writeFileSync(index, text);
      expect((await said(board)).out).toBe(first);
    }
    rmSync(index);
    expect((await said(board)).out).toBe(first);
    expect((await said(board, '--by', 'stage')).out).toContain('pier-house/P01-1');
    expect((await said(board, '--hand-over')).out).toContain('Half done');
  });

  it('reads a journal that went on since', async () => {
    const one = ports();
    work(one, 'P01-1', (check) => check.startsWith('stock.kit/'));
    const before = (await said(board)).out;
    work(one, 'P01-1', (check) => check.startsWith('saw.first-off/'));
    expect((await said(board)).out).not.toBe(before);
    one.close();
  });
});

it('two terminals on one unit: the second sees the steps and who has it, and writes nothing', () => {
  const first = ports();
  const second = ports();
  const { hand } = work(first, 'P01-1', (check) => check.startsWith('saw.first-off/'));
  expect(second.open('P01-1')).toEqual({ kind: 'open' });
  expect(second.world().open?.readOnly).toContain('bench-t');
  const refused = second.act({ do: 'note', text: 'from the other side' }, hand);
  expect(refused.kind === 'refused' && refused.problem.text).toContain('bench-t');
  expect(first.act({ do: 'note', text: 'from this side' }, hand).kind).toBe('done');
  clock += 5000;
  expect(second.world().open?.state.events.at(-1)).toMatchObject({ kind: 'noted', text: 'from this side' });
  first.close();
  second.close();
  expect(second.open('P01-1')).toEqual({ kind: 'open' });
  expect(second.act({ do: 'note', text: 'now from the other side' }, hand).kind).toBe('done');
  second.close();
  expect(verifyTree(realDisk, root).holds).toBe(true);
});
