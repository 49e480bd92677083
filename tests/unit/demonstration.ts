/** The demonstration job's units with their real set-outs, routes, limits and instruments. */
import { readFileSync } from 'node:fs';
import { problemText, type Result } from '../../src/base/problem.js';
import { parseInstruments } from '../../src/measure/instruments.js';
import { parseLimits } from '../../src/measure/limits.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { makeRoute } from '../../src/procedure/route.js';
import type { Route } from '../../src/procedure/types.js';
import type { DecisionContext } from '../../src/unit/types.js';
import { contextOf, dividerContext, lightContext } from '../../src/window/context.js';
import { parseJob } from '../../src/window/job.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import { autobuild, type Built } from './autobuild.js';
import { context, opened, RULES } from './routes.js';

const sourceOf = (file: string) => ({
  file,
  text: readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8'),
});
function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(problemText).join('\n'));
  return result.value;
}

const procedure = must(parseProcedure(sourceOf('procedures/casement.yaml')));
const set = must(parseProfileSet(sourceOf('shared/profile-sets/w52.yaml')));
const job = must(parseJob(sourceOf('shared/jobs/pier-house.yaml')));

export const ROUTES: ReadonlyMap<string, Route> = new Map(
  job.units.map((unit) => {
    const made = setOut(unit, set);
    return [
      unit.id,
      must(
        makeRoute(procedure, {
          unit: contextOf(made),
          lights: made.lights.map(({ id }) => lightContext(made, id)),
          dividers: made.dividers.map(({ id }) => dividerContext(made, id)),
        }),
      ),
    ];
  }),
);

const WORLD: DecisionContext = context(1, {
  workshop: { ...RULES, limits: must(parseLimits(sourceOf('shared/limits.yaml'))) },
  instruments: must(parseInstruments(sourceOf('shared/instruments.yaml'))),
  evidence: { photo: { sha256: 'ab'.repeat(32), name: 'photo.jpg', bytes: 1000 } },
});
export const OPTIONS = { pins: { rl: '1111' }, evidence: 'photo' };

const built = new Map<string, Built>();
/** A unit of the demonstration job, built to its end; the same one for every test of a file. */
export function whole(unit: string): Built {
  const route = ROUTES.get(unit);
  if (!route) throw new Error(`no unit ${unit}; there are ${[...ROUTES.keys()].join(', ')}`);
  const made = built.get(unit) ?? autobuild(opened(route), WORLD, OPTIONS);
  built.set(unit, made);
  return made;
}

export const later = ({ state, context: last }: Built): DecisionContext => ({
  ...last,
  person: 'ql',
  now: new Date(Date.parse(state.events.at(-1)!.at) + 60_000).toISOString(),
});
