import { describe, expect, it } from 'vitest';
import { parseLimits } from '../../src/measure/limits.js';
import { compareLimits, compareProcedures, differenceText } from '../../src/procedure/compare.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { casement, must, small, sourceOf } from './samples.js';

const read = (change: (text: string) => string = (t) => t) => must(parseProcedure(small(change)));
const changes = (change: (text: string) => string) =>
  compareProcedures(read(), read(change)).map(({ change: what, thing, id, fields }) =>
    [what, thing, id, ...fields.map(({ name }) => name)].join(' '),
  );

describe('two versions of a procedure', () => {
  it('are alike when nothing changed', () => {
    expect(compareProcedures(casement, casement)).toEqual([]);
  });

  it('differ by steps and checks added and dropped', () => {
    const dropped = (t: string) => t.replace(/ {6}- id: make\.sash[\s\S]*?(?= {6}- id: make\.end)/, '');
    // Nothing else moves when a step between two others goes.
    expect(changes(dropped)).toEqual(['dropped step make.sash', 'dropped check make.sash/done']);
    expect(compareProcedures(read(dropped), read()).map(({ change, id }) => `${change} ${id}`)).toEqual([
      'added make.sash',
      'added make.sash/done',
    ]);
  });

  it('differ by what changed in a step or check, with both wordings', () => {
    expect(
      changes((t) => t.replace('Put it together.', 'Join it.').replace('version: "1"', 'version: "2"')),
    ).toEqual(['changed procedure small version', 'changed step make.frame do']);
    const [difference] = compareProcedures(
      read(),
      read((t) => t.replace('limits: [cut.length]', 'limits: [saw.first-off-length]')),
    );
    expect(difference).toEqual({
      change: 'changed',
      thing: 'check',
      id: 'cut.frame/length',
      fields: [{ name: 'limits', was: 'cut.length', now: 'saw.first-off-length' }],
    });
  });

  it('differ by steps that moved', () => {
    const swapped = (t: string) => {
      const [sash] = / {6}- id: make\.sash[\s\S]*?(?= {6}- id: make\.end)/.exec(t)!;
      return `${t.replace(sash, '')}${sash}`;
    };
    expect(changes(swapped)).toEqual(['moved step make.end after', 'moved step make.sash after']);
  });

  it('differ by limits moved, added, dropped, and given another source', () => {
    const file = sourceOf('shared/limits.yaml');
    const was = must(parseLimits(file)).limits;
    expect(compareLimits(was, was)).toEqual([]);
    const [first, second] = was;
    const moved = { ...first!, bands: [{ high: 99 }] };
    const resourced = { ...second!, source: { kind: 'house-rule' as const, text: 'another' } };
    const now = [moved, resourced, ...was.slice(3), { ...first!, id: 'new.limit' }];
    expect(compareLimits(was, now).map(({ change, id }) => `${change} ${id}`)).toEqual([
      `moved ${first!.id}`,
      `changed ${second!.id}`,
      'added new.limit',
      `dropped ${was[2]!.id}`,
    ]);
    expect(differenceText(compareLimits(was, now))[0]).toBe(`> limit ${first!.id}`);
    expect(differenceText(compareLimits(was, now)).join('\n')).toContain('allows: most 99');
  });
});
