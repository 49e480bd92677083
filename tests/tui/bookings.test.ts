/** At the keys: what is offered, what waits, what is asked again, and who is at the bench. */
import { describe, expect, it } from 'vitest';
import { localTimes } from '../../src/base/wallclock.js';
import { readEntry } from '../../src/tui/entry.js';
import { drawnText } from './drawn.js';
import { freshBench, leaveBench } from './realbench.js';
import { INSTRUMENTS, rig } from './support.js';

const SIZE = { columns: 80, rows: 24 };

function atLength(person = 'iv') {
  const bench = rig();
  bench.scan('P01-1');
  bench.scan(person);
  bench.press('right', '"x', 'backspace', 'right');
  return bench;
}
const line = (bench: ReturnType<typeof rig>) => drawnText(bench.core, SIZE).replace(/\s+/g, ' ');

describe('the reading line', () => {
  it('names the instrument and its U, or what is missing; one scan changes it', () => {
    const bench = atLength();
    expect(line(bench)).toContain('Asks for an instrument: length.');
    bench.scan('T1');
    expect(line(bench)).toMatch(/ask cut\/length, with T1 \(± [01]\.\d+ mm\)/);
    bench.scan('T2');
    expect(line(bench)).toMatch(/with T2 \(± [01]\.\d+ mm\)/);
  });

  it('what was typed with the wrong instrument in hand waits, and comes back with the right one', () => {
    const bench = atLength();
    bench.scan('T1');
    bench.scan('H1');
    expect(line(bench)).toContain('H1 in hand does not measure length. Right takes up T1');
    const before = bench.events('P01-1').length;
    bench.scan('1001');
    expect(bench.core.state().note?.text).toMatch(/H1 \(thermometer\) does not measure length.* 1001 waits/);
    expect(bench.events('P01-1')).toHaveLength(before);
    bench.press('"x', 'backspace', 'right');
    expect(bench.core.state()).toMatchObject({ inHand: 'T1', entry: '1001' });
    bench.press('enter');
    expect(bench.events('P01-1').at(-1)).toMatchObject({
      answer: { readings: [{ raw: '1001', instrument: 'T1' }] },
    });
  });
});

describe('an arrow pressed again', () => {
  it('too soon is said on the line, beside the result of the first; the window does not start anew', () => {
    const bench = rig();
    bench.scan('P01-1');
    bench.scan('iv');
    bench.pace = 100;
    bench.press('right');
    const first = bench.core.state().note?.text;
    bench.press('right');
    expect(bench.core.state().note).toMatchObject({ text: first, todo: expect.stringContaining('too soon') });
    const count = bench.events('P01-1').length;
    // Pressed every 0.3 to 0.5 s: the third or fourth is far enough from the one that counted.
    bench.pace = 200;
    bench.press('right', 'right', 'right', 'right');
    expect(bench.events('P01-1').length).toBeGreaterThan(count);
  });

  it('held down answers once, however long', () => {
    const bench = rig();
    bench.scan('P01-1');
    bench.scan('iv');
    bench.pace = 15;
    const before = bench.events('P01-1').length;
    bench.press(...Array.from({ length: 200 }, () => 'right'));
    expect(bench.events('P01-1').filter(({ kind }) => kind === 'answered').length).toBe(
      bench
        .events('P01-1')
        .slice(0, before)
        .filter(({ kind }) => kind === 'answered').length + 1,
    );
  });
});

describe('people', () => {
  const SET = ['1000', '1000', '700', '700', '1221', '1220.5', '1221'];
  const atSet = (person: string) => {
    const bench = atLength(person);
    bench.scan('T2');
    bench.scan('1000');
    bench.scan('4');
    bench.scan('LOT-1');
    bench.scan('1');
    return bench;
  };

  it('after a release by a second person the first is at the bench again', () => {
    const bench = atSet('iv');
    for (const reading of SET) bench.scan(reading);
    bench.press('right');
    bench.scan('to');
    bench.press('f8');
    bench.press('"4711', 'f8');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ kind: 'released', by: 'tom' });
    expect(bench.core.state()).toMatchObject({
      person: 'ilse',
      note: { todo: 'Ilse Varga is at the bench again.' },
    });
  });

  it('a second name holds through a set to its last reading, and over a change of people, until it is taken back', () => {
    const bench = rig();
    bench.scan('P01-1');
    bench.scan('np');
    bench.press('right');
    bench.scan('iv');
    bench.scan('iv');
    bench.press('"x', 'backspace', 'right');
    expect(bench.core.state().seconds).toEqual({ nia: 'ilse' });
    bench.scan('to');
    bench.scan('np');
    expect(line(bench)).toContain('NP with IV');
    bench.press('f4', 'down', 'up', 'enter');
    expect(bench.core.state()).toMatchObject({
      seconds: {},
      note: { text: 'The second name is taken back.' },
    });
  });
});

describe('a set', () => {
  it('asked about keeps what is typed until the reading that is meant is marked', () => {
    const bench = atLength();
    bench.scan('T2');
    bench.scan('1000');
    bench.scan('4');
    bench.scan('LOT-1');
    bench.scan('1');
    for (const reading of ['1000', '1000', '700', '700', '1221', '1226', '1221']) bench.scan(reading);
    expect(bench.core.state().screen).toMatchObject({
      name: 'question',
      question: { id: 'measure.misread-open' },
    });
    bench.scan('1220.5');
    expect(bench.core.state()).toMatchObject({ entry: '1220.5', note: { text: 'Which reading is it?' } });
    bench.press('down', 'down', 'down', 'down', 'down', 'down', 'enter');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ kind: 'answered', verdict: { outcome: 'pass' } });
  });

  it('is begun anew by one key', () => {
    const bench = atLength();
    bench.scan('T2');
    bench.scan('1000');
    bench.scan('4');
    bench.scan('LOT-1');
    bench.scan('1');
    bench.scan('1000');
    bench.scan('1001');
    bench.press('home');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ kind: 'set-begun', check: 'square/set' });
    expect(line(bench)).toContain('ask square/set: bottom');
  });
});

describe('a code', () => {
  it('of two things is taken only with its letter', () => {
    const twice = [...INSTRUMENTS, { ...INSTRUMENTS[0]!, id: 'P01-1' }];
    const bench = rig({}, { instruments: twice });
    bench.scan('P01-1');
    expect(bench.core.state().note).toMatchObject({
      text: '"P01-1" is the code of a unit; an instrument; nothing was taken.',
      todo: 'Type it with its letter: U.P01-1, I.P01-1.',
    });
    bench.scan('U.P01-1');
    expect(bench.core.world().open?.id).toBe('P01-1');
    expect(readEntry('i.t2', bench.core.world())).toMatchObject({
      kind: 'instrument',
      instrument: { id: 'T2' },
    });
    expect(readEntry('L.T2', bench.core.world())).toMatchObject({ kind: 'words', text: 'T2' });
  });

  it('of GS1 keeps its separator from the scanner to the check', () => {
    const { bench, root } = freshBench();
    try {
      bench.press('jb\r', '10SE-9\u001d17280331');
      expect(bench.core.state().entry).toBe('10SE-9\u001d17280331');
      bench.press('\u001b', '\u001b[200~10SE-9\u001d17280331\u001b[201~');
      expect(bench.core.state().entry).toBe('10SE-9\u001d17280331');
    } finally {
      leaveBench(bench, root);
    }
  });
});

it('nothing is marked in a list, and the keys do not say so, before the arrows were used', () => {
  const bench = rig();
  bench.press('f4');
  const before = drawnText(bench.core, SIZE);
  expect(before.split('\n').at(-1)).not.toContain('choose');
  bench.press('down');
  expect(drawnText(bench.core, SIZE).split('\n').at(-1)).toContain('choose');
});

it('times on the screen are those of the clock on the wall', () => {
  const at = new Date(Date.UTC(2026, 0, 15, 10, 42));
  const two = (n: number) => String(n).padStart(2, '0');
  const local = `${two(at.getHours())}:${two(at.getMinutes())}`;
  expect(localTimes('ready at 2026-01-15 10:42 UTC.', undefined, 0)).toMatch(
    new RegExp(`ready at 2026-01-1\\d ${local}\\.`),
  );
  expect(localTimes('nothing of that', undefined, 0)).toBe('nothing of that');
});
