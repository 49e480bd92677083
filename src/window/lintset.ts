/** Lints a valid profile set: unused constants and sizes, features without marks, rules no window has a place for. */
import { type Problem, problemFactory } from '../base/problem.js';
import type { Message } from '../base/words.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { ProfileSet } from './profileset.js';
import { formulasOf, makes, needed, SCOPES, type Scope, scopesOf } from './setformulas.js';
import { neverHolds } from './setreach.js';
import type { ProfileSetFile, Wall } from './setschema.js';
import { windowWords } from './words.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** @param read sizes that the workshop's procedures read */
export function lintProfileSet(set: ProfileSet, read: ReadonlySet<string> = new Set()): Problem[] {
  const { file, at } = set;
  const problems: Problem[] = [];
  const used = new Set<string>();
  for (const { scope, text, want } of formulasOf(file))
    for (const name of set.formula(scope, text, want).names) {
      used.add(name);
      used.add(`${scope}/${name}`);
      used.add(`unit/${name}`);
    }
  for (const { value } of Object.values(file.figures)) if (typeof value === 'string') used.add(value);
  for (const name of Object.keys(file.constants))
    if (!used.has(name)) problems.push(raise('set.unused', { name }, at(['constants', name])));
  for (const scope of SCOPES)
    for (const name of Object.keys(file.sizes[scope]))
      if (!used.has(`${scope}/${name}`) && !read.has(name) && !needed(file, scope).sizes.includes(name))
        problems.push(raise('set.unused/size', { name, scope }, at(['sizes', scope, name])));
  const kinds = new Set([...file.marks.map(({ kind }) => kind), 'packer']);
  for (const kind of Object.keys(file.features))
    if (!kinds.has(kind)) problems.push(raise('set.unused/feature', { kind }, at(['features', kind])));
  const cited = new Set<string>([
    ...Object.values(file.constants).map(({ source }) => source),
    ...file.clearances.map(({ source }) => source),
    ...file.checks.map(({ source }) => source),
    ...Object.values(file.figures).map(({ source }) => source),
    ...Object.values(file.hardware).flatMap((group) => group?.source ?? []),
    ...(file.glass ? [file.glass.bead_source] : []),
    ...(file.escape ? [file.escape.source] : []),
  ]);
  for (const name of Object.keys(file.sources))
    if (!cited.has(name)) problems.push(raise('set.unused/source', { name }, at(['sources', name])));
  problems.push(
    ...set.divided,
    ...nowhere(set),
    ...besideSash(set),
    ...misplacedPackers(set),
    ...turnedRows(set),
    ...unruledPairs(set),
    ...twice(set),
    ...fixedBeads(set),
    ...doubledBeads(set),
    ...mixedUnits(set),
    ...unpacked(set),
    ...unhung(set),
    ...never(set),
  );
  return problems;
}

/** Roles of parts whose "when" no unit can meet. */
export const neverMade = (set: ProfileSet): string[] =>
  SCOPES.flatMap((scope) =>
    set.file.parts[scope].flatMap(({ role, when }) => (neverHolds(set, scope, when) ? [role] : [])),
  );

/** Parts, pieces and marks whose "when" no unit can meet. */
function never(set: ProfileSet): Problem[] {
  const { file, at } = set;
  const told = (path: readonly PropertyKey[], when: string) =>
    raise('set.never', { when }, at([...path, 'when']));
  const parts = SCOPES.flatMap((scope) =>
    (['parts', 'pieces'] as const).flatMap((group) =>
      file[group][scope].flatMap(({ when }, i) =>
        neverHolds(set, scope, when) ? [told([group, scope, i], when!)] : [],
      ),
    ),
  );
  const marks = file.marks.flatMap(({ per, when }, i) => {
    const scopes = scopesOf(per).filter(
      (scope) => scope === 'unit' || scope === 'divider' || makes(file, scope),
    );
    return when !== undefined && scopes.every((scope) => neverHolds(set, scope, when, per))
      ? [told(['marks', i], when)]
      : [];
  });
  return [...parts, ...marks];
}

/** Kinds of sashes that nothing carries: every one would be refused. */
const unhung = ({ file, at }: ProfileSet): Problem[] =>
  file.lights.flatMap((kind) =>
    kind === 'fixed' ||
    file.hardware.stays?.chart.some((stay) => stay[kind] !== undefined) ||
    file.hardware.hinges?.list.some((row) => row.for === kind)
      ? []
      : [raise('set.unhung', { kind }, at(['hardware']))],
  );

/** Kinds of lights whose glass would lie on nothing. */
const unpacked = ({ file, at }: ProfileSet): Problem[] =>
  file.glass
    ? file.lights.flatMap((kind) =>
        file.packers[kind].packers.length > 0 ? [] : [raise('set.unpacked', { kind }, at(['packers']))],
      )
    : [];

/** Roles that one unit would have twice. */
function twice({ file, at }: ProfileSet): Problem[] {
  return SCOPES.flatMap((scope) =>
    file.parts[scope].flatMap(({ role, when }, i) => {
      const before = file.parts[scope].slice(0, i).filter((part) => part.role === role);
      const apart = when !== undefined && before.every((part) => part.when !== undefined);
      return before.length === 0 || apart
        ? []
        : [raise('set.twice', { role, scope }, at(['parts', scope, i, 'role']))];
    }),
  );
}

/** Articles of the table of beads that no part can ever have. */
function fixedBeads({ file, at }: ProfileSet): Problem[] {
  const parts = SCOPES.flatMap((scope) => file.parts[scope]);
  return (['bead', 'gasket'] as const).flatMap((column) => {
    if (parts.some(({ profile }) => typeof profile !== 'string' && profile.by_thickness === column))
      return [];
    const fixed = new Set(parts.flatMap(({ kind, profile }) => (kind === column ? [String(profile)] : [])));
    return (file.glass?.beads ?? []).flatMap((row, i) =>
      row[column] === '' || fixed.has(row[column])
        ? []
        : [
            raise(
              'set.bead-fixed',
              { from: String(row.from), to: String(row.to), article: row[column], parts: [...fixed] },
              at(['glass', 'beads', i, column]),
            ),
          ],
    );
  });
}

/** Thicknesses that two rows hold: the first one would be taken in silence. */
const doubledBeads = ({ file, at }: ProfileSet): Problem[] =>
  (file.glass?.beads ?? []).flatMap(({ from, to }, i, beads) =>
    from > to || beads.slice(0, i).some((row) => row.from < to && from < row.to)
      ? [
          raise(
            'set.beads-overlap',
            { from: String(from), to: String(to) },
            at(['glass', 'beads', i, 'from']),
          ),
        ]
      : [],
  );

/** Formulas in which quantities of two units are added or compared. */
function mixedUnits(set: ProfileSet): Problem[] {
  const { file, at } = set;
  const given: Readonly<Record<string, string>> = {
    'unit.mass': 'kg',
    'sash.mass': 'kg',
    'panes.count': 'none',
    'hinges.count': 'none',
  };
  const unitOf = (scope: Scope) => (name: string) =>
    file.constants[name]?.unit ??
    (file.sizes[scope][name] ?? file.sizes.unit[name])?.unit ??
    given[name] ??
    (name === 'lock' || name === 'place' || name.includes('.') ? 'mm' : undefined);
  return formulasOf(file).flatMap(({ path, scope, text, want }) => {
    const mixed = set.formula(scope, text, want).mixed(unitOf(scope), unitWanted(file, path));
    return mixed ? [raise('set.units', { formula: text, ...mixed }, at(path))] : [];
  });
}

/** The unit that the place of a formula is of. */
function unitWanted(file: ProfileSetFile, path: readonly PropertyKey[]): string | undefined {
  const [part, scope, name, key] = path as [string, Scope, string, string];
  if (part === 'sizes') return file.sizes[scope][name]!.unit;
  if (part === 'parts') return key === 'length' || key === 'start' ? 'mm' : undefined;
  return part === 'layout' || part === 'boxes' ? 'mm' : undefined;
}

/** A thing that is made or laid in one wall of a member. */
interface Made {
  readonly kind: string;
  readonly wall: Wall;
  /** Whether marks of its own row keep clear of one another by the rule itself. */
  readonly spaced: boolean;
}

/** Things that share a wall of a member in some window, while no clearance names both. */
function unruledPairs({ file, at, titleOf }: ProfileSet): Problem[] {
  const ruled = new Set(file.clearances.flatMap(({ between: [a, b] }) => [`${a} ${b}`, `${b} ${a}`]));
  const found = new Map<string, Problem>();
  const tell = (a: Made, b: Made, problem: (what: Message) => Problem): void => {
    const key = [a.kind, b.kind].sort().join(' ');
    if (ruled.has(key) || found.has(key)) return;
    const what =
      a.kind === b.kind
        ? windowWords('two-marks', { mark: titleOf(a.kind) })
        : windowWords('both-marks', { mark: titleOf(a.kind), other: titleOf(b.kind) });
    found.set(key, problem(what));
  };
  for (const hung of file.lights)
    for (const [member, things] of membersOf(file, hung))
      things.forEach((a, i) => {
        for (const b of things.slice(i)) {
          const shares = a.wall === b.wall || a.wall === 'through' || b.wall === 'through';
          if (!shares || (a === b && a.spaced) || (a !== b && a.kind === b.kind)) continue;
          tell(a, b, (what) => raise('set.no-clearance', { what, member, hung }, at(['clearances'])));
        }
      });
  for (const [a, b] of acrossDividers(file))
    tell(a, b, (what) => raise('set.no-clearance/across', { what }, at(['clearances'])));
  return [...found.values()];
}

/** Things of two lights, one on each side of a divider, that are made in one wall of it. */
function acrossDividers(file: ProfileSetFile): (readonly [Made, Made])[] {
  if (file.joints.length === 0) return [];
  const found: (readonly [Made, Made])[] = [];
  const members = file.lights.map((hung) =>
    membersOf({ ...file, marks: file.marks.filter(({ per }) => per !== 'unit') }, hung),
  );
  for (const [one, other] of [
    ['left', 'right'],
    ['bottom', 'top'],
  ] as const) {
    const on = (side: string) => members.flatMap((each) => each.get(side) ?? []);
    // A sash is hung left or right, so what is on its hinge or handle side may be on either.
    const either = [...on(one), ...on(other)];
    const [first, second] = one === 'left' ? [either, either] : [on(one), on(other)];
    for (const a of first)
      for (const b of second) {
        const same = a.wall === b.wall && (a.wall === 'inside' || a.wall === 'outside');
        const through = a.wall === 'through' || b.wall === 'through';
        const behind = [a.wall, b.wall].includes('rebate') && [a.wall, b.wall].includes('back');
        if (same || through || behind) found.push([a, b]);
      }
  }
  return found;
}

/** What each member of a light may carry; frame and dividers carry the marks of dividers that end there, too. */
function membersOf(file: ProfileSetFile, hung: 'fixed' | 'top-hung' | 'side-hung'): Map<string, Made[]> {
  const members = new Map<string, Made[]>();
  const put = (member: string, made: Made) => members.set(member, [...(members.get(member) ?? []), made]);
  const sideOfWord = (word: string): string =>
    word === 'hinge'
      ? hung === 'top-hung'
        ? 'top'
        : 'left'
      : word === 'handle'
        ? hung === 'top-hung'
          ? 'bottom'
          : 'right'
        : word;
  for (const { kind, per, on, wall, rule } of file.marks) {
    if (wall === undefined) continue;
    const spaced = !('beside' in rule || 'both_ends' in rule);
    if (per === 'unit') {
      put(on, { kind, wall, spaced });
      continue;
    }
    if (per === 'divider') {
      for (const side of on === 'ends' ? SIDES : []) put(side, { kind, wall, spaced });
      continue;
    }
    if (per !== 'light' && per !== hung && !(per === 'opening' && hung !== 'fixed')) continue;
    const [box, word] = on.includes('.') ? (on.split('.') as [string, string]) : ['', on];
    put(box === '' ? sideOfWord(word) : `${box}.${sideOfWord(word)}`, { kind, wall, spaced });
  }
  if (Object.hasOwn(file.features, 'packer'))
    for (const edge of new Set(file.packers[hung].packers.map((packer) => sideOfWord(packer.edge))))
      put(hung === 'fixed' ? edge : `sash.${edge}`, { kind: 'packer', wall: 'rebate', spaced: false });
  return members;
}

const SIDES = ['bottom', 'top', 'left', 'right'] as const;

/** Marks and packers no window ever gets, because their target has no such side or does not support the rule. */
function nowhere({ file, at }: ProfileSet): Problem[] {
  const problems: Problem[] = [];
  file.marks.forEach(({ kind, per, on, rule }, i) => {
    const side = on.split('.').at(-1)!;
    if (per === 'divider' && !Array.isArray('at' in rule && rule.at))
      problems.push(raise('set.unused/divider-mark', { kind }, at(['marks', i, 'rule'])));
    if (
      (per !== 'divider' && (side === 'ends' || side === 'self')) ||
      (per === 'unit' && isHung(side)) ||
      (per === 'unit' && 'each' in rule)
    )
      problems.push(raise('set.unused/place', { kind, on }, at(['marks', i, 'on'])));
    if (per === 'fixed' && isHung(side))
      problems.push(raise('set.unused/fixed', { kind, on }, at(['marks', i, 'on'])));
  });
  file.packers.fixed.packers.forEach(({ edge, near }, i) => {
    if (isHung(edge) || isHung(near))
      problems.push(raise('set.unused/packer', { n: i + 1 }, at(['packers', 'fixed', 'packers', i])));
  });
  return problems;
}

const isHung = (side: string): boolean => side === 'hinge' || side === 'handle';

/** Marks that follow the hardware of a sash: its places count along the sash, wherever the marks lie. */
function besideSash(set: ProfileSet): Problem[] {
  return set.file.marks.flatMap(({ kind, per, on, along, rule }, i) => {
    if (!('each' in rule) || on.startsWith('sash.') || per === 'unit' || per === 'divider' || per === 'fixed')
      return [];
    const { names } = set.formula('opening', rule.at);
    const isMoved = names.includes('sash.x') || names.includes('sash.y');
    return (along === 'sash') === isMoved
      ? [raise('set.along', { kind, on, each: rule.each }, set.at(['marks', i]))]
      : [];
  });
}

/** Packers that carry the glass and do not lie under it, or are counted from an end that their edge does not have. */
function misplacedPackers({ file, at }: ProfileSet): Problem[] {
  return file.lights.flatMap((kind) =>
    file.packers[kind].packers.flatMap(({ use, edge, near }, i) => {
      const path = ['packers', kind, 'packers', i];
      const level = edge === 'bottom' || edge === 'top';
      const across = level ? ['bottom', 'top'] : edge === 'left' || edge === 'right' ? ['left', 'right'] : [];
      return [
        ...(use === 'setting' && edge !== 'bottom'
          ? [raise('set.setting', { n: i + 1, kind, edge }, at([...path, 'edge']))]
          : []),
        ...(across.includes(near)
          ? [raise('set.unused/near', { n: i + 1, kind, edge, near }, at([...path, 'near']))]
          : []),
      ];
    }),
  );
}

/** Rows of gears and stays that begin above their end: they take nothing. */
function turnedRows({ file, at }: ProfileSet): Problem[] {
  const told = (row: { readonly from: number; readonly to: number }, path: readonly PropertyKey[]) =>
    row.from > row.to
      ? [raise('set.range', { from: String(row.from), to: String(row.to) }, at([...path, 'from']))]
      : [];
  return [
    ...(file.hardware.gears?.list ?? []).flatMap((row, i) => told(row, ['hardware', 'gears', 'list', i])),
    ...(file.hardware.stays?.chart ?? []).flatMap((stay, i) =>
      (['top-hung', 'side-hung'] as const).flatMap((kind) =>
        stay[kind] ? told(stay[kind], ['hardware', 'stays', 'chart', i, kind]) : [],
      ),
    ),
  ];
}
