/** Whether a condition can come true, solved over what a job file can order and never tried on samples. */
import { describe, expect, it } from 'vitest';
import type { Step } from '../../src/procedure/model.js';
import { stepsOf } from '../../src/procedure/model.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { reachable } from '../../src/procedure/reach.js';
import { must, small } from './samples.js';

/** Of the step for each sash, light or divider, or of the unit. */
const asks = (each: Step['each'], when: string) => {
  const procedure = must(
    parseProcedure(
      small((text) =>
        text.replace(
          `        each: sash\n        title: Hang {light.id}`,
          `        each: ${each}\n        when: '${when.replaceAll("'", "''")}'\n        title: Hang it`,
        ),
      ),
    ),
  );
  const step = stepsOf(procedure).find(({ id }) => id === 'make.sash')!;
  return reachable(step, step.checks[0]!);
};

describe('for the unit', () => {
  it.each([
    // The two of the finding: orderable, and refused before.
    ['unit.height > 2200.0', 'can'],
    ['unit.escape && unit.restrictor', 'can'],
    ['unit.width > 20000.0', 'never'],
    ['unit.width >= 20000.0', 'can'],
    ['unit.width < 0.0', 'never'],
    ['unit.width * 2.0 + 10.0 > 39000.0', 'can'],
    ['unit.width * 2.0 + 10.0 > 41000.0', 'never'],
    ['unit.width > 1200.0 && unit.width < 1200.5', 'can'],
    ['unit.width > 1200.0 && unit.width < 1200.0', 'never'],
    ['unit.width > unit.height', 'can'],
    ['unit.width - unit.height > 20000.0', 'never'],
    ['unit.fixed > unit.lights', 'never'],
    ['unit.fixed + unit.opening != unit.lights', 'never'],
    ['unit.dividers >= unit.lights', 'never'],
    ['unit.dividers == unit.lights - 1', 'can'],
    ['unit.lights == 1 && unit.dividers == 0', 'can'],
    ['unit.lights == 1 && unit.cleated > 0', 'never'],
    ['unit.top_hung > 0 && unit.opening == 0', 'never'],
    ['unit.lights > 99', 'can'],
    ['unit.ported > 0 && unit.cleated > 0', 'can'],
    ['unit.escape && !unit.escape', 'never'],
    ['"lugs" in unit.fittings && !("sub-sill" in unit.fittings)', 'can'],
    ['"snorkel" in unit.fittings', 'never'],
    ['size(unit.fittings) > 0', 'can'],
    ['size(unit.fittings) < 0', 'never'],
    ['set.name == "w52" || set.name == "k70"', 'can'],
    ['set.name == "w52" && set.name == "k70"', 'never'],
    ['"lap" in figure && figure["lap"] > 3.0', 'can'],
    ['figure["lap"] > 3.0 && figure["lap"] < 2.0', 'never'],
    ['unit.cut["sill"] > 700.0', 'can'],
    ['marks.count > 0', 'can'],
    ['marks.count < 0', 'never'],
    ['unit.width * unit.height > 500000000.0', 'unknown'],
    ['unit.room.startsWith("cellar")', 'unknown'],
    ['unit.room.startsWith("cellar") && unit.escape && !unit.escape', 'never'],
    ['hypot(unit.width, unit.height) > 50000.0', 'unknown'],
  ] as const)('%s: %s', (when, possible) => {
    expect(asks('unit', when)).toBe(possible);
  });
});

describe('for each light or divider', () => {
  it.each([
    ['sash', 'light.kind == "fixed"', 'never'],
    ['sash', 'light.kind == "top-hung" && light.hinge == "left"', 'never'],
    ['sash', 'light.kind == "side-hung" && light.hinge == "left" && light.opens_in', 'can'],
    ['sash', 'light.hinge == "left" && light.handle_side == "left"', 'never'],
    ['fixed', 'light.opening', 'never'],
    ['light', '!light.opening && unit.opening > 0', 'can'],
    ['light', 'light.kind == "side-hung" && unit.side_hung == 0', 'never'],
    ['light', 'light.kind == "tilting"', 'never'],
    ['sash', 'light.glass.mass > 40.0', 'can'],
    ['divider', 'divider.direction == "level" && unit.levels == 0', 'never'],
    ['divider', 'divider.joint == "cleated" && unit.ported > 0', 'can'],
    ['divider', 'unit.lights == 1', 'never'],
  ] as const)('%s, %s: %s', (each, when, possible) => {
    expect(asks(each, when)).toBe(possible);
  });
});
