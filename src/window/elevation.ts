/** The window seen from outside, as geometry shared by all drawings. Origin bottom left, y upwards, mm. */
import type { DividerSetOut, HingeSide, LightKind, Packer, Rect, SetOut, Spot } from './types.js';

interface Point {
  readonly x: number;
  readonly y: number;
}
export interface Segment {
  readonly a: Point;
  readonly b: Point;
  /** The light whose sash or add-on frame it lies on, if any. */
  readonly light?: string;
}
export interface Spotted extends Point {
  readonly light?: string;
}

export interface ElevationLight {
  readonly id: string;
  readonly kind: LightKind;
  readonly hinge?: HingeSide;
  /** Away from whoever looks at it from outside. */
  readonly opensIn: boolean;
  /** Between the sight lines of frame and dividers. */
  readonly box: Rect;
  readonly sash: Rect | null;
  readonly addon: Rect | null;
  readonly glass: Rect | null;
  readonly handle: Point | null;
}

export interface ElevationMark extends Point {
  readonly part: string;
  readonly role: string;
  readonly kind: string;
  readonly item: string;
  /** Along its part from the datum end. */
  readonly at: number;
  readonly axis: 'x' | 'y';
}

/** How two members of the frame meet: at a mitre, or one runs through and the other ends at it. */
type Corner = 'mitre' | 'upright-through' | 'level-through';

export interface Elevation {
  readonly unit: string;
  readonly w: number;
  readonly h: number;
  readonly inner: Rect;
  /** From the bottom left one, against the clock. */
  readonly corners: readonly Corner[];
  readonly lights: readonly ElevationLight[];
  readonly dividers: readonly Pick<DividerSetOut, 'id' | 'direction' | 'box'>[];
  readonly marks: readonly ElevationMark[];
  readonly packers: readonly (Point & { readonly light: string; readonly use: Packer['use'] })[];
}

export function elevation(setOut: SetOut): Elevation {
  const { unit, lights, dividers } = setOut;
  return {
    unit: unit.id,
    w: unit.width,
    h: unit.height,
    inner: setOut.inner,
    corners: cornersOf(setOut),
    lights: lights.map((light): ElevationLight => {
      const sash = light.sash?.box ?? null;
      return {
        id: light.id,
        kind: light.kind,
        ...(light.hinge && { hinge: light.hinge }),
        opensIn: light.opens_in,
        box: light.box,
        sash,
        addon: light.rings.addon ?? null,
        glass: light.glass?.box ?? null,
        handle: sash && light.handle ? handlePoint(sash, light.handle_side, light.handle.on_sash) : null,
      };
    }),
    dividers: dividers.map(({ id, direction, box }) => ({ id, direction, box })),
    marks: setOut.parts.flatMap(({ id, role, seat, marks, light }) =>
      seat === null
        ? []
        : marks.map(({ kind, at, item }): ElevationMark => {
            const along = seat.from + at;
            const place = seat.axis === 'x' ? { x: along, y: seat.across } : { x: seat.across, y: along };
            return { ...place, part: id, role, kind, item: light ?? item, at, axis: seat.axis };
          }),
    ),
    packers: lights.flatMap((light) =>
      light.packers.map(({ edge, centre, use }) => {
        // Packers are of glass.
        const { x, y, w, h } = light.glass!.box;
        const place =
          edge === 'bottom' || edge === 'top'
            ? { x: x + centre, y: edge === 'top' ? y + h : y }
            : { x: edge === 'right' ? x + w : x, y: y + centre };
        return { ...place, light: light.id, use };
      }),
    ),
  };
}

function cornersOf({ parts, unit }: SetOut): Corner[] {
  const member = (role: string) => parts.find((part) => part.light === null && part.role === role);
  return (['left', 'right', 'right', 'left'] as const).map((side, i): Corner => {
    const level = member(i < 2 ? 'frame-sill' : 'frame-head');
    const upright = member(`frame-${side}`);
    const square = level?.ends[side === 'left' ? 0 : 1] === 90 && upright?.ends[i < 2 ? 0 : 1] === 90;
    if (!level?.seat || !upright?.seat || !square) return 'mitre';
    const reaches =
      side === 'left' ? level.seat.from <= 1e-6 : level.seat.from + level.length >= unit.width - 1e-6;
    return reaches ? 'level-through' : 'upright-through';
  });
}

function handlePoint({ x, y, w }: Rect, side: 'left' | 'right' | 'bottom' | null, at: number): Point {
  if (side === 'bottom') return { x: x + at, y };
  return { x: side === 'right' ? x + w : x, y: y + at };
}

/** What a spot means on this window: lines to emphasise, points to mark, marks to dimension. */
export interface SpotPlaces {
  readonly lines: readonly Segment[];
  readonly points: readonly Spotted[];
  readonly measures: readonly ElevationMark[];
}

export function spotPlaces(view: Elevation, spot: Spot | undefined, item: string | undefined): SpotPlaces {
  const nothing: SpotPlaces = { lines: [], points: [], measures: [] };
  if (spot === undefined || spot === 'whole') return nothing;
  const frame: Rect = { x: 0, y: 0, w: view.w, h: view.h };
  const lights = item === undefined ? view.lights : view.lights.filter(({ id }) => id === item);
  // An opening light has a hinge, a sash and an add-on frame, or a line standing in for one.
  const opening = lights.flatMap(({ id, hinge, sash, addon }) =>
    hinge && sash && addon ? [{ id, hinge, sash, addon }] : [],
  );
  const dividers = item === undefined ? view.dividers : view.dividers.filter(({ id }) => id === item);
  const lines = (found: readonly Segment[]): SpotPlaces => ({ ...nothing, lines: found });
  const points = (found: readonly Spotted[]): SpotPlaces => ({ ...nothing, points: found });
  const marks = (test: (mark: ElevationMark) => boolean): SpotPlaces => {
    const found = view.marks.filter((mark) => test(mark) && (item === undefined || mark.item === item));
    const points = found.map(({ x, y, part, item: of }) => ({
      x,
      y,
      ...(/^L\d+\./.test(part) && { light: of }),
    }));
    return { lines: [], points, measures: found };
  };
  const sashSide = (side: 'top' | 'bottom' | 'hinge' | 'handle'): SpotPlaces =>
    lines(opening.map(({ id, sash, hinge }) => ({ ...sides(sash)[sideWord(side, hinge)], light: id })));
  switch (spot) {
    case 'frame':
      return lines(ring(frame));
    case 'frame-corners':
      return points(corners(frame));
    case 'head':
      return lines([sides(frame).top]);
    case 'sill':
      return lines([sides(frame).bottom]);
    case 'left-jamb':
      return lines([sides(frame).left]);
    case 'right-jamb':
      return lines([sides(frame).right]);
    case 'diagonals':
      return { ...lines(diagonals(frame)), points: corners(frame) };
    case 'drains':
      return marks(
        ({ kind, role }) => kind.startsWith('drain') && !role.startsWith('sash') && !role.startsWith('addon'),
      );
    case 'divider':
      return lines(dividers.map(middle));
    case 'divider-ends':
      return points(dividers.flatMap((divider) => Object.values(middle(divider))));
    case 'addon':
      return lines(opening.flatMap(({ id, addon }) => of(id, ring(addon))));
    case 'addon-corners':
      return points(opening.flatMap(({ id, addon }) => of(id, corners(addon))));
    case 'addon-fixings':
      return marks(({ kind }) => kind === 'fixing');
    case 'sash':
      return lines(opening.flatMap(({ id, sash }) => of(id, ring(sash))));
    case 'gap':
      return lines(opening.flatMap(({ id, sash }) => of(id, ring(sash))));
    case 'sash-corners':
      return points(opening.flatMap(({ id, sash }) => of(id, corners(sash))));
    case 'sash-diagonals':
      return {
        ...lines(opening.flatMap(({ id, sash }) => of(id, diagonals(sash)))),
        points: opening.flatMap(({ id, sash }) => of(id, corners(sash))),
      };
    case 'sash-top':
      return sashSide('top');
    case 'sash-bottom':
      return sashSide('bottom');
    case 'sash-hinge-side':
      return sashSide('hinge');
    case 'sash-handle-side':
      return sashSide('handle');
    case 'sash-drains':
      return marks(({ kind, role }) => kind.startsWith('drain') && role.startsWith('sash'));
    case 'stays':
      return marks(({ kind }) => kind === 'stay');
    case 'handle':
      return marks(({ kind }) => kind === 'handle');
    case 'keeps':
      return marks(({ kind }) => kind === 'keep');
    case 'glass':
    case 'beads':
      return lines(lights.flatMap(({ id, glass, box }) => of(id, ring(glass ?? box))));
    case 'packers':
      return points(view.packers.filter(({ light }) => item === undefined || light === item));
    case 'label':
      return points([{ x: view.w / 2, y: view.h }]);
  }
}

const of = <T extends object>(light: string, things: readonly T[]): (T & { light: string })[] =>
  things.map((thing) => ({ ...thing, light }));

function sideWord(
  side: 'top' | 'bottom' | 'hinge' | 'handle',
  hinge: HingeSide,
): 'top' | 'bottom' | 'left' | 'right' {
  if (side === 'top' || side === 'bottom') return side;
  if (side === 'hinge') return hinge;
  return hinge === 'top' ? 'bottom' : hinge === 'left' ? 'right' : 'left';
}

function sides({ x, y, w, h }: Rect): Record<'top' | 'bottom' | 'left' | 'right', Segment> {
  const [bl, br, tr, tl] = corners({ x, y, w, h }) as [Point, Point, Point, Point];
  return { bottom: { a: bl, b: br }, right: { a: br, b: tr }, top: { a: tl, b: tr }, left: { a: bl, b: tl } };
}
export const ring = (box: Rect): Segment[] => Object.values(sides(box));
const corners = ({ x, y, w, h }: Rect): Point[] => [
  { x, y },
  { x: x + w, y },
  { x: x + w, y: y + h },
  { x, y: y + h },
];
const diagonals = (box: Rect): Segment[] => {
  const [bl, br, tr, tl] = corners(box) as [Point, Point, Point, Point];
  return [
    { a: bl, b: tr },
    { a: br, b: tl },
  ];
};
export const middle = ({ direction, box }: Pick<DividerSetOut, 'direction' | 'box'>): Segment =>
  direction === 'upright'
    ? { a: { x: box.x + box.w / 2, y: box.y }, b: { x: box.x + box.w / 2, y: box.y + box.h } }
    : { a: { x: box.x, y: box.y + box.h / 2 }, b: { x: box.x + box.w, y: box.y + box.h / 2 } };

/** The opening triangle: two lines meeting at its apex, in the workshop's chosen convention. */
export function openingTriangle(
  { sash, hinge }: ElevationLight,
  convention: 'apex-at-hinge' | 'apex-at-handle',
): Segment[] {
  if (!sash || !hinge) return [];
  const away = hinge === 'top' ? 'bottom' : hinge === 'left' ? 'right' : 'left';
  const [at, from] = convention === 'apex-at-hinge' ? ([hinge, away] as const) : ([away, hinge] as const);
  const apexSide = sides(sash)[at];
  const base = sides(sash)[from];
  const apex: Point = { x: (apexSide.a.x + apexSide.b.x) / 2, y: (apexSide.a.y + apexSide.b.y) / 2 };
  return [
    { a: base.a, b: apex },
    { a: base.b, b: apex },
  ];
}
