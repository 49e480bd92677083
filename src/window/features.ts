/** Rows of marks that the set's mark rules require on this unit, before clashes are resolved. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import type { DividerItem, LightItem } from './geometry.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { MadeSum, Numbers } from './numbers.js';
import type { DraftPart } from './parts.js';
import { isLevelSide, type PartPlace, type Seats, sideOf, wallText } from './places.js';
import type { ProfileSet } from './profileset.js';
import type { MarkRule } from './setschema.js';
import type { Sheet } from './sheet.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** A row of marks of one kind on one part. Positions are from the window's outer edge, along the part's axis. */
export interface Row<L extends RowLayout = RowLayout> {
  readonly id: string;
  readonly part: DraftPart;
  readonly kind: string;
  readonly face: -1 | 0 | 1;
  readonly side: string;
  readonly item: string;
  readonly half: number;
  readonly made: 0 | 1 | 2;
  readonly rank: number;
  readonly layout: L;
  /** The stretch its end distances are measured from. */
  readonly from: number;
  readonly length: number;
}

export type OwnLayout =
  | {
      readonly is: 'standing';
      readonly at: readonly {
        readonly at: number;
        /** Where its rule alone puts it, if it follows a mark that moved. */
        readonly ruled?: number;
        readonly why: () => MadeSum;
      }[];
      /** What it follows, in words. */
      readonly follows?: string;
    }
  | {
      readonly is: 'spaced';
      readonly end: number;
      readonly pitch: number;
      readonly count: number;
      readonly more: number;
      /** Minimum and maximum distance from the end, if the ends may move. */
      readonly endRange: readonly [number, number] | undefined;
      readonly lengthName: string;
      readonly fromName: string;
    }
  | {
      readonly is: 'free';
      readonly at: readonly {
        readonly at: number;
        readonly low: number;
        readonly high: number;
        readonly half?: number;
        /** Where its rule alone puts it, if it follows a mark that moved. */
        readonly ruled?: number;
        readonly why: () => MadeSum;
      }[];
      /** What it follows, in words. */
      readonly follows?: string;
    };
/** One beside each mark of another row, towards the middle. */
export interface BesideLayout {
  readonly is: 'beside';
  /** Id of the other row. */
  readonly row: string;
  readonly by: number;
  readonly range: readonly [number, number] | undefined;
}
type FollowingLayout = BesideLayout | { readonly is: 'same'; readonly row: string };
type RowLayout = OwnLayout | FollowingLayout;

/** The classes in which marks give way, first to last. */
export const CLASSES = ['loose', 'drilled', 'punched'] as const;

/** The number of equal spaces that keep the pitch, plus one. */
const countOf = (length: number, end: number, pitch: number, least: number): number =>
  pitch > 0 ? Math.max(least, Math.ceil((length - 2 * end) / pitch - 1e-9) + 1) : Number.POSITIVE_INFINITY;

/** More marks in one row than this are a pitch mistyped. */
const MOST_IN_ROW = 200;

/** Where hardware of a light lies along its sash, by light. */
type Places = Readonly<Record<'locks' | 'hinges', ReadonlyMap<string, readonly number[]>>>;

export function rowsOf(
  set: ProfileSet,
  numbers: Numbers,
  unitSheet: Sheet,
  lights: readonly LightItem[],
  dividers: readonly DividerItem[],
  seats: Seats,
  hardware: Places,
  problems: Problem[],
): Row[] {
  const rows: Row[] = [];
  const { marks, features } = set.file;
  marks.forEach((rule, i) => {
    /** No part stands there: a mark is never left out in silence. */
    const missing = (item: string) =>
      problems.push(
        raise(
          'setout.no-part',
          { mark: set.titleOf(rule.kind), on: rule.on, item },
          set.at(['marks', i, 'on']),
        ),
      );
    const crowded = (item: string, pitch: number) =>
      problems.push(
        raise(
          'setout.crowded',
          { mark: set.titleOf(rule.kind), item, pitch: mmText(pitch), most: MOST_IN_ROW },
          set.at(['marks', i, 'rule']),
        ),
      );
    const feature = features[rule.kind]!;
    const half = unitSheet.value(feature.length) / 2;
    /** What every row of this rule has, on its part. */
    const on = ({ part, face, side }: PartPlace) => ({
      kind: rule.kind,
      half,
      made: CLASSES.indexOf(feature.made) as Row['made'],
      rank: feature.yields,
      part,
      face,
      side: wallText(rule.wall, side),
    });
    if (rule.per === 'unit') {
      if (!unitSheet.holds(rule.when)) return;
      const place = seats.ofFrame(rule.on);
      if (!place) {
        missing('frame');
        return;
      }
      const level = isLevelSide(place.at);
      const names = { from: 'place.frame', length: level ? 'unit.width' : 'unit.height' };
      numbers.made(names.from, 0, 'mm', numbers.sum`${0}`);
      rows.push({
        ...on(place),
        id: `frame/${rule.kind}/${rule.on}`,
        item: 'frame',
        from: 0,
        length: unitSheet.get('unit', level ? 'width' : 'height'),
        layout: layoutOf(
          rule,
          { id: 'frame', sheet: unitSheet },
          0,
          unitSheet.get('unit', level ? 'width' : 'height'),
          names,
          numbers,
          [],
          feature.moves,
          crowded,
        ),
      });
      return;
    }
    if (rule.per === 'divider')
      for (const divider of dividers) {
        if (!divider.sheet.holds(rule.when)) continue;
        const places = seats.ofDivider(divider, rule.on);
        if (places.length < (rule.on === 'ends' ? 2 : 1)) missing(divider.id);
        places.forEach((place, end) => {
          const self = rule.on === 'self';
          const centre = self ? divider.start : divider.placed.centre;
          const name = self ? `place.${divider.id}.start` : `divider.${divider.id}.centre`;
          rows.push({
            ...on(place),
            id: `${divider.id}/${rule.kind}/${rule.on}/${end}`,
            item: divider.id,
            from: centre,
            length: 0,
            layout: {
              is: 'standing',
              at: offsets(rule, divider.sheet).map(({ offset }) => ({
                at: centre + offset,
                why: numbers.sum`${name} + ${offset}`,
              })),
            },
          });
        });
      }
    else
      for (const light of lights) {
        if (rule.per !== 'light' && rule.per !== light.scope && rule.per !== light.kind) continue;
        if (!light.sheet.holds(rule.when)) continue;
        const place = seats.ofLight(light, rule.on);
        const boxName = rule.along ?? (rule.on.includes('.') ? rule.on.split('.')[0]! : 'sight');
        const box = light.boxes.get(boxName);
        // A side that such a light does not have is told by lint.
        if (!place && sideOf(light, rule.on.split('.').at(-1)!) !== undefined) missing(light.id);
        if (!place || !box) continue;
        const level = isLevelSide(place.at);
        const from = level ? box.x : box.y;
        const length = level ? box.w : box.h;
        const names = {
          from: `place.${light.id}.${boxName}.${level ? 'x' : 'y'}`,
          length: `place.${light.id}.${boxName}.${level ? 'w' : 'h'}`,
        };
        rows.push({
          ...on(place),
          id: `${light.id}/${rule.kind}/${rule.on}`,
          item: light.id,
          from,
          length,
          layout: layoutOf(
            rule,
            light,
            from,
            length,
            names,
            numbers,
            'each' in rule.rule ? (hardware[rule.rule.each].get(light.id) ?? []) : [],
            feature.moves,
            crowded,
          ),
        });
      }
  });
  return rows;
}

function offsets(rule: MarkRule, sheet: Sheet): { offset: number }[] {
  return 'at' in rule.rule && !('each' in rule.rule)
    ? rule.rule.at.map((text) => ({ offset: sheet.value(text) }))
    : [];
}

function layoutOf(
  mark: MarkRule,
  light: Pick<LightItem, 'id' | 'sheet'>,
  from: number,
  length: number,
  names: { readonly from: string; readonly length: string },
  numbers: Numbers,
  places: readonly number[],
  moves: boolean,
  crowded: (item: string, pitch: number) => void,
): RowLayout {
  const { rule } = mark;
  const { sheet } = light;
  const pair = (range: readonly [string, string] | undefined): [number, number] | undefined =>
    range && [sheet.value(range[0]), sheet.value(range[1])];
  if ('spaced' in rule) {
    const end = sheet.value(rule.spaced.end);
    const pitch = sheet.value(rule.spaced.pitch);
    const count = countOf(length, end, pitch, rule.spaced.least);
    if (count > MOST_IN_ROW) {
      crowded(light.id, pitch);
      return { is: 'standing', at: [] };
    }
    return {
      is: 'spaced',
      end,
      pitch,
      count,
      more: rule.spaced.more,
      endRange: pair(rule.spaced.end_range),
      lengthName: names.length,
      fromName: names.from,
    };
  }
  if ('both_ends' in rule) {
    const end = sheet.value(rule.both_ends.end);
    const [low, high] = (moves && pair(rule.both_ends.range)) || [end, end];
    return {
      is: 'free',
      at: [
        { at: from + end, low: from + low, high: from + high, why: numbers.sum`${names.from} + ${end}` },
        {
          at: from + length - end,
          low: from + length - high,
          high: from + length - low,
          why: numbers.sum`${names.from} + ${names.length} - ${end}`,
        },
      ],
    };
  }
  if ('beside' in rule)
    return {
      is: 'beside',
      row: `${light.id}/${rule.beside.kind}/${rule.beside.on}`,
      by: sheet.value(rule.beside.by),
      range: moves ? pair(rule.beside.range) : undefined,
    };
  if ('same_as' in rule) return { is: 'same', row: `${light.id}/${rule.same_as.kind}/${rule.same_as.on}` };
  const stand = (text: string, i: number, alias?: Readonly<Record<string, string>>) => {
    const name = `rule.${light.id}.${mark.kind}.${mark.on}.${i + 1}`;
    const at = sheet.named(name, text, 'mm', alias);
    return { at: from + at, why: numbers.sum`${names.from} + ${name}` };
  };
  const range = 'range' in rule && rule.range !== undefined && moves ? sheet.value(rule.range) : undefined;
  if (range !== undefined && !('each' in rule))
    return {
      is: 'free',
      at: rule.at.map((text, i) => {
        const { at, why } = stand(text, i);
        return { at, low: at - range, high: at + range, why };
      }),
    };
  if ('each' in rule)
    return {
      is: 'standing',
      at: places.map((place, i) => {
        const [one, numbered] = rule.each === 'locks' ? ['lock', 'lock'] : ['place', 'hinge'];
        return sheet.withNumber(one, place, () =>
          stand(rule.at, i, { [one]: `${numbered}.${light.id}.${i + 1}` }),
        );
      }),
    };
  return { is: 'standing', at: rule.at.map((text, i) => stand(text, i)) };
}
