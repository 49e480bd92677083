/** The lists of the demonstration job's units: nothing missing, nothing twice, and each row done with the steps that make it. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/base/problem.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { makeRoute } from '../../src/procedure/route.js';
import { fold } from '../../src/unit/fold.js';
import { listedRows, listsOf, rowsOfStep } from '../../src/unit/worklists.js';
import { contextsOf } from '../../src/window/context.js';
import { parseJob } from '../../src/window/job.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import { WORK_LISTS, workRows } from '../../src/window/worklists.js';

function from<T>(file: string, parse: (source: { file: string; text: string }) => Result<T>): T {
  const made = parse({ file, text: readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8') });
  if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join('\n'));
  return made.value;
}
const procedure = from('procedures/casement.yaml', parseProcedure);
const set = from('shared/profile-sets/w52.yaml', parseProfileSet);
const UNITS = from('shared/jobs/pier-house.yaml', parseJob).units.map((unit) => setOut(unit, set));

const stateOf = (made: (typeof UNITS)[number]) => {
  const route = makeRoute(procedure, contextsOf(made));
  if (!route.ok) throw new Error('no route');
  return fold(route.value, [], { now: '2026-03-02T07:00:00.000Z' });
};

describe.each(UNITS.map((made) => [made.unit.id, made] as const))('the lists of %s', (_id, made) => {
  it('hold every bar, bead, gasket and loose piece once', () => {
    const metal = made.parts.filter(({ kind }) => kind !== 'gasket');
    const gaskets = made.parts.filter(({ kind }) => kind === 'gasket');
    expect(workRows('cutting', made)).toHaveLength(metal.length);
    expect(workRows('kit', made)).toHaveLength(gaskets.length + made.extras.length);
    const packers = made.lights.flatMap((light) => light.packers);
    expect(workRows('packers', made)).toHaveLength(packers.length);
    expect(workRows('glass', made)).toHaveLength(made.lights.length);
  });

  it('hold every mark of every part once', () => {
    const listed = workRows('machining', made).flatMap(({ marks = [] }) => marks);
    expect(listed).toHaveLength(new Set(listed).size);
    expect(new Set(listed)).toEqual(new Set(made.parts.flatMap(({ marks }) => marks)));
  });

  it('are made by the steps of the procedure, row by row', () => {
    const state = stateOf(made);
    const rows = WORK_LISTS.flatMap((list) => listedRows(list, made, state).map((row) => ({ list, ...row })));
    const orphans = rows.filter(({ done }) => done === undefined);
    expect(orphans.map(({ list, role, text }) => `${list} ${role}: ${text}`)).toEqual([]);
    expect(rows.every(({ done }) => done === false)).toBe(true);
    for (const step of state.steps.values()) {
      const found = rowsOfStep(step, made);
      expect(found.map(({ list }) => list)).toEqual(listsOf(step.step));
    }
  });

  it('are done with the last step that makes a row', () => {
    const begun = stateOf(made);
    const steps = new Map([...begun.steps].map(([id, step]) => [id, { ...step, status: 'done' as const }]));
    const all = { ...begun, steps };
    for (const list of WORK_LISTS)
      expect(listedRows(list, made, all).every(({ done }) => done === true)).toBe(true);
    steps.set('cut.frame', { ...steps.get('cut.frame')!, status: 'begun' as never });
    const open = listedRows('cutting', made, all).filter(({ done }) => !done);
    expect(open.map(({ role }) => role).sort()).toEqual([
      'frame-head',
      'frame-left',
      'frame-right',
      'frame-sill',
    ]);
  });
});
