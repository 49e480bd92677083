/**
 * Bench and feed take the same actions: every action and every field of one that feed takes is come to by the bench's keys
 * in a real workshop, or stands here with the reason why not; and every command of the bench is an action of feed's, or
 * only shows something.
 */

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { z } from 'zod';
import { proveSetups } from '../../src/session/setups.js';
import { thisHost } from '../../src/store/lock.js';
import { COMMANDS, type CommandId } from '../../src/tui/keys/table.js';
import { type Action, type BenchAction, benchActionSchema } from '../../src/unit/actions.js';
import { newPicture } from '../picture.js';
import {
  type Bench,
  benchOf,
  type Clock,
  DOWN,
  ESC,
  LEFT,
  OVERVIEW,
  RIGHT,
  remove,
  SETUPS,
  sawReadings,
  smallWorkshop,
  startClock,
  work,
} from './realbench.js';

const REWORK = '\u0012';
const SNAGS = '\u000e';
const PARK = '\u0002';
const NOTE = '\u0019';
const PUT_RIGHT = '\u001a';
const HOME = '\u001b[H';
const STEPS = '\u0014';
const PAGE_UP = '\u001b[5~';
const F8 = '\u001b[19~';

/** What the bench does by itself, or a script alone has a use for. */
const NOT_BY_KEYS: Readonly<Record<string, string>> = {
  'person.do': "who is at the bench is the bench's own; a scan or F4",
  'person.person': 'as above',
  'person.pin': 'a PIN is asked for where it counts, not on coming to the bench',
  'instrument.do': "what is in hand is the bench's own; a scan or ^E",
  'instrument.instrument': 'as above',
  'answer.with': 'a script names its gauge; at the bench it is the instrument in hand',
  'read.with': 'as above',
  'first-off.note': 'a script names its gauge here',
  'end-setup.note': 'a script says here what it noticed',
  'answer.unsignedBy': 'asked for where the key of the bench cannot sign: unsigned.test.ts',
  'look.unsignedBy': 'as above',
  'read.unsignedBy': 'as above',
  'release.unsignedBy': 'as above',
  'decide.unsignedBy': 'as above',
  'close.unsignedBy': 'as above',
  'resume.unsignedBy': 'as above',
};

/** What each command comes to. A command that is added must say. */
const COMMAND_ACTIONS: Readonly<Record<CommandId, readonly BenchAction['do'][] | 'shows'>> = {
  help: 'shows',
  lists: 'shows',
  figures: 'shows',
  units: 'shows',
  stages: 'shows',
  steps: 'shows',
  why: 'shows',
  measured: 'shows',
  anew: ['begin-set'],
  unit: 'shows',
  menu: 'shows',
  language: 'shows',
  leave: 'shows',
  up: 'shows',
  down: 'shows',
  'page-up': 'shows',
  'page-down': 'shows',
  back: 'shows',
  person: ['person'],
  instrument: ['instrument'],
  snags: ['snag', 'decide', 'close'],
  setups: ['first-off', 'end-setup', 'snag-setup'],
  rework: ['rework'],
  release: ['release'],
  park: ['park', 'resume'],
  note: ['note'],
  'put-right': ['undo'],
  yes: ['answer', 'look', 'cite', 'override', 'take-over'],
  no: ['answer', 'look'],
  act: ['answer', 'read'],
};

let root: string;
let clock: Clock;
let bench: Bench;
/** A fresh workshop and bench, whose first hold asks for a picture. */
function next(): void {
  root = smallWorkshop();
  clock = startClock();
  const file = join(root, 'procedures/small.yaml');
  writeFileSync(
    file,
    readFileSync(file, 'utf8').replace('{title: Sealed}', '{title: Sealed, evidence: true}'),
  );
  mkdirSync(join(root, 'inbox'), { recursive: true });
  newPicture(join(root, 'inbox/p.jpg'));
  bench = benchOf(root, clock);
}
beforeEach(next);
afterEach(() => {
  bench.ports.close();
  remove(root);
});

const kinds = (kind: string) =>
  bench.core.world().open!.state.events.filter((event) => event.kind === kind).length;

const fieldsOf = (option: z.core.$ZodType): string[] => {
  const { shape } = option as unknown as { shape: Record<string, { value?: string }> };
  const name = (shape.do as unknown as { def: { values: string[] } }).def.values[0]!;
  return Object.keys(shape).map((field) => `${name}.${field}`);
};

const seen = new Set<string>();
function note(): void {
  for (const action of bench.asked)
    for (const field of Object.keys(action)) seen.add(`${action.do}.${field}`);
}
afterEach(note);

it('answers: an overdue tape allowed by another, a likely misread, a second name, a lot with its expiry, a picture', () => {
  const file = join(root, 'procedures/small.yaml');
  const goods = 'lot: profile}\n          - {id: goods, kind: text, ask: Goods, lot: profile, accepts: true}';
  writeFileSync(file, readFileSync(file, 'utf8').replace('lot: profile}', goods));
  bench.ports.refresh();
  const { press, choose } = bench;
  press('jb\r', 'S01-1\r', 'T9\r', '900\r');
  choose('Osei');
  press('2705\r', RIGHT, PUT_RIGHT);
  choose('typed wrongly');
  press(RIGHT, 'T2\r', '950\r', RIGHT, PUT_RIGHT, RIGHT, RIGHT, 'tf\r', '900\r');
  choose('Joan');
  press('jb\r', RIGHT, 'jb\r', 'PR-77 2027-03-31\r');
  choose('Osei');
  // Accepted on the spot; at goods-in the same lot is offered, and taken by Right.
  press('2705\r', RIGHT, RIGHT, RIGHT);
  choose('inbox/p.jpg');
  press(RIGHT);
  expect(kinds('answered')).toBe(6);
  // A snag on the lot, contained and parked; decided, and closed after the reading was taken again.
  press(SNAGS);
  choose('wrong material');
  choose('major');
  choose('the lot PR-77');
  choose('as measured');
  choose('red tag');
  choose('park it');
  press(RIGHT, OVERVIEW, PARK, PARK);
  choose('waiting for material');
  press(RIGHT, OVERVIEW, PARK, 'ot\r', SNAGS);
  choose('major');
  choose('repair');
  choose('can be made again');
  press('2705\r', RIGHT, SNAGS);
  choose('major');
  choose('inspected');
  press(RIGHT, ESC, ESC, NOTE, 'looked at again\r', RIGHT);
  press(SNAGS);
  choose('raise a new');
  press(RIGHT, RIGHT, RIGHT, RIGHT, RIGHT, RIGHT, SNAGS);
  choose('not decided');
  choose('scrap');
  choose('which the job lists');
  press(RIGHT, '2705\r', RIGHT);
  expect(kinds('scrapped')).toBe(1);
});

it('readings of a set, rework with a second name, a hold with a picture, a concession', () => {
  const { press, choose, ports } = bench;
  press('S01-1\r');
  work(ports, clock, (action) => action.do === 'answer' && action.check === 'seal/gap', 'inbox/p.jpg');
  press('jb\r', 'F1\r', '0.6\r', RIGHT);
  choose('raise a snag');
  press(RIGHT, RIGHT, RIGHT, RIGHT, RIGHT, RIGHT, OVERVIEW, 'ot\r', PARK, SNAGS);
  choose('not decided');
  choose('concession');
  press(RIGHT, RIGHT, '2705\r', RIGHT, ESC, 'jb\r', REWORK, RIGHT, RIGHT);
  expect(bench.asked.some((action) => action.do === 'rework')).toBe(true);
  note();
  bench.ports.close();
  remove(root);
  next();
  bench.press('S01-1\r');
  const held = work(bench.ports, clock, (action) => action.do === 'release', 'inbox/p.jpg');
  bench.press('mv\r', F8, `4168${F8}`);
  bench.choose('inbox/p.jpg');
  bench.press(F8);
  expect(held.action?.do).toBe('release');
  expect(kinds('released')).toBe(1);
  bench.press('jb\r', 'T9\r', '900\r');
  bench.choose('Osei');
  bench.press('2705\r', RIGHT, 'tf\r', 'T2\r', '800\r');
  bench.choose('Joan');
  bench.press('jb\r', RIGHT, RIGHT, REWORK, RIGHT, RIGHT);
  expect(kinds('read')).toBeGreaterThan(0);
  // One reading of the set is taken again, and the set begun anew.
  bench.press('jb\r', 'T2\r', '900\r', '901\r', DOWN, '900\r', HOME, '900\r');
  expect(kinds('set-begun')).toBe(1);
  // The apprentice makes an earlier step again: whose word it takes confirms it for that stage.
  bench.press('tf\r', STEPS, PAGE_UP, '\u001b[B\u001b[A', REWORK, RIGHT, RIGHT);
  bench.press('jb\r', RIGHT);
  expect(bench.core.world().open!.state.events.at(-1)).toMatchObject({ kind: 'reworked', by: 'tf' });
});

it('what one look answers: all of it, one that is not right, and by somebody who needs a second name', () => {
  const { press, choose, ports } = bench;
  proveSetups(ports);
  press('P01-1\r');
  const apart = new Set<string>();
  work(ports, clock, (action) => action.do === 'look' && apart.size === 0, 'inbox/p.jpg');
  press('tf\r', RIGHT);
  choose('Joan');
  press('jb\r', RIGHT);
  const looked = bench.core
    .world()
    .open!.state.events.filter((event) => event.kind === 'answered' && event.look);
  expect(looked.length).toBeGreaterThan(1);
  expect(looked.every(({ by }) => by === 'tf')).toBe(true);
  work(ports, clock, (action) => action.do === 'look', 'inbox/p.jpg');
  press('jb\r', LEFT);
  expect(bench.core.state().note?.text).toBe('Which of them is not right?');
  press(DOWN, DOWN, LEFT);
  const last = bench.core.world().open!.state.events.at(-1)!;
  expect(last).toMatchObject({ kind: 'answered', answer: { go: false } });
  // What stands above it was answered by nobody.
  expect(last).not.toHaveProperty('look');
});

it('what the units share: taken over at a step of the order, and of a batch; a walk of like holds released', () => {
  const { press, ports } = bench;
  proveSetups(ports);
  const photo = 'inbox/p.jpg';
  const cleats = (action: Action) => action.do === 'look' && action.step === 'machine.frame-cleats';
  press('P01-1\r');
  work(ports, clock, (action) => action.do === 'look' && action.step === 'machine.frame-slots', photo);
  press('P02-1\r', 'jb\r', RIGHT);
  expect(kinds('answered')).toBeGreaterThan(0);
  expect(bench.core.world().open!.state.steps.get('order.papers')!.status).toBe('done');
  work(ports, clock, cleats, photo);
  press('jb\r', RIGHT);
  expect(bench.core.world().open!.state.steps.get('machine.frame-cleats')!.status).toBe('done');
  work(ports, clock, (action) => action.do === 'release' && action.also !== undefined, photo);
  press('mv\r', `4168${F8}`);
  const walked = bench.core
    .world()
    .open!.state.events.filter((event) => event.kind === 'released' && event.walk);
  expect(walked.length).toBe(3);
  // One picture shows what a look answers; the same one a second time is asked about.
  const pictured = (action: Action) => action.do === 'look' && action.evidence !== undefined;
  work(ports, clock, pictured, photo);
  newPicture(join(root, photo));
  press('jb\r', RIGHT);
  bench.choose(photo);
  const kept = kinds('answered');
  work(ports, clock, pictured, photo);
  press('jb\r', RIGHT);
  bench.choose(photo);
  expect(bench.core.state().screen.name).toBe('question');
  press(RIGHT);
  expect(kinds('answered')).toBeGreaterThan(kept);
});

it('a refused unit let pass; set-ups proven, ended and failed; a unit taken over', () => {
  const { press, choose, ports } = bench;
  press('ot\r', 'S02-1\r', OVERVIEW);
  choose('refused:');
  press(RIGHT, '2705\r', RIGHT);
  expect(kinds('overridden')).toBe(1);
  proveSetups(ports);
  press('P01-1\r');
  work(ports, clock, (action) => action.do === 'look' && action.step === 'cut.frame');
  press('jb\r', SETUPS);
  choose('Punch');
  choose('it was knocked');
  press(RIGHT);
  choose('Mitre saw');
  choose('prove it');
  press(...sawReadings('0.6', '560'), RIGHT, RIGHT);
  choose('Mitre saw');
  choose('raise a snag on each');
  press(RIGHT, ESC, SNAGS);
  choose('raise a new');
  choose('saw');
  choose('minor');
  choose('the set-up saw-1');
  press(RIGHT, RIGHT, RIGHT);
  press(ESC, ESC, ESC);
  ports.close();
  const { host, boot } = thisHost();
  const lock = { host, machine: 'another', boot, pid: 1, started: '1', token: 't', bench: 'b', who: 'mv' };
  writeFileSync(join(root, 'logs/pier-house/P01-1.lock'), JSON.stringify(lock));
  press('P01-1\r', OVERVIEW);
  choose('take it over');
  press(RIGHT, RIGHT);
  expect(bench.core.world().open?.readOnly).toBeUndefined();
});

it('so every field of every action is come to by keys, or has a reason', () => {
  const wanted = benchActionSchema.options.flatMap(fieldsOf);
  expect(wanted.filter((field) => !seen.has(field) && NOT_BY_KEYS[field] === undefined)).toEqual([]);
});

it('no reason stands for a field that is gone', () => {
  const wanted = new Set(benchActionSchema.options.flatMap(fieldsOf));
  expect(Object.keys(NOT_BY_KEYS).filter((field) => !wanted.has(field))).toEqual([]);
});

it('every command is named here, and every action of feed is behind one', () => {
  expect(Object.keys(COMMAND_ACTIONS).sort()).toEqual(COMMANDS.map(({ id }) => id).sort());
  const behind = new Set(Object.values(COMMAND_ACTIONS).flatMap((each) => (each === 'shows' ? [] : each)));
  const all = benchActionSchema.options.map((option) => fieldsOf(option)[0]!.split('.')[0]!);
  expect([...behind].sort()).toEqual([...all].sort());
});
