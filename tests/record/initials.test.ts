import { describe, expect, it } from 'vitest';
import { nameRemover, namer } from '../../src/record/initials.js';
import { tellingOf } from '../../src/record/telling.js';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, FINISHED, PEOPLE, SETOUT } from './states.js';

const { say } = tellingOf({});

describe('initials in place of names', () => {
  it('leave no name of a person anywhere in the record, and say so', () => {
    const view = recordView(FINISHED, SETOUT, { ...CONTEXT, initials: true });
    const all = JSON.stringify(view);
    for (const { name } of PEOPLE)
      for (const part of [name, ...name.split(' ')]) expect(all).not.toContain(part);
    expect(view.snags[0]!.text).toBe('gap open at the top left corner, SW saw it');
    expect(view.stages[0]!.steps[0]!.checks[0]!.answer!.by).toBe('SW');
    expect(view.remarks.join()).toMatch(/initials/);
    expect(view.unit.customer).toBe(CONTEXT.customer);
    expect(view.seal).toEqual({ ...recordView(FINISHED, SETOUT, CONTEXT).seal, by: 'OT' });
  });

  it('keep two people with the same initials apart', () => {
    const both = [...PEOPLE, { ...PEOPLE[1]!, id: 'sue', name: 'Sue Ward' }];
    const named = namer(both, true, say);
    expect(named('sam')).toBe('SW');
    expect(named('sue')).toBe('SW 2');
    expect(nameRemover(both)('Sue Ward and Sam Wick')).toBe('SW 2 and SW');
  });

  it('take any name apart, whatever signs it has', () => {
    const people = [{ ...PEOPLE[0]!, name: 'Ann Smith-Jones (temp.)', initials: 'AS' }];
    expect(nameRemover(people)('Smith-Jones squared it')).toBe('AS squared it');
  });

  it('name somebody who is no longer listed without inventing', () => {
    expect(namer(PEOPLE, false, say)('old-hand')).toBe('old-hand (no longer listed)');
    expect(namer(PEOPLE, true, say)('old-hand')).toBe('OH (no longer listed)');
  });

  it('leave words alone that only hold a name', () => {
    expect(nameRemover(PEOPLE)('the wicket and the sample')).toBe('the wicket and the sample');
  });
});
