import { describe, expect, it } from 'vitest';
import { currentTask } from '../../src/tui/currenttask.js';
import { listOf } from '../../src/tui/screens/screens.js';
import { rig } from './support.js';

/** At the bench with a person, a tape and the unit; the first check is asked. */
function atWork() {
  const bench = rig();
  bench.scan('P01-1');
  bench.scan('iv');
  bench.scan('T2');
  return bench;
}

const asked = (bench: ReturnType<typeof rig>) => currentTask(bench.state(), bench.core.state().at)?.check?.id;
const kinds = (bench: ReturnType<typeof rig>) => bench.events('P01-1').map(({ kind }) => kind);
const note = (bench: ReturnType<typeof rig>) => bench.core.state().note?.text ?? '';

/** Answers everything up to the squareness set. */
function toSquare() {
  const bench = atWork();
  bench.press('right', 'right');
  bench.press('"x', 'backspace');
  bench.press('right');
  bench.scan('1000.0');
  bench.scan('4');
  bench.scan('LOT-77');
  bench.press('down', 'up', 'enter');
  expect(asked(bench)).toBe('square/set');
  return bench;
}

describe('the bench', () => {
  it('builds a small unit by keys to its end, every answer an event in the name of who signs', () => {
    const bench = toSquare();
    for (const reading of ['1000', '1000.5', '700', '700.5', '1221', '1220.5', '1221']) bench.scan(reading);
    expect(kinds(bench).filter((kind) => kind === 'read')).toHaveLength(7);
    const set = bench.events('P01-1').findLast(({ kind }) => kind === 'answered');
    expect(set).toMatchObject({ check: 'square/set', by: 'ilse', verdict: { outcome: 'pass' } });
    // The hold waits; the one who did the step may not release it, and Enter never does.
    expect(bench.state().steps.get('square')?.status).toBe('held');
    bench.press('f8', 'enter', 'right', 'tab');
    expect(kinds(bench)).not.toContain('released');
    bench.press('"x', 'backspace', 'f8');
    expect(kinds(bench)).not.toContain('released');
    expect(bench.core.state().note?.tone).toBe('bad');
    bench.scan('to');
    bench.press('"4711', 'f8');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ kind: 'released', by: 'tom', pin: true });
    bench.press('right');
    expect(bench.state().finished).toBe(true);
    expect(kinds(bench).at(-1)).toBe('finished');
  });

  it('logs nothing while nobody is at the bench', () => {
    const bench = rig();
    bench.scan('P01-1');
    bench.press('right');
    expect(bench.events('P01-1')).toEqual([]);
    expect(note(bench)).toContain('Nobody is at the bench');
  });

  it('takes a key that is held down once', () => {
    const bench = atWork();
    bench.pace = 15;
    bench.press('right', 'right', 'right', 'right');
    expect(kinds(bench).filter((kind) => kind === 'answered')).toHaveLength(1);
    bench.press('"x', 'backspace', 'right');
    expect(kinds(bench).filter((kind) => kind === 'answered')).toHaveLength(2);
  });

  it('acts on a scan from every screen, and Esc never writes', () => {
    for (const key of [
      'f1',
      'f2',
      'f3',
      'f4',
      'f5',
      'f6',
      'f7',
      'f9',
      'f10',
      'ctrl+b',
      'ctrl+e',
      'ctrl+y',
      'ctrl+z',
      'ctrl+x',
    ] as const) {
      const bench = atWork();
      bench.press(key);
      bench.scan('p02-2');
      expect(bench.core.world().open?.id, key).toBe('P02-2');
      bench.press(key, 'escape', 'escape', 'escape');
      expect(bench.events('P01-1').concat(bench.events('P02-2')), key).toEqual([]);
    }
  });

  it('takes a scan over the list of instruments as the choice, and is back at the step', () => {
    const bench = atWork();
    const { id } = bench.core.world().instruments[0]!;
    bench.press('ctrl+e');
    bench.scan(id);
    expect(bench.core.state().screen.name).toBe('step');
    expect(note(bench)).toContain(id);
  });

  it('opens another unit in two keys', () => {
    const bench = atWork();
    bench.press('f2', 'down', 'enter');
    expect(bench.core.world().open?.id).toBe('P02-1');
  });

  it('does nothing on Enter in a list that was not moved', () => {
    const bench = atWork();
    bench.press('f2', 'enter', 'enter');
    expect(bench.core.world().open?.id).toBe('P01-1');
    expect(bench.core.state().screen.name).toBe('units');
  });

  it('lists first the instruments that the check at hand is read with', () => {
    const bench = atWork();
    const first = () => {
      const world = bench.core.world();
      const instruments = world.instruments.toSorted(
        (a, b) => Number(a.kind === 'tape') - Number(b.kind === 'tape'),
      );
      const { id } = listOf(bench.core.state(), { ...world, instruments })[0]!;
      return world.instruments.find((each) => each.id === id)!.kind;
    };
    bench.press('ctrl+e');
    expect(first()).not.toBe('tape');
    bench.press('escape', 'right', '"x', 'backspace', 'right');
    expect(asked(bench)).toBe('cut/length');
    bench.press('ctrl+e');
    expect(first()).toBe('tape');
  });

  it('says a count without a unit', () => {
    const bench = atWork();
    bench.press('right', '"x', 'backspace', 'right');
    bench.scan('1000.0');
    bench.scan('4');
    expect(bench.core.state().note).toEqual({ tone: 'good', text: 'PASS  4: ask cut/pieces' });
  });

  it('says so, but not of the second Enter that a scanner may send', () => {
    const bench = atWork();
    bench.press('f2', 'enter');
    expect(note(bench)).toContain('Enter chose nothing');
    const scanned = toSquare();
    const said = note(scanned);
    scanned.pace = 2;
    scanned.scan('ZZ-9');
    const unknown = note(scanned);
    expect(unknown).not.toBe(said);
    scanned.press('enter');
    expect(note(scanned)).toBe(unknown);
  });

  it('says what it makes of an unknown code, and logs nothing', () => {
    const bench = atWork();
    bench.scan('ZZ-9');
    expect(note(bench)).toContain('"ZZ-9" is nothing this workshop knows');
    bench.scan('12.5');
    expect(note(bench)).toContain('reads like a measurement');
    expect(kinds(bench)).toEqual([]);
  });

  it('asks again about a likely misread; Left measures again, Right stands by it', () => {
    const bench = atWork();
    bench.press('right', '"x', 'backspace', 'right');
    bench.scan('1012.0');
    expect(bench.core.state().screen.name).toBe('question');
    bench.press('left');
    expect(kinds(bench).filter((kind) => kind === 'answered')).toHaveLength(2);
    bench.scan('900');
    expect(bench.core.state().screen.name).toBe('question');
    bench.press('"y', 'backspace', 'right');
    const last = bench.events('P01-1').at(-1);
    expect(last).toMatchObject({ kind: 'answered', check: 'cut/length', verdict: { outcome: 'fail' } });
    // A failed check is not stepped over.
    expect(asked(bench)).toBe('cut/length');
    bench.scan('1000');
    expect(asked(bench)).toBe('cut/pieces');
  });

  it('offers measuring again, rework, or a snag that parks the unit, after a failure', () => {
    const bench = atWork();
    bench.press('right', '"x', 'backspace', 'left');
    expect(bench.events('P01-1').at(-1)).toMatchObject({
      check: 'papers/hand',
      verdict: { outcome: 'fail' },
    });
    expect(asked(bench)).toBe('papers/hand');
    bench.press('down', 'down', 'down', 'enter');
    expect(bench.core.state().screen.name).toBe('form');
    for (let index = 0; index < 4; index += 1) bench.press('"x', 'backspace', 'right');
    expect(bench.core.state().screen).toMatchObject({
      name: 'form',
      given: { park: 'yes', severity: 'minor' },
    });
    // Enter does not carry a form out; Right does.
    bench.press('enter');
    expect(kinds(bench)).not.toContain('snag-raised');
    bench.press('right');
    expect(kinds(bench).slice(-2)).toEqual(['snag-raised', 'parked']);
    bench.press('ctrl+b');
    expect(kinds(bench).at(-1)).toBe('resumed');
  });

  it('takes back the last answer with a reason, and asks it again', () => {
    const bench = toSquare();
    bench.scan('1000');
    bench.scan('1003');
    bench.press('ctrl+z', 'right');
    expect(kinds(bench)).not.toContain('corrected');
    bench.press('"x', 'backspace', 'right');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ kind: 'corrected', reason: 'typed wrongly' });
    bench.scan('1000.5');
    expect(bench.events('P01-1').at(-1)).toMatchObject({
      kind: 'read',
      key: 'top',
      reading: { value: 1000.5 },
    });
  });

  it('shows what a rework re-opens before it starts, then stands at that step', () => {
    const bench = toSquare();
    bench.press('f3', 'home', 'page-up', 'f7', 'right');
    expect(bench.core.state().screen).toMatchObject({ name: 'form', form: { id: 'rework', step: 'papers' } });
    bench.press('"x', 'backspace', 'right');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ kind: 'reworked', step: 'papers' });
    expect(asked(bench)).toBe('papers/read');
  });

  it('asks for a second name where the person may not do the stage alone, once', () => {
    const bench = rig();
    bench.scan('P01-1');
    bench.scan('np');
    bench.press('right');
    expect(bench.core.state().screen).toMatchObject({ name: 'form', form: { id: 'second' } });
    bench.scan('iv');
    // A name chosen is nobody's word: the second person confirms with their own badge.
    bench.scan('iv');
    bench.press('"x', 'backspace', 'right');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ by: 'nia', second: 'ilse' });
    bench.press('"x', 'backspace', 'right');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ check: 'papers/hand', by: 'nia', second: 'ilse' });
  });

  it('keeps what could not be saved, and tries it again', () => {
    const bench = atWork();
    bench.press('right', '"x', 'backspace', 'right');
    bench.failing = true;
    bench.scan('1000.0');
    expect(bench.core.state().screen).toMatchObject({ name: 'question', retry: true });
    const { screen } = bench.core.state();
    expect(screen.name === 'question' && String(screen.question.text)).toBe('Not saved: 1000.0');
    bench.press('right');
    expect(bench.core.state().screen).toMatchObject({ name: 'question', retry: true });
    bench.failing = false;
    bench.press('"x', 'backspace', 'right');
    expect(bench.events('P01-1').at(-1)).toMatchObject({ kind: 'answered', check: 'cut/length' });
    expect(bench.core.state().screen.name).toBe('step');
  });

  it('hands the bench back to nobody after idle time, before the next key counts', () => {
    const bench = atWork();
    bench.pace = 11 * 60_000;
    bench.press('right');
    expect(bench.core.state().person).toBeUndefined();
    expect(kinds(bench)).toEqual([]);
  });

  it('does not take a scan that is longer than any code, and clears it', () => {
    const bench = atWork();
    bench.scan('P01-1'.repeat(100));
    expect(bench.core.state().entry).toBe('');
    expect(note(bench)).toContain('too long');
  });

  it('judges a set in which one reading was taken again', () => {
    const bench = toSquare();
    for (const reading of ['1000', '1000.5', '700', '700.5', '1221', '1220.5']) bench.scan(reading);
    expect(kinds(bench).filter((kind) => kind === 'read')).toHaveLength(6);
    bench.scan('1221');
    expect(kinds(bench).at(-1)).toBe('answered');
  });
});
