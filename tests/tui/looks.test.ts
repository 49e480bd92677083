/** What one look answers fits beside the drawing of a small terminal, in both languages, with room for what is to be done. */

import { expect, it } from 'vitest';
import { data } from '../../src/base/words.js';
import type { Procedure } from '../../src/procedure/model.js';
import { makeRoute } from '../../src/procedure/route.js';
import { translateProcedure } from '../../src/procedure/translation.js';
import { wrapLine } from '../../src/tui/parts/line.js';
import { lookAt } from '../../src/unit/looks.js';
import type { StepState } from '../../src/unit/types.js';
import { contextsOf } from '../../src/window/context.js';
import { parseJob } from '../../src/window/job.js';
import { setOut } from '../../src/window/setout.js';
import { casement, must, sourceOf } from '../procedure/samples.js';
import { w52 } from '../window/kit.js';

/** Columns beside the drawing at 80 x 24, and the rows left when head, foot and three sentences have theirs. */
const [WIDTH, ROWS] = [52, 12];
const german = must(translateProcedure(sourceOf('procedures/casement.de.yaml'), casement));

it.each([
  ['English', casement],
  ['German', german],
] as const)('every look of every unit of the demonstration, in %s', (_, procedure: Procedure) => {
  let looks = 0;
  for (const unit of must(parseJob(sourceOf('shared/jobs/pier-house.yaml'))).units)
    for (const step of must(makeRoute(procedure, contextsOf(setOut(unit, w52)))).steps)
      for (let from = 0; from < step.checks.length; from += 1) {
        // As it stands when all before it is answered.
        const checks = step.checks.map(({ id }, i) => ({ id, holds: i < from, earlier: [] }));
        const together = lookAt({ step, checks } as unknown as StepState);
        const rows = together.flatMap(({ ask, how }) =>
          wrapLine(data(` . ${how === undefined ? ask : `${ask} (${how})`}`), WIDTH, 'plain', '   '),
        );
        expect(rows.length, `${unit.id} ${step.id}`).toBeLessThanOrEqual(ROWS);
        looks += together.length > 0 ? 1 : 0;
      }
  expect(looks).toBeGreaterThan(400);
});
