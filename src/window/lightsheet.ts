/** The working sheet of one light: what the formulas of a light may read. */
import { paneThickness, wholeThickness } from './glass.js';
import type { MadeSum, Numbers } from './numbers.js';
import type { ProfileSet } from './profileset.js';
import { Sheet } from './sheet.js';
import type { HingeSide, LightKind, Makeup } from './types.js';

export interface LightFacts {
  readonly id: string;
  readonly kind: LightKind;
  readonly hinge?: HingeSide;
  readonly makeup: Makeup;
  readonly sight: { readonly w: number; readonly h: number };
  readonly why: { readonly w: () => MadeSum; readonly h: () => MadeSum };
  readonly onDivider: boolean;
  readonly underDivider: boolean;
}

export const scopeOf = (kind: LightKind): 'fixed' | 'opening' => (kind === 'fixed' ? 'fixed' : 'opening');

/** A sheet with every size of the light worked out. */
export function lightSheet(set: ProfileSet, numbers: Numbers, unitSheet: Sheet, facts: LightFacts): Sheet {
  const sheet = new Sheet(set, numbers, scopeOf(facts.kind), facts.id, unitSheet);
  sheet.given('sight', 'w', facts.sight.w, 'mm', facts.why.w);
  sheet.given('sight', 'h', facts.sight.h, 'mm', facts.why.h);
  const { makeup } = facts;
  const written = (list: readonly number[]) => (): MadeSum => {
    const text = list.join(' + ');
    return { formula: text, filled: text, of: [] };
  };
  sheet.given('panes', 'thickness', paneThickness(makeup), 'mm', written(makeup.panes));
  sheet.given('panes', 'count', makeup.panes.length, 'count', () => ({
    formula: String(makeup.panes.length),
    filled: String(makeup.panes.length),
    of: [],
  }));
  sheet.given(
    'glazing',
    'thickness',
    wholeThickness(makeup),
    'mm',
    written([...makeup.panes, ...makeup.gaps]),
  );
  sheet.flag('top_hung', facts.kind === 'top-hung');
  sheet.flag('side_hung', facts.kind === 'side-hung');
  sheet.flag('hinge_left', facts.hinge === 'left');
  sheet.flag('on_divider', facts.onDivider);
  sheet.flag('under_divider', facts.underDivider);
  sheet.sizes();
  return sheet;
}
