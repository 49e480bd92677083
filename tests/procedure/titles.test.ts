/** Titles that lists keep as text, told in another language without making a unit's route again. */
import { expect, it } from 'vitest';
import { makeRoute } from '../../src/procedure/route.js';
import { titleReader, titlesTold } from '../../src/procedure/titles.js';
import { translateProcedure } from '../../src/procedure/translation.js';
import { contextsOf } from '../../src/window/context.js';
import { parseJob } from '../../src/window/job.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import { casement, must, sourceOf } from './samples.js';

const set = must(parseProfileSet(sourceOf('shared/profile-sets/w52.yaml')));
const job = must(parseJob(sourceOf('shared/jobs/pier-house.yaml')));
const german = must(translateProcedure(sourceOf('procedures/casement.de.yaml'), casement));
const titles = JSON.parse(JSON.stringify(titlesTold(casement, german))) as ReturnType<typeof titlesTold>;
const read = titleReader([titles]);

it.each(job.units.map((unit) => [unit.id, unit] as const))(
  'every title of %s as its translated route has it',
  (_, unit) => {
    const contexts = contextsOf(setOut(unit, set));
    const own = must(makeRoute(casement, contexts));
    const told = must(makeRoute(german, contexts));
    own.steps.forEach((step, i) => {
      expect(read(step.title), step.title).toBe(told.steps[i]!.title);
      if (step.hold) expect(read(step.hold.title)).toBe(told.steps[i]!.hold!.title);
    });
    for (const [i, { title }] of own.stages.entries()) expect(read(title)).toBe(told.stages[i]!.title);
  },
);

it('what is no title stays untold', () => {
  for (const text of ['', 'Saw', 'snag 1: a scratch', 'Cut the add-on frame', '{light.id}'])
    expect(read(text), text).toBeUndefined();
});
