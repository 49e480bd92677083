/** Every formula that a profile set file holds, with the place it stands in and the names known there. */
import type { FormulaType } from '../ground/formula.js';
import type { Scope } from './setnames.js';
import { SCOPES } from './setnames.js';
import type { LightScope, ProfileSetFile } from './setschema.js';

export interface WrittenFormula {
  readonly path: readonly PropertyKey[];
  readonly scope: Scope;
  /** Written where hardware and masses are known. */
  readonly late: boolean;
  readonly text: string;
  readonly want: 'number' | 'bool';
}

const NUMBER: readonly FormulaType[] = ['double', 'int'];
export const wanted = (want: 'number' | 'bool'): readonly FormulaType[] =>
  want === 'bool' ? ['bool'] : NUMBER;

/** The scopes of `per` words: a rule for every light is read in both kinds of light. */
function scopesOf(per: 'unit' | 'divider' | 'light' | LightScope): readonly Scope[] {
  if (per === 'light') return ['fixed', 'opening'];
  if (per === 'top-hung' || per === 'side-hung') return ['opening'];
  return [per];
}

export function formulasOf(file: ProfileSetFile): WrittenFormula[] {
  const found: WrittenFormula[] = [];
  const add = (
    path: readonly PropertyKey[],
    scope: Scope,
    text: string | undefined,
    late = false,
    want: 'number' | 'bool' = 'number',
  ) => {
    if (text !== undefined) found.push({ path, scope, late, text, want });
  };

  for (const [side, text] of Object.entries(file.layout)) add(['layout', side], 'unit', text);
  for (const scope of SCOPES) {
    for (const [name, size] of Object.entries(file.sizes[scope]))
      add(['sizes', scope, name], scope, size.formula);
    file.parts[scope].forEach((part, i) => {
      const path = ['parts', scope, i];
      for (const key of ['length', 'quantity', 'allowance', 'kg_per_m'] as const)
        add([...path, key], scope, part[key]);
      // Parts are worked out before masses and stays, so those names are not known here.
      add([...path, 'when'], scope, part.when, false, 'bool');
    });
    file.pieces[scope].forEach((piece, i) => {
      add(['pieces', scope, i, 'quantity'], scope, piece.quantity, true);
      add(['pieces', scope, i, 'when'], scope, piece.when, true, 'bool');
    });
  }
  for (const scope of ['fixed', 'opening'] as const)
    for (const [name, box] of Object.entries(file.boxes[scope]))
      for (const key of ['x', 'y', 'w', 'h'] as const) add(['boxes', scope, name, key], scope, box[key]);
  file.masses.forEach((mass, i) => {
    add(['masses', i, 'kg'], mass.per, mass.kg);
  });

  const { handle, gears } = file.hardware;
  add(['hardware', 'handle', 'on_sash'], 'opening', handle.on_sash);
  for (const key of ['least', 'most'] as const)
    add(['hardware', 'handle', key], 'opening', handle[key], true);
  gears.list.forEach((gear, i) => {
    gear.locks.forEach((lock, k) => {
      add(['hardware', 'gears', 'list', i, 'locks', k], 'opening', lock);
    });
  });

  for (const [name, feature] of Object.entries(file.features))
    add(['features', name, 'length'], 'unit', feature.length);
  file.clearances.forEach((clearance, i) => {
    add(['clearances', i, 'least'], 'unit', clearance.least);
  });

  file.marks.forEach((mark, i) => {
    for (const scope of scopesOf(mark.per)) {
      const path = ['marks', i];
      add([...path, 'when'], scope, mark.when, true, 'bool');
      const { rule } = mark;
      const each = (key: string, at: readonly (string | undefined)[]) => {
        at.forEach((text, k) => {
          add([...path, 'rule', key, k], scope, text, true);
        });
      };
      if ('spaced' in rule)
        each('spaced', [rule.spaced.end, rule.spaced.pitch, ...(rule.spaced.end_range ?? [])]);
      else if ('both_ends' in rule) each('both_ends', [rule.both_ends.end, ...(rule.both_ends.range ?? [])]);
      else if ('each' in rule) each('at', [rule.at]);
      else if ('at' in rule) each('at', rule.at);
      else if ('beside' in rule) each('beside', [rule.beside.by, ...(rule.beside.range ?? [])]);
    }
  });

  for (const kind of ['fixed', 'top-hung', 'side-hung'] as const)
    file.packers[kind].packers.forEach((packer, i) => {
      const scope = kind === 'fixed' ? 'fixed' : 'opening';
      for (const [key, text] of [
        ['at', packer.at],
        ['length', packer.length],
        ['thickness', packer.thickness],
        ...(packer.range ?? []).map((text) => ['range', text] as const),
      ] as const)
        add(['packers', kind, 'packers', i, key], scope, text);
    });

  for (const key of ['width', 'height'] as const) add(['escape', key], 'opening', file.escape?.[key], true);
  file.checks.forEach((check, i) => {
    for (const scope of scopesOf(check.per))
      for (const key of ['value', 'least', 'most'] as const) add(['checks', i, key], scope, check[key], true);
  });
  return found;
}
