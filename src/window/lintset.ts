/** Lints a valid profile set: unused constants and sizes, features without marks, rules no window has a place for. */
import { type Problem, problemFactory } from '../base/problem.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { ProfileSet } from './profileset.js';
import { formulasOf, NEEDED, SCOPES } from './setformulas.js';

const raise = problemFactory(WINDOW_MESSAGES);

export function lintProfileSet(set: ProfileSet): Problem[] {
  const { file, at } = set;
  const problems: Problem[] = [];
  const used = new Set<string>();
  for (const { scope, text, want } of formulasOf(file))
    for (const name of set.formula(scope, text, want).names) {
      used.add(name);
      used.add(`${scope}/${name}`);
      used.add(`unit/${name}`);
    }
  for (const name of Object.keys(file.constants))
    if (!used.has(name))
      problems.push(raise('set.unused', `Constant ${name} is used nowhere.`, at(['constants', name])));
  for (const scope of SCOPES)
    for (const name of Object.keys(file.sizes[scope]))
      if (!used.has(`${scope}/${name}`) && !NEEDED[scope].includes(name))
        problems.push(
          raise('set.unused', `Size ${name} of sizes.${scope} is used nowhere.`, at(['sizes', scope, name])),
        );
  const kinds = new Set([...file.marks.map(({ kind }) => kind), 'packer']);
  for (const kind of Object.keys(file.features))
    if (!kinds.has(kind))
      problems.push(raise('set.unused', `Feature ${kind} has no mark.`, at(['features', kind])));
  const cited = new Set<string>([
    ...Object.values(file.constants).map(({ source }) => source),
    ...file.clearances.map(({ source }) => source),
    ...file.checks.map(({ source }) => source),
    ...Object.values(file.figures).map(({ source }) => source),
    file.hardware.handle.source,
    file.hardware.gears.source,
    file.hardware.stays.source,
    file.glass.bead_source,
    ...(file.escape ? [file.escape.source] : []),
  ]);
  for (const name of Object.keys(file.sources))
    if (!cited.has(name))
      problems.push(raise('set.unused', `Source ${name} is cited nowhere.`, at(['sources', name])));
  problems.push(...nowhere(set));
  for (const scope of SCOPES)
    for (const [name, size] of Object.entries(file.sizes[scope]))
      if (/(^|[^\w.])\d+\s*\/\s*\d+([^\w.]|$)/.test(size.formula))
        problems.push(
          raise(
            'set.number',
            `sizes.${scope}.${name} divides a whole number by a whole number, which discards the remainder.`,
            at(['sizes', scope, name]),
            'Write one of them with a point: 1.0 / 2.',
          ),
        );
  return problems;
}

/** Marks and packers no window ever gets, because their target has no such side or does not support the rule. */
function nowhere({ file, at }: ProfileSet): Problem[] {
  const problems: Problem[] = [];
  const unused = (what: string, path: readonly PropertyKey[], todo: string): void => {
    problems.push(raise('set.unused', what, at(path), todo));
  };
  file.marks.forEach(({ kind, per, on, rule }, i) => {
    const side = on.split('.').at(-1)!;
    if (per === 'divider' && !Array.isArray('at' in rule && rule.at))
      unused(
        `Mark ${kind} of dividers is never made: its rule is not "at".`,
        ['marks', i, 'rule'],
        'Give the places of a divider’s marks as a list under "at".',
      );
    if (per !== 'divider' && (side === 'ends' || side === 'self'))
      unused(
        `Mark ${kind} on ${on} is never made: only a divider has such a place.`,
        ['marks', i, 'on'],
        'Name the side: bottom, top, left, right, hinge or handle.',
      );
    if (per === 'fixed' && isHung(side))
      unused(`Mark ${kind} on ${on} is never made: ${NO_HINGE}`, ['marks', i, 'on'], NAME_SIDE);
  });
  file.packers.fixed.packers.forEach(({ edge, near }, i) => {
    if (isHung(edge) || isHung(near))
      unused(
        `Packer ${i + 1} of fixed lights is never placed: ${NO_HINGE}`,
        ['packers', 'fixed', 'packers', i],
        NAME_SIDE,
      );
  });
  return problems;
}

const isHung = (side: string): boolean => side === 'hinge' || side === 'handle';
const NO_HINGE = 'a fixed light has no hinge and no handle side.';
const NAME_SIDE = 'Name the side: bottom, top, left or right.';
