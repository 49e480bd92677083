/** Conditions of a profile set that no unit can ever meet: what hangs on them is never made. */
import { type PossibleFacts, type PossibleWorld, possible, type Range } from '../base/possible.js';
import type { ProfileSet } from './profileset.js';
import type { Scope } from './setformulas.js';
import type { ProfileSetFile } from './setschema.js';

/** Longest side of a job file, mm. */
const LONGEST = 20_000;

/** @param per which lights, where a rule is for some of a scope */
export function neverHolds(set: ProfileSet, scope: Scope, when: string | undefined, per?: string): boolean {
  if (when === undefined) return false;
  const { tree } = set.formula(scope, when, 'bool');
  return possible([tree], factsOf(set.file, scope, per)) === 'never';
}

const factsOf = (file: ProfileSetFile, scope: Scope, per: string | undefined): PossibleFacts => ({
  rangeOf: (name): Range => {
    const constant = file.constants[name];
    if (constant) return { is: 'number', from: constant.value, to: constant.value };
    if (name === 'unit.width' || name === 'unit.height') return { is: 'number', from: 1e-3, to: LONGEST };
    if (name.startsWith('fitted.') || name === 'on_divider' || name === 'under_divider')
      return { is: 'bool' };
    return { is: 'number', from: -1_000_000, to: 1_000_000 };
  },
  worldsOf: () => ({ worlds: [...worlds(file, scope, per)], whole: true }),
});

function* worlds(file: ProfileSetFile, scope: Scope, per: string | undefined): Iterable<PossibleWorld> {
  if (scope === 'unit') yield {};
  else if (scope === 'divider')
    for (const joint of file.joints)
      for (const upright of [true, false])
        yield { ported: joint === 'ported', cleated: joint === 'cleated', upright, level: !upright };
  else
    for (const kind of file.lights) {
      const opening = kind !== 'fixed';
      if (opening !== (scope === 'opening') || ((per === 'top-hung' || per === 'side-hung') && per !== kind))
        continue;
      for (const hinge_left of kind === 'side-hung' ? [true, false] : [false])
        for (const way of opening ? file.opens : ['out'])
          yield {
            top_hung: kind === 'top-hung',
            side_hung: kind === 'side-hung',
            hinge_left,
            opens_in: way === 'in',
          };
    }
}
