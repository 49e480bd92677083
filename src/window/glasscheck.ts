/** Glass whose area or mass cannot be that of its panes. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import type { LightItem } from './geometry.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { ProfileSet } from './profileset.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** Of float glass, kg for each square metre and millimetre: 2500 kg/m3 (EN 572-1, as it is restated elsewhere). */
const DENSITY = 2.5;

export function checkGlass(set: ProfileSet, { id, scope, sheet, makeup }: LightItem): Problem[] {
  if (!makeup) return [];
  const [w, h] = [sheet.get('glass', 'w'), sheet.get('glass', 'h')];
  const [area, mass] = [sheet.get('glass', 'area'), sheet.get('glass', 'mass')];
  const at = (name: string) => set.at(['sizes', scope, `glass.${name}`]);
  const real = (w * h) / 1e6;
  if (Math.abs(area - real) > 0.01 * real)
    return [
      raise('setout.glass-mass/area', { id, area: area.toFixed(3), real: real.toFixed(3) }, at('area')),
    ];
  const panes = makeup.panes.reduce((sum, pane) => sum + pane, 0);
  const usual = area * panes * DENSITY;
  // A laminated pane or a panel may differ; twice or half is another formula.
  return mass > 2 * usual || mass < usual / 2
    ? [
        raise(
          'setout.glass-mass',
          { id, mass: mass.toFixed(1), area: area.toFixed(2), panes: mmText(panes), usual: usual.toFixed(1) },
          at('mass'),
        ),
      ]
    : [];
}
