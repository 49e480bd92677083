/** A shop's own workshop and the files it begins with: made, read, and found in order by lint. */
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { drawerIn, firstQuestions, personIn } from '../../src/commands/firstquestions.js';
import { sectionQuestions } from '../../src/commands/section.js';
import { INSTRUMENT_WORDS } from '../../src/store/ownworkshop.js';
import { command } from '../errors/museum.js';

const folder = () => mkdtempSync(join(tmpdir(), 'init-'));
const OWN = ['--name', 'Quay "Lane": Windows # 1', '--place', '2 Quay Lane', '--person', 'jb Joan Bexley'];

async function made(...more: string[]): Promise<string> {
  const root = join(folder(), 'w');
  const { code, text } = await command('.', ['init', root, ...OWN, ...more]);
  expect(code, text).toBe(0);
  return root;
}

it('is the shop’s own: its name, its people, its drawer, one small job, and nothing of the demonstration’s', async () => {
  const root = await made('--person', 'mk Max Kuhn', '--instrument', 'tape calliper', '--language', 'de');
  const shared = (file: string) => readFileSync(join(root, 'shared', file), 'utf8');
  expect(shared('workshop.yaml')).toContain('name: "Quay \\"Lane\\": Windows # 1"');
  expect(shared('workshop.yaml')).toContain('address: "2 Quay Lane"');
  expect(shared('workshop.yaml')).not.toMatch(/invented|demonstration|^soloRelease/im);
  expect(shared('people.yaml')).not.toMatch(/Tanner|Volkov/);
  expect(shared('people.yaml').match(/language: de/g)).toHaveLength(2);
  expect(shared('instruments.yaml').match(/^ {2}- \{id/gm)).toHaveLength(2);
  expect(existsSync(join(root, 'keys'))).toBe(false);
  expect(existsSync(join(root, 'shared/jobs/pier-house.yaml'))).toBe(false);
  expect(existsSync(join(root, 'shared/beginnings'))).toBe(false);
  const board = await command(root, ['board']);
  expect(board.text).toContain('W1-1');
  expect(board.text).not.toContain('P01-1');
});

it('with everything in the drawer lints, and alone somebody may release by the solo rule', async () => {
  const root = await made('--instrument', 'all');
  expect((await command(root, ['lint'])).text).toMatch(/^Nothing is wrong\./);
  const lint = (await command(root, ['lint'])).text;
  expect(lint).toContain('pinchrod person pin jb');
  expect(lint).toContain('figures of w52 are invented');
  expect(readFileSync(join(root, 'shared/workshop.yaml'), 'utf8')).toMatch(/^soloRelease: /m);
});

it('every file that new begins works as it stands, alone and together', async () => {
  const root = await made('--instrument', 'all');
  for (const kind of ['set', 'procedure', 'job', 'instrument']) {
    const { code, text } = await command(root, ['new', kind, 'own']);
    expect(code, text).toBe(0);
    expect((await command(root, ['lint'])).text, kind).toMatch(/^Nothing is wrong\./);
  }
  const setOut = await command(root, ['setout', 'own', 'W2-1']);
  expect(setOut.code).toBe(0);
  // By hand: 900 - 2 x 50 between sight lines, + 2 x 20 to the rebate floors, - 2 x 5 for the glass.
  expect(setOut.text).toContain('sight   800 x 1100   rebate 840 x 1140');
  expect(setOut.text).toContain('glass   830 x 1130');
  expect(readFileSync(join(root, 'shared/instruments.yaml'), 'utf8')).toContain('{id: own, kind: tape');
});

it.each(['w52', 'k70', 't56', 'f25'])('a new job of %s takes a procedure that builds it', async (set) => {
  const root = await made('--instrument', 'all');
  expect((await command(root, ['new', 'job', 'trial', '--set', set])).code).toBe(0);
  expect((await command(root, ['lint'])).text).toMatch(/^Nothing is wrong\./);
  expect((await command(root, ['setout', 'trial', 'W2-1'])).code).toBe(0);
});

it('a new job of a set that no procedure builds begins one, and has a mark of its own', async () => {
  const root = await made('--instrument', 'all');
  await command(root, ['new', 'set', 'own']);
  const { code, text } = await command(root, ['new', 'job', 'trial', '--set', 'own']);
  expect([code, text]).toEqual([
    0,
    expect.stringContaining('procedures/own.yaml is there: no procedure here built'),
  ]);
  expect(text).toContain('pinchrod setout trial W2-1');
  expect((await command(root, ['lint'])).text).toMatch(/^Nothing is wrong\./);
  expect((await command(root, ['new', 'job', 'again', '--set', 'own'])).text).not.toContain(
    'procedures/own.yaml',
  );
  // What is still to be filled in is not printed on a record.
  expect((await command(root, ['setout', 'trial'])).text).toContain('W2-1   900 x 1200');
  expect(readFileSync(join(root, 'shared/jobs/trial.yaml'), 'utf8')).not.toMatch(
    /^ *(?:title|customer|room): (?!'')/m,
  );
});

it('an empty drawer takes its first instrument', async () => {
  const root = await made();
  expect((await command(root, ['new', 'instrument', 'T5'])).code).toBe(0);
  expect((await command(root, ['new', 'instrument', 't5'])).text).toContain('[new.there]');
  expect((await command(root, ['board'])).code).toBe(0);
});

it('asks one question after the other, goes back, and takes no nonsense', () => {
  const talk = firstQuestions({ place: '' }, {});
  const says = (line: string) => {
    const answer = talk.type(line);
    return 'problem' in answer ? answer.problem.id : answer.says[0]!;
  };
  expect(talk.prompt).toBe('question 1 of 5');
  expect(says('-')).toBe('init.name');
  expect(says('Quay Lane')).toMatch(/^Who works here/);
  expect(says('.')).toBe('init.person');
  expect(says('Joan')).toBe('init.person');
  expect(says('Jo Kestrel')).toMatch(/^Jo: Kestrel is here, 1 so far/);
  expect(says('<')).toMatch(/^Who works here/);
  expect(says('jb Joan Bexley')).toMatch(/^jb: Joan Bexley is here, 1 so far/);
  expect(says('JB Jim Best')).toBe('init.person');
  expect(says('ot Osei Tanner')).toMatch(/^ot: Osei Tanner is here, 2 so far/);
  expect(says('.')).toMatch(/^What lies in the drawer/);
  expect(says('1 99')).toBe('init.instrument');
  expect(says('1 5')).toMatch(/^Which language/);
  expect(talk.over).toBe(false);
  expect(says('xx')).toBe('init.language');
  expect(says('de')).toMatch(/^That is all/);
  // Leaving here makes nothing, and one question back is still one question back.
  expect(talk.answers()).toBeUndefined();
  expect(says('<')).toMatch(/^Which language/);
  expect(says('de')).toMatch(/^That is all/);
  expect(says('perhaps')).toMatch(/^That is all/);
  expect(talk.over).toBe(false);
  expect(says('ok')).toMatch(/^All is answered/);
  expect(talk.answers()).toEqual({
    name: 'Quay Lane',
    place: '',
    people: [
      { id: 'jb', name: 'Joan Bexley' },
      { id: 'ot', name: 'Osei Tanner' },
    ],
    instruments: ['tape', 'calliper'],
    language: 'de',
  });
});

it('reads people and drawers as they are typed', () => {
  expect(personIn(' jb  Joan  Bexley ')).toEqual({ id: 'jb', name: 'Joan Bexley' });
  expect(drawerIn('all')).toEqual(INSTRUMENT_WORDS);
  expect(drawerIn('-')).toEqual([]);
  expect(drawerIn('Tape, 3')).toEqual(['tape', 'rule']);
});

it('a new set takes five dimensions and a window, makes all that it is built by, and its sum is the hand’s', async () => {
  const root = await made('--person', 'mk Max Kuhn', '--instrument', 'all');
  const section = ['--face', '58', '--floor', '24', '--edge', '5', '--cover', '19', '--bead', '21'];
  const { code, text } = await command(root, ['new', 'set', 'own', ...section, '--window', '1100 x 950']);
  expect(code, text).toBe(0);
  // By hand: 1100 - 2 x 58 + 2 x 19 = 1022; 950 - 2 x 58 + 2 x 19 = 872.
  expect(text).toContain('1022 x 872 mm');
  const setOut = await command(root, ['setout', 'own', 'W2-1']);
  expect(setOut.text).toContain('glass   1022 x 872');
  // 984 between sight lines; 834 less two beads of 21.
  expect(setOut.text).toContain('beads   2 x 984, 2 x 792');
  expect((await command(root, ['lint'])).text).toMatch(/^Nothing is wrong\./);
  // The second person may release what the first has done.
  expect(readFileSync(join(root, 'shared/people.yaml'), 'utf8')).toMatch(
    /Max Kuhn"?\n {4}levels: \{all: 4\}/,
  );
});

it.each([
  [['--face', '6'], 'new.section', /outside the frame/],
  [['--cover', '17'], 'new.section', /15 mm/],
  [['--edge', '5 mm'], 'new.section', /millimetres alone/],
  [['--window', '1100'], 'new.section', /width x height/],
])('dimensions that cannot be are refused, and nothing is written: %j', async (flags, id, way) => {
  const root = await made('--instrument', 'all');
  const { code, text } = await command(root, ['new', 'set', 'own', ...flags]);
  expect(code).toBe(2);
  expect(text).toContain(`[${id}`);
  expect(text).toMatch(way);
  expect(existsSync(join(root, 'shared/profile-sets/own.yaml'))).toBe(false);
});

it('new set asks one dimension after the other, and holds each against those before it', () => {
  const talk = sectionQuestions('own', {});
  const typed = (line: string) => talk.type(line);
  expect(typed('58')).toHaveProperty('says');
  expect(typed('58,0')).toHaveProperty('problem');
  expect(typed('24')).toHaveProperty('says');
  expect(typed('5')).toHaveProperty('says');
  expect(typed('18')).toHaveProperty('problem');
  expect(typed('19')).toHaveProperty('says');
  expect(typed('<')).toHaveProperty('says');
  expect(typed('19')).toHaveProperty('says');
  expect(typed('21')).toHaveProperty('says');
  expect(talk.over).toBe(false);
  expect(typed('1100 x 950')).toHaveProperty('says');
  expect(talk.over).toBe(true);
  expect(talk.answers()).toEqual({
    face: 58,
    floor: 24,
    edge: 5,
    cover: 19,
    bead: 21,
    width: 1100,
    height: 950,
  });
});
