/** Reads a profile set: file validated, formulas compiled and type-checked, sizes put in evaluation order. */
import { type Formula, FormulaSpace, isProblem } from '../base/formula.js';
import { nearest } from '../base/knownkeys.js';
import {
  err,
  ok,
  type Place,
  type Problem,
  problemFactory,
  type Result,
  type SourceText,
} from '../base/problem.js';
import type { Source } from '../base/schemas.js';
import type { Message } from '../base/words.js';
import { readYaml } from '../base/yaml.js';
import { WINDOW_MESSAGES } from './messages.js';
import { formulasOf, makes, namesOf, needed, SCOPES, type Scope, wanted } from './setformulas.js';
import { type ProfileSetFile, profileSetSchema } from './setschema.js';
import type { Trace } from './types.js';
import { windowWords } from './words.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** In a clearance: either end of the part. */
export const PART_END = 'end';

interface OrderedSize {
  readonly name: string;
  readonly group: string;
  readonly field: string;
  readonly formula: Formula;
  readonly unit: Trace['unit'];
}

export interface ProfileSet {
  readonly name: string;
  readonly title: string;
  readonly invented: boolean;
  /** As shown in problems. */
  readonly source: string;
  readonly file: ProfileSetFile;
  readonly figures: Readonly<Record<string, number>>;
  readonly constants: Readonly<Record<string, number>>;
  readonly constantsMap: ReadonlyMap<string, number>;
  /** Sizes of each scope, each after those it depends on. */
  readonly sizes: Readonly<Record<Scope, readonly OrderedSize[]>>;
  /** Formulas in which a whole number is divided by a whole number. */
  readonly divided: readonly Problem[];
  formula(scope: Scope, text: string, want?: 'number' | 'bool'): Formula;
  sourceOf(name: string): Source;
  /** A feature's name in drawings and messages. */
  titleOf(feature: string): string;
  at(path: readonly PropertyKey[]): Place;
}

export function parseProfileSet(source: SourceText): Result<ProfileSet> {
  const read = readYaml(source, profileSetSchema);
  if (!read.ok) return read;
  const { value: file, at } = read.value;
  const problems: Problem[] = [...references(file, at), ...missing(file, at)];

  const early = {} as Record<Scope, FormulaSpace>;
  const late = {} as Record<Scope, FormulaSpace>;
  for (const scope of SCOPES) {
    early[scope] = new FormulaSpace(namesOf(file, scope, false));
    late[scope] = new FormulaSpace(namesOf(file, scope, true));
  }
  for (const { path, scope, text, want, late: isLate } of formulasOf(file)) {
    const made = (isLate ? late : early)[scope].compile(text, wanted(want), at(path));
    if (isProblem(made)) problems.push(made);
  }
  if (problems.length > 0) return err(...unique(problems));

  const constants = Object.fromEntries(
    Object.entries(file.constants).map(([name, { value }]) => [name, value]),
  );
  const compiled = { unit: new Map(), divider: new Map(), fixed: new Map(), opening: new Map() } as Record<
    Scope,
    Map<string, Formula>
  >;
  const formula = (scope: Scope, text: string, want: 'number' | 'bool' = 'number'): Formula => {
    let made = compiled[scope].get(text);
    if (made === undefined) {
      // Late names include all early names, and everything was checked above.
      const found = late[scope].compile(text, wanted(want));
      /* v8 ignore next -- every formula of the file was compiled when its formulas were checked, with fewer names */
      if (isProblem(found)) throw new Error(`not checked before: ${text}`);
      made = found;
      compiled[scope].set(text, made);
    }
    return made;
  };
  const divided = formulasOf(file).flatMap(({ path, scope, text, want }) =>
    formula(scope, text, want).dividesWhole ? [raise('set.number', { formula: text }, at(path))] : [],
  );
  const sizes = {} as Record<Scope, OrderedSize[]>;
  for (const scope of SCOPES) {
    const ordered = inOrder(file, scope, formula, at);
    if (!Array.isArray(ordered)) return err(ordered);
    sizes[scope] = ordered;
  }
  return ok({
    name: file.name,
    title: file.title,
    invented: file.invented,
    source: source.file,
    file,
    constants,
    constantsMap: new Map(Object.entries(constants)),
    figures: Object.fromEntries(
      Object.entries(file.figures).map(([name, { value }]) => [
        name,
        typeof value === 'number' ? value : constants[value]!,
      ]),
    ),
    sizes,
    divided: unique(divided),
    formula,
    // References were checked: every named source or feature exists.
    sourceOf: (name) => file.sources[name]!,
    titleOf: (feature) => (feature === PART_END ? 'the end of the part' : file.features[feature]!.title),
    at,
  });
}

/** Orders a scope's sizes so that each follows those it reads; a cycle is a problem. */
function inOrder(
  file: ProfileSetFile,
  scope: Scope,
  formula: ProfileSet['formula'],
  at: ProfileSet['at'],
): OrderedSize[] | Problem {
  const out: OrderedSize[] = [];
  const state = new Map<string, 'doing' | 'done'>();
  const own = file.sizes[scope];
  const visit = (name: string, trail: readonly string[]): Problem | undefined => {
    const size = own[name];
    if (size === undefined || state.get(name) === 'done') return undefined;
    if (state.get(name) === 'doing')
      return raise(
        'set.circular',
        { ring: [...trail.slice(trail.indexOf(name)), name].join(' → ') },
        at(['sizes', scope, name]),
      );
    state.set(name, 'doing');
    const made = formula(scope, size.formula);
    for (const used of made.names) {
      const ring = visit(used, [...trail, name]);
      if (ring) return ring;
    }
    state.set(name, 'done');
    const [group, field] = name.split('.') as [string, string];
    out.push({ name, group, field, formula: made, unit: size.unit });
    return undefined;
  };
  for (const name of Object.keys(own)) {
    const ring = visit(name, []);
    if (ring) return ring;
  }
  return out;
}

function missing(file: ProfileSetFile, at: ProfileSet['at']): Problem[] {
  const problems: Problem[] = [];
  for (const scope of SCOPES) {
    const { sizes, boxes } = needed(file, scope);
    for (const name of sizes)
      if (file.sizes[scope][name] === undefined)
        problems.push(raise('set.missing', { scope, name }, at(['sizes', scope])));
    for (const name of boxes)
      if (file.boxes[scope as 'fixed' | 'opening'][name] === undefined)
        problems.push(raise('set.missing/boxes', { scope, name }, at(['boxes', scope])));
  }
  for (const direction of ['upright', 'level'] as const)
    if (file.joints.length > 0 && file.layout[direction] === undefined)
      problems.push(raise('set.missing/face', { direction }, at(['layout'])));
  for (const kind of file.lights) {
    const { stays, hinges } = file.hardware;
    if (kind === 'fixed') continue;
    const onStays = stays?.chart.some((stay) => stay[kind] !== undefined) ?? false;
    const onHinges = hinges?.list.some((row) => row.for === kind) ?? false;
    if (onStays && onHinges) problems.push(raise('set.hung-twice', { kind }, at(['hardware', 'hinges'])));
  }
  if (makes(file, 'opening') && file.hardware.gears && !file.hardware.handle)
    problems.push(raise('set.missing/handle', {}, at(['hardware', 'gears'])));
  file.marks.forEach(({ rule }, i) => {
    if ('each' in rule && !file.hardware[rule.each === 'locks' ? 'gears' : 'hinges'])
      problems.push(raise('set.missing/each', { each: rule.each }, at(['marks', i, 'rule', 'each'])));
  });
  return problems;
}

function references(file: ProfileSetFile, at: ProfileSet['at']): Problem[] {
  const problems: Problem[] = [];
  const unknown = (what: Message, path: readonly PropertyKey[], name: string, known: readonly string[]) => {
    const near = nearest(name, known);
    problems.push(
      near === undefined
        ? raise('set.unknown', { what, known: [...known] }, at(path))
        : raise('set.unknown/near', { what, near, known: [...known] }, at(path)),
    );
  };
  const features = Object.keys(file.features);
  const source = (name: string, path: readonly PropertyKey[]) => {
    if (!Object.hasOwn(file.sources, name))
      unknown(windowWords('thing-source', { name }), path, name, Object.keys(file.sources));
  };
  for (const [name, constant] of Object.entries(file.constants))
    source(constant.source, ['constants', name, 'source']);
  file.clearances.forEach(({ source: s, between }, i) => {
    source(s, ['clearances', i, 'source']);
    for (const kind of between)
      if (kind !== PART_END && !Object.hasOwn(file.features, kind))
        unknown(windowWords('thing-feature', { name: kind }), ['clearances', i, 'between'], kind, features);
  });
  file.checks.forEach((check, i) => {
    source(check.source, ['checks', i, 'source']);
  });
  for (const [name, figure] of Object.entries(file.figures)) {
    source(figure.source, ['figures', name, 'source']);
    if (typeof figure.value === 'string' && !Object.hasOwn(file.constants, figure.value))
      unknown(
        windowWords('thing-constant', { name: figure.value }),
        ['figures', name, 'value'],
        figure.value,
        Object.keys(file.constants),
      );
  }
  for (const [key, group] of Object.entries(file.hardware))
    if (group) source(group.source, ['hardware', key, 'source']);
  if (file.glass) source(file.glass.bead_source, ['glass', 'bead_source']);
  if (file.escape) source(file.escape.source, ['escape', 'source']);

  const boxes = (per: string): string[] => {
    const fixed = Object.keys(file.boxes.fixed);
    const opening = Object.keys(file.boxes.opening);
    return per === 'fixed' ? fixed : per === 'light' ? fixed.filter((b) => opening.includes(b)) : opening;
  };
  file.marks.forEach((mark, i) => {
    if (!Object.hasOwn(file.features, mark.kind))
      unknown(windowWords('thing-feature', { name: mark.kind }), ['marks', i, 'kind'], mark.kind, features);
    const known = mark.per === 'unit' ? [] : ['sight', ...boxes(mark.per)];
    const box = mark.on.includes('.') ? mark.on.split('.')[0]! : undefined;
    // Of every light, and only opening ones have that box.
    const lacking =
      mark.per === 'light' ? [box, mark.along].find((each) => each && !known.includes(each)) : undefined;
    if (lacking && Object.hasOwn(file.boxes.opening, lacking)) {
      problems.push(
        raise('set.unknown/opening', { name: lacking }, at(['marks', i, box === lacking ? 'on' : 'along'])),
      );
      return;
    }
    if (box !== undefined && !known.includes(box))
      unknown(windowWords('thing-box', { name: box }), ['marks', i, 'on'], box, known);
    if (mark.along !== undefined && !known.includes(mark.along))
      unknown(windowWords('thing-box', { name: mark.along }), ['marks', i, 'along'], mark.along, known);
    const other =
      'beside' in mark.rule ? mark.rule.beside : 'same_as' in mark.rule ? mark.rule.same_as : undefined;
    if (other && !file.marks.slice(0, i).some((m) => m.kind === other.kind && m.on === other.on))
      unknown(
        windowWords('thing-mark', { name: other.kind, on: other.on }),
        ['marks', i, 'rule'],
        other.kind,
        file.marks.slice(0, i).map(({ kind }) => kind),
      );
  });
  for (const scope of ['unit', 'divider', 'fixed', 'opening'] as const) {
    file.parts[scope].forEach((part, i) => {
      const known = scope === 'fixed' || scope === 'opening' ? boxes(scope) : ['frame'];
      if (part.box !== undefined && !known.includes(part.box))
        unknown(windowWords('thing-box', { name: part.box }), ['parts', scope, i, 'box'], part.box, known);
    });
    file.pieces[scope].forEach((piece, i) => {
      if (piece.marks !== undefined && !Object.hasOwn(file.features, piece.marks))
        unknown(
          windowWords('thing-feature', { name: piece.marks }),
          ['pieces', scope, i, 'marks'],
          piece.marks,
          features,
        );
    });
  }
  return problems;
}

function unique(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return problems.filter(({ id, text }) => {
    const key = `${id} ${text}`;
    return !seen.has(key) && seen.add(key);
  });
}
