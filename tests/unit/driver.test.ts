/** The builder that answers what passes: who it sends to the bench, what it types, and where it is stuck. */
import { describe, expect, it } from 'vitest';
import type { RouteCheck } from '../../src/procedure/types.js';
import { nextMove, passingValue } from '../../src/unit/autopilot.js';
import { someProblem } from '../problems.js';
import { Bench, check, context, opened, PEOPLE, RULES, route, SMALL, step } from './routes.js';

const here = context(0);

describe('the unattended builder', () => {
  it('says why it is stuck where nobody or nothing fits', () => {
    const bench = new Bench();
    const alone = { ...bench.context(), workshop: { ...RULES, people: [] } };
    expect(nextMove(bench.state, alone)).toMatchObject({
      kind: 'stuck',
      why: expect.stringContaining('nobody'),
    });
    const bare = { ...bench.context(), instruments: [] };
    expect(nextMove(bench.state, bare)).toMatchObject({
      kind: 'stuck',
      why: expect.stringContaining('length'),
    });
    const refused = opened(SMALL, { problems: [someProblem('p', 'no', '')] });
    expect(nextMove(refused, alone)).toMatchObject({
      kind: 'stuck',
      why: expect.stringContaining('override'),
    });
    expect(nextMove(refused, { ...bench.context(), person: 'rl' }, { pins: { rl: '1111' } })).toMatchObject({
      action: { do: 'override', pin: '1111' },
    });
    bench.do({ do: 'snag', cause: 'other', text: 'bent' }, 'ql');
    bench.do({ do: 'decide', snag: 2, disposition: 'scrap', reason: 'bent' }, 'ql');
    expect(nextMove(bench.state, bench.context())).toMatchObject({ kind: 'stuck' });
  });
  it('types what passes each kind of check, in the units of the workshop', () => {
    const value = (more: Partial<RouteCheck>, on = here) => passingValue(check('s/a', more), on, {});
    expect(value({ kind: 'count' })).toBe('0');
    expect(value({ kind: 'choice' })).toBe('');
    expect(value({ kind: 'text' })).toBe('as marked');
    expect(value({ kind: 'text', lot: 'glass' })).toBe('GLASS-2601');
    expect(value({ kind: 'number', expect: 12 }, { ...here, workshop: { ...RULES, units: 'inch' } })).toBe(
      '12 mm',
    );
    expect(value({ kind: 'number', against: 'value' })).toBe('0');
    expect(value({ kind: 'number' })).toBe('0');
    expect(value({ kind: 'square' })).toMatchObject({ top: '1000', left: '1000' });
  });
});

describe('the unattended builder, with people who may do different things', () => {
  const hold = { id: 'H', title: 'Look', notSamePerson: true, evidence: false };
  const held = (more: Partial<typeof hold> = {}): Bench => {
    const bench = new Bench(
      route({ s: [] }, [step('g', 's', { hold: { ...hold, ...more } }), step('z', 's')]),
    );
    bench.do({ do: 'answer', check: 'g/a', value: 'yes' }, 'ql');
    return bench;
  };
  const only = (...ids: string[]) => ({
    workshop: { ...RULES, people: PEOPLE.filter(({ id }) => ids.includes(id)) },
  });

  it('lets somebody release who did not do the work, where that is asked', () => {
    const move = (bench: Bench, more: object, options = {}) =>
      nextMove(bench.state, { ...bench.context(), ...more }, options);
    const release = { kind: 'act', action: { do: 'release', step: 'g' } };
    expect(move(held(), { person: 'mk' })).toEqual({ kind: 'act', action: { do: 'person', person: 'rl' } });
    expect(move(held(), { person: 'rl' })).toEqual(release);
    expect(move(held(), { person: 'rl' }, { pins: { rl: '1111' } })).toMatchObject({
      action: { pin: '1111' },
    });
    expect(move(held(), { person: 'ql', ...only('ql') })).toEqual({
      kind: 'stuck',
      why: 'g: held',
    });
    expect(move(held({ notSamePerson: false }), { person: 'ql', ...only('ql') })).toEqual(release);
    expect(move(held({ evidence: true }), { person: 'rl' }, { evidence: 'p.jpg' })).toMatchObject({
      action: { evidence: ['p.jpg'] },
    });
    expect(move(held({ evidence: true }), { person: 'rl' })).toEqual(release);
  });

  it('goes on elsewhere where nobody may release what is held', () => {
    const bench = new Bench(route({ s: [], t: [] }, [step('g', 's', { hold }), step('z', 't')]));
    bench.yes('g/a');
    expect(nextMove(bench.state, { ...bench.context(), ...only('mk') })).toMatchObject({
      action: { do: 'answer', check: 'z/a' },
    });
  });

  it('lets somebody override who may, with a PIN where they have one', () => {
    const refused = opened(SMALL, { problems: [someProblem('p', 'no', '')] });
    const action = { do: 'override', problem: 'p', reason: 'unattended demonstration' };
    const move = (more: object, options = {}) => nextMove(refused, { ...context(1), ...more }, options);
    expect(move({ person: 'mk' })).toEqual({ kind: 'act', action: { do: 'person', person: 'rl' } });
    expect(move({ person: 'ql', ...only('ql') })).toEqual({ kind: 'act', action });
  });
});
