/** What the bench says where nothing is open because of a snag: what it waits for, and the keys for it. */
import { afterAll, expect, it } from 'vitest';
import { stepView } from '../../src/tui/screens/step.js';
import { START, TOP } from '../../src/tui/state.js';
import { benchOf, remove, smallWorkshop, startClock, work } from './realbench.js';

const root = smallWorkshop();
const clock = startClock();
const { ports } = benchOf(root, clock);
afterAll(() => {
  ports.close();
  remove(root);
});

const act = (action: Parameters<typeof ports.act>[0], person: string) => {
  const acted = ports.act(action, { person });
  if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
  return acted.events;
};
const raise = { do: 'snag', severity: 'major', cause: 'other', text: 'A scratch.' } as const;
const decide = { do: 'decide', reason: 'polish', pin: '2705' } as const;
const screen = () =>
  stepView({ ...START, person: 'jb', screen: { name: 'step', cursor: TOP } }, ports.world(), 78, 20, {
    colours: 'none',
    ascii: false,
  })
    .lines.map((spans) => spans.map(({ text }) => text).join(''))
    .join(' ')
    .replace(/\s+/g, ' ');

it('says what an open snag waits for, before and after it is decided', () => {
  ports.open('S01-1');
  work(
    ports,
    clock,
    ({ do: act }) => act === 'answer' && ports.world().open!.state.steps.get('seal')!.status === 'done',
  );
  const [snag] = act({ ...raise, step: 'cut' }, 'jb');
  expect(screen()).toMatch(/Nothing can be done.*"A scratch\.": waits for a decision\. F6/);
  act({ ...decide, snag: snag!.n, disposition: 'repair' }, 'ot');
  // The step is done again; what rests on it waits.
  expect(() => work(ports, clock, () => false)).toThrow('is open and touches');
  expect(screen()).toMatch(/"A scratch\.": repair\. .* F6 closes it/);
  expect(screen()).not.toContain('Nothing can be done');
});
