/** What may be wrong with a profile set that is valid: constants and sizes nobody uses, features no mark is made of. */
import { type Problem, raiser } from '../ground/problem.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { ProfileSet } from './profileset.js';
import { formulasOf } from './setformulas.js';
import { NEEDED, SCOPES } from './setnames.js';

const raise = raiser(WINDOW_MESSAGES);

/** Types and unknown names were checked when the set was read; this finds what is left over. */
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
  for (const scope of SCOPES)
    for (const [name, size] of Object.entries(file.sizes[scope]))
      if (/(^|[^\w.])\d+\s*\/\s*\d+([^\w.]|$)/.test(size.formula))
        problems.push(
          raise(
            'set.number',
            `sizes.${scope}.${name} divides a whole number by a whole number, which drops what is left over.`,
            at(['sizes', scope, name]),
            'Write one of them with a point: 1.0 / 2.',
          ),
        );
  return problems;
}
