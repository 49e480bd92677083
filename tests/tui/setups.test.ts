/** Set-ups at the bench, by its keys over a real workshop: proven from a refused step and from their list, ended, failed. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { proveSetups } from '../../src/session/setups.js';
import { realDisk } from '../../src/store/disk.js';
import { readSetupLog } from '../../src/store/setups.js';
import { formLines } from '../../src/tui/screens/form.js';
import {
  type Bench,
  type Clock,
  DOWN,
  ESC,
  freshBench,
  LEFT,
  leaveBench,
  RIGHT,
  SETUPS,
  sawReadings,
  work,
} from './realbench.js';

let root: string;
let clock: Clock;
let bench: Bench;
beforeEach(() => {
  ({ root, clock, bench } = freshBench());
});
afterEach(() => leaveBench(bench, root));

const log = () => {
  const read = readSetupLog(realDisk, root);
  if (!read.ok) throw new Error('no log');
  return read.value.map((event) =>
    event.kind === 'first-off' ? `${event.setup} ${event.passed}` : event.kind,
  );
};
const note = () => `${bench.core.state().note?.text} ${bench.core.state().note?.todo ?? ''}`;
const title = () => {
  const { screen } = bench.core.state();
  if (screen.name !== 'form') return screen.name;
  return formLines(bench.core.state(), screen, bench.core.world(), 200, 60)
    .map((spans) => spans.map(({ text }) => text).join(''))
    .join('\n');
};
/** The checks of the saw, each by its shortest way. */
const firstOff = (gap: string) => bench.press(...sawReadings(gap));

it('a cutting step that waits for its set-up leads straight to the first-off, and back', () => {
  bench.press('jb\r', 'P01-1\r');
  const stopped = work(bench.ports, clock, () => false);
  expect(stopped.problem?.id).toBe('build.no-setup');
  // The work above took longer than a bench may stand idle, so nobody is at it.
  bench.press('jb\r', `${stopped.hand.inHand}\r`);
  const { action } = stopped;
  const value = action?.do === 'answer' ? action.value : '';
  bench.press(`${typeof value === 'string' ? value : [Object.values(value)[0]].flat()[0]}\r`);
  expect(title()).toContain('A set-up');
  expect(title()).toContain('Are all guards in place?');
  firstOff('0.05');
  expect(title()).toContain('This will be written in the name of Joan Bexley');
  expect(log()).toEqual([]);
  bench.press(RIGHT);
  expect(log()).toEqual(['saw true']);
  expect(note()).toContain('PASS  Mitre saw is proven: saw-1.');
  expect(bench.core.state().screen.name).toBe('step');
});

it('a reading that was typed when the set-up was asked for stands on the line again, whatever was taken up meanwhile', () => {
  bench.press('jb\r');
  proveSetups(bench.ports);
  bench.press(SETUPS);
  bench.choose('rill');
  bench.choose('it was knocked');
  bench.press(RIGHT, ESC, 'P05-1\r');
  const stopped = work(
    bench.ports,
    clock,
    (action) => action.do === 'answer' && action.check.startsWith('addon.drill'),
  );
  bench.press('jb\r', 'C1\r');
  expect(stopped.action).toBeDefined();
  bench.press('54.0\r');
  expect(title()).toContain('A set-up');
  while (bench.core.state().screen.name === 'form' && !title().includes('This will be written')) {
    const { texts } = bench;
    bench.press(texts().length > 0 ? RIGHT : `${/(\d+) mm/.exec(title().split('\n').at(-1)!)?.[1] ?? '5'}\r`);
  }
  bench.press(RIGHT);
  if (bench.core.state().screen.name === 'question') bench.press(RIGHT);
  expect(note()).toContain('PASS');
  expect(bench.core.state().entry).toBe('54.0');
});

it('the list says which are proven; one is proven, then ended by a knock, from there', () => {
  bench.press(SETUPS);
  expect(bench.texts()[0]).toContain('to be proven: no first-off yet');
  bench.choose('Mitre saw');
  bench.choose('prove it');
  firstOff('0.05');
  bench.press(RIGHT);
  // Nobody signs: refused, and the form with its answers stays.
  expect(note()).toContain('Nobody is at the bench');
  expect(title()).toContain('500');
  bench.press('jb\r', SETUPS);
  bench.choose('Mitre saw');
  bench.choose('prove it');
  firstOff('0.05');
  bench.press(RIGHT);
  expect(bench.texts()[0]).toContain('proven until 18:1');
  bench.choose('Mitre saw');
  bench.choose('it was knocked');
  bench.press(RIGHT);
  expect(log()).toEqual(['saw true', 'setup-ended']);
  expect(bench.texts()[0]).toContain('it was knocked since the first-off saw-1');
});

it('a reading that looks misread is asked about, and the other answers are kept', () => {
  bench.press('jb\r', SETUPS);
  bench.choose('Mitre saw');
  bench.choose('prove it');
  bench.press(...sawReadings('0.05', '560'), RIGHT);
  expect(title()).toBe('question');
  bench.press(LEFT);
  expect(title()).toContain('560');
  bench.press(LEFT, '500\r', RIGHT);
  expect(log()).toEqual(['saw true']);
});

it('a first-off that fails names the units in doubt, and raises a snag on all of them at once', () => {
  bench.press('jb\r');
  proveSetups(bench.ports);
  bench.press('P01-1\r');
  work(bench.ports, clock, (action) => action.do === 'answer' && action.check.startsWith('cut.frame/plane'));
  bench.press('jb\r', SETUPS);
  bench.choose('Mitre saw');
  bench.choose('prove it');
  firstOff('0.3');
  bench.press(RIGHT);
  expect(note()).toMatch(
    /^FAIL {2}Largest feeler that enters two joined first-off pieces 0\.3: Mitre saw must be set and proven again\./,
  );
  expect(note()).toContain('pier-house/P01-1');
  expect(bench.texts()[0]).toContain('1 unit in doubt');
  bench.choose('Mitre saw');
  bench.choose('raise a snag on each');
  bench.press(RIGHT);
  expect(note()).toContain('1 snag raised');
  const { snags } = bench.core.world().open!.state;
  expect(snags.map(({ raised }) => raised.touches.setup)).toEqual(['saw-1']);
  // The same units are not offered twice.
  expect(bench.texts()[0]).not.toContain('in doubt');
  expect(bench.ports.act({ do: 'snag-setup', setup: 'saw' }, { person: 'jb' })).toMatchObject({
    kind: 'refused',
    problem: { id: 'bench.nothing-in-doubt' },
  });
});

it('Enter writes nothing in this form', () => {
  bench.press('jb\r', SETUPS);
  bench.choose('Mitre saw');
  bench.choose('prove it');
  firstOff('0.05');
  bench.press('\r', DOWN, '\r', ESC);
  expect(log()).toEqual([]);
});
