/** Which window this is: identity, sizes and lights, from its set-out. */

import { plain } from '../base/text.js';
import type { UnitState } from '../unit/unitstate.js';
import type { LightSetOut, SetOut } from '../window/types.js';
import type { RecordView } from './schema.js';
import { figure, kilograms, size } from './words.js';

export function unitView(state: UnitState, setOut: SetOut | undefined, customer: string): RecordView['unit'] {
  const unit = setOut?.unit;
  const opened = state.events.find((event) => event.kind === 'opened');
  const { procedure } = state.route;
  return {
    id: plain(state.unit),
    mark: plain(unit?.mark ?? state.unit.replace(/-\d+$/, '')),
    number: unit?.number ?? Number(/-(\d+)$/.exec(state.unit)?.[1] ?? 1),
    job: plain(state.job),
    customer: plain(customer),
    room: plain(unit?.room ?? ''),
    note: plain(unit?.note ?? ''),
    ...(unit ? { width: unit.width, height: unit.height } : {}),
    sentence: setOut ? unitSentence(setOut) : '',
    ...(setOut ? { mass: setOut.mass_kg } : {}),
    lift: plain(setOut?.lift ?? ''),
    outsideColour: plain(unit?.outsideColour ?? ''),
    insideColour: plain(unit?.insideColour ?? ''),
    profileSet: plain(setOut?.profileSet.title ?? (opened?.kind === 'opened' ? opened.profileSet : '')),
    invented: setOut?.profileSet.invented ?? false,
    procedure: plain(`${procedure.title}, version ${procedure.version}`),
    needs: [
      ...(unit?.needs.escape ? ['escape window'] : []),
      ...(unit?.needs.restrictor ? ['opening restrictor'] : []),
      ...(unit?.needs.safetyGlass ? ['safety glass'] : []),
    ],
    lights: (setOut?.lights ?? []).map(lightView),
    ...(opened?.kind === 'opened' && opened.replaces !== undefined
      ? { replaces: plain(opened.replaces) }
      : {}),
    ...(state.replacement === undefined ? {} : { replacedBy: plain(state.replacement) }),
  };
}

/** "One light: hinged left, seen from outside, opens out." or each light by its name. */
export function unitSentence(setOut: SetOut): string {
  const [only, ...others] = setOut.lights;
  if (only && others.length === 0) return `One light: ${plain(only.sentence)}`;
  return `${setOut.lights.length} lights: ${setOut.lights.map(({ id, sentence }) => `${id} ${plain(sentence)}`).join('; ')}`;
}

const KINDS = { fixed: 'fixed', 'top-hung': 'top-hung', 'side-hung': 'side-hung' } as const;

const lightView = (light: LightSetOut): RecordView['unit']['lights'][number] => ({
  id: plain(light.id),
  kind: KINDS[light.kind],
  sentence: plain(light.sentence),
  sight: size(light.sight.w, light.sight.h),
  ...(light.sash ? { sash: `${size(light.sash.w, light.sash.h)}, ${kilograms(light.sash.mass_kg)}` } : {}),
  glass: plain(light.glass.title),
  glassSize: `${size(light.glass.w, light.glass.h)}, ${figure(light.glass.thickness)} mm thick, ${kilograms(light.glass.mass_kg)}`,
});
